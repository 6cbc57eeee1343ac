"""The crib for the wall: every kind of sentence, the ways, the lengths, the crossings and the checks.

None of its sentences is written here: they stand in `crib.md`, which is a lesson and draws, and are
printed by the language's own printer beside what the language says each kind makes. A kind of sentence that
has no example there is a fault, and raises.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from importlib.resources import files

from tapewright.app.library import lessons, wearers
from tapewright.diagnostics import Source
from tapewright.draft import evaluate, from_sheets
from tapewright.language import Clause, IfSentence, Lesson, Sentence, read_amendments, read_lesson
from tapewright.language.claims import show_claim
from tapewright.language.clause import BY_KIND, BY_LEAD
from tapewright.language.house_style import say_sentence, style_of
from tapewright.language.pattern import Style, listed
from tapewright.language.rewording import PHRASES
from tapewright.language.saying import show
from tapewright.language.sentences import CallIt, Curve, From, Let, SeeThat, Sweep
from tapewright.language.ways import show_crossing, show_leaning, show_way
from tapewright.measures import read_sheet
from tapewright.pages import QUARTER, Block, Paper, draw_field
from tapewright.pages.crib import Crib, CribBox, CribSaid, CribWord, crib_page
from tapewright.pages.from_draft import plate_of
from tapewright.plan import build_plan

WEARER = "margery-thorne"

RULES = (
    "The first word says what the sentence does. A letter is made once and never moves.",
    "“From” says where, then which way; “Square” says which way, then where; then come letter and length.",
    "A-B is the ruler’s way; a curve is measured by its name. Measured first, filled if not.",
)

#: What a conditional makes; it is no clause and has no words of its own in the table of kinds.
_IF = "one way or the other"


def crib_texts() -> tuple[str, str, str]:
    """The lesson of the crib, the one that begins from another draft, and the amendments."""
    text = (files("tapewright") / "app" / "crib.md").read_text(encoding="utf-8")
    lesson, placed, fitting = text.split("\n---\n")
    return lesson, placed.lstrip(), fitting.lstrip()


def crib_lessons() -> tuple[Lesson, Lesson]:
    """Both lessons, read."""

    def find(title: str) -> Source | None:
        for path in lessons().values():
            text = path.read_text(encoding="utf-8")
            if text.startswith(f"# {title}\n"):
                return Source(path.name, text)
        return None

    one, placed, _ = crib_texts()
    return read_lesson(Source("crib.md", one), find), read_lesson(Source("crib.md", placed), find)


def crib() -> Crib:
    """What stands on the crib. ValueError when a kind of sentence has no example, or one cannot be read."""
    lesson, placed = crib_lessons()
    if lesson.queries or placed.queries:
        raise ValueError(f"the crib asks: {[q.message for q in (*lesson.queries, *placed.queries)]}")
    wanting = set(BY_KIND) - {c.kind for one in (lesson, placed) for _, s in _said(one) for c in _clauses(s)}
    if wanting:
        raise ValueError(f"the crib has no example of {listed(sorted(wanting))}")
    style = style_of(lesson)
    leads = _leads(lesson)
    shown: dict[str, list[CribSaid]] = {}
    for one in (lesson, placed):
        for heading, said in _said(one):
            if heading in leads:
                shown.setdefault(heading, []).append(_example(said, style_of(one)))
    words = tuple(CribWord(lead, tuple(shown[lead])) for lead in leads)
    return Crib(lesson.title, RULES, _plate(), words, tuple(_boxes(lesson, style)))


def _plate() -> Block:
    """What the sentences speak of, drawn for a demo wearer: the lesson up to its first From."""
    text = crib_texts()[0].split("\n## From\n")[0]
    count = len(re.findall(r"^\d+\. ", text, re.MULTILINE))
    text += f"\n{count + 1}. Cut the back once of cloth, leaving nothing everywhere.\n"
    path = wearers()[WEARER]
    sheet, _ = read_sheet(Source(path.name, path.read_text(encoding="utf-8")))
    if sheet is None:
        raise ValueError(f"the sheet of {WEARER} cannot be read")
    plan = build_plan(read_lesson(Source("crib.md", text)))
    draft = evaluate(plan, from_sheets([sheet], plan.measures()))
    return draw_field(plate_of(draft), QUARTER).block


def _leads(lesson: Lesson) -> tuple[str, ...]:
    """The headings that are leading words, in the order of the lesson."""
    texts = dict.fromkeys(h.text for h in lesson.headings)
    return tuple(t for t in texts if t.split()[0].lower() in {*BY_LEAD, "if"})


def _said(lesson: Lesson) -> Iterator[tuple[str, Sentence | IfSentence]]:
    """Every sentence with the heading that it stands under."""
    for item in lesson.items:
        for said in item.sentences:
            yield lesson.headings[item.heading].text, said


def _clauses(said: Sentence | IfSentence) -> list[Clause]:
    every = said.clauses if isinstance(said, Sentence) else (*said.then, *said.otherwise)
    return [clause for clause in every if isinstance(clause, Clause)]


def _example(said: Sentence | IfSentence, style: Style) -> CribSaid:
    words = say_sentence(said, style)
    assert words is not None  # read without a question, or the crib was refused
    if isinstance(said, IfSentence):
        return CribSaid(words, _IF)
    made = [c.yields for c in _clauses(said) if not isinstance(c, CallIt)]
    return CribSaid(words, "; ".join(dict.fromkeys(made)))


def _boxes(lesson: Lesson, style: Style) -> Iterator[CribBox]:
    under: dict[str, list[Clause]] = {}
    for heading, said in _said(lesson):
        under.setdefault(heading, []).extend(_clauses(said))
    yield CribBox("Which way", _ways(under["Ways"], style))
    yield CribBox("How far", _lengths(under["Lengths"], style))
    yield CribBox("Where there are two crossings, after a comma", _crossings(under["Crossings"]))
    yield CribBox("How a curve leans at its letters", _leanings(under["Leanings"], style))
    claims = tuple(show_claim(c.claim, style) for c in under["Checks"] if isinstance(c, SeeThat))
    yield CribBox("What a check may say", claims)
    yield CribBox("At a fitting, kept beside the lesson", _amendments(lesson), running=False)
    yield CribBox("You may also say, among others", _other_words())


def _ways(said: list[Clause], style: Style) -> tuple[str, ...]:
    return tuple(show_way(c.way, style) for c in said if isinstance(c, From) and c.way is not None)


def _lengths(said: list[Clause], style: Style) -> tuple[str, ...]:
    return tuple(show(c.amount, style) for c in said if isinstance(c, Let))


def _crossings(said: list[Clause]) -> tuple[str, ...]:
    ends = [c.end for c in said if isinstance(c, From | Sweep)]
    return tuple(show_crossing(e.crossing) for e in ends if e is not None and e.crossing is not None)


def _leanings(said: list[Clause], style: Style) -> tuple[str, ...]:
    found = [show_leaning(one, style) for c in said if isinstance(c, Curve) for one in c.leanings]
    return tuple(dict.fromkeys([*found, "bending both ways"]))


def _amendments(lesson: Lesson) -> tuple[str, ...]:
    """The three forms, as they are written; ValueError when one cannot be read."""
    text = crib_texts()[2]
    found, queries = read_amendments(Source("crib.md", text), lesson)
    if queries:
        raise ValueError(f"the crib's amendments ask: {[q.message for q in queries]}")
    return tuple(text[one.span.start : one.span.end] for one in found)


def _other_words() -> tuple[str, ...]:
    """The other words of the trade that are understood, by the word that is written for them."""
    by_word: dict[str, list[str]] = {}
    for other, word in PHRASES.items():
        if other != word:
            by_word.setdefault(" ".join(word), []).append(" ".join(other))
    return tuple(f"{word.capitalize()}: {', '.join(others)}" for word, others in by_word.items())


def crib_pdf(paper: Paper) -> bytes:
    """The crib on one page, as a PDF. NoRoomForCrib where the paper is too small."""
    from tapewright.export import pdf

    made = crib()
    return pdf([crib_page(made, paper)], title=made.title)
