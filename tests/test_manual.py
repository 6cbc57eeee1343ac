"""The manual says what is so: every example runs, every drawing is fresh, every answer is the table's own."""

from __future__ import annotations

import re
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from tapewright.diagnostics import Source
from tapewright.language import read_lesson
from tapewright.language.clause import BY_KIND, BY_LEAD
from tapewright.language.house_style import formatted
from tapewright.language.rewording import _TURNS, PHRASES
from tapewright.language.tree import Offset, Way
from tapewright.measures import read_sheet
from tapewright.plan.plan import Place, each

ROOT = Path(__file__).parent.parent
sys.path.insert(0, str(ROOT / "docs"))
import fences  # noqa: E402
import manual_plates  # noqa: E402

TEXT = fences.MANUAL.read_text(encoding="utf-8")
FENCES = list(fences.fences(TEXT))
EXAMPLES = list(fences.examples(TEXT))
PLATES = manual_plates.manual_plates()
INLINE = sorted(
    set(re.findall(r"`([^`\n]+\.)`", re.sub(r"^```.*?^```$", "", TEXT, flags=re.DOTALL | re.MULTILINE)))
)


def _name(example: fences.Example) -> str:
    return f"{example.fence.kind} {example.fence.name or example.fence.words[:40].strip()}"


def test_every_fence_is_of_a_kind_and_no_name_is_given_twice() -> None:
    """What stands in a fence is run, or is a command."""
    assert {f.kind for f in FENCES} <= fences.KINDS
    named = [f.name for f in FENCES if f.name and f.kind != "slip"]
    assert len(named) == len(set(named))
    assert TEXT.count("```") == 2 * len(FENCES)


@pytest.mark.parametrize("example", EXAMPLES, ids=_name)
def test_every_example_runs(example: fences.Example) -> None:
    """Without a query; a slip with exactly the query it is named for."""
    found = [q.name for q in fences.run(example).queries]
    assert found == ([example.fence.name] if example.fence.kind == "slip" else [])


@pytest.mark.parametrize("example", [e for e in EXAMPLES if e.fence.kind != "fitting"], ids=_name)
def test_every_example_is_in_house_style(example: fences.Example) -> None:
    """The formatter would change nothing in it."""
    found = fences.run(example)
    assert formatted(Source("manual.md", example.text), found.draft.plan.lesson) == example.text


def _rewritten() -> Iterator[tuple[str, str]]:
    for fence in FENCES:
        if fence.kind == "rewritten":
            written, house = fence.words.splitlines()
            yield written, house


@pytest.mark.parametrize(("written", "house"), list(_rewritten()))
def test_what_is_rewritten_is_rewritten_so(written: str, house: str) -> None:
    """The first line of such a fence, formatted, is the second."""
    beginning = next(f.words for f in FENCES if f.kind == "beginning")
    source = Source("manual.md", fences.gone_on(beginning, "", "", written)[0])
    assert not read_lesson(source).queries
    assert formatted(source).splitlines()[-1].split(". ", 1)[1] == house


def test_what_the_table_says_stands_under_each_example() -> None:
    """Word for word, as it says it now."""
    assert fences.answered(TEXT) == TEXT, "run `make plates` and read what changed"


def test_every_slip_is_answered() -> None:
    """No slip stands without the table's words under it."""
    for example in EXAMPLES:
        if example.fence.kind == "slip":
            assert fences.quoted(TEXT, example.fence).startswith("> *"), example.fence.words


@pytest.mark.parametrize("name", sorted(PLATES))
def test_every_named_example_shows_its_plate(name: str) -> None:
    """Under it stands a picture of that name, which says in words what it shows."""
    fence = next(f for f in FENCES if f"docs/manual/{f.name}.svg" == name and f.kind != "slip")
    words, target = fences.picture(TEXT, fence)
    assert f"docs/{target}" == name
    assert len(words) > 20


@pytest.mark.slow
@pytest.mark.parametrize("name", sorted(PLATES))
def test_plates_are_as_drawn_now(name: str) -> None:
    """Each committed plate is, byte for byte, what `make plates` draws."""
    assert (ROOT / name).read_bytes() == PLATES[name](), "run `make plates` and look at the result"


def test_no_plate_is_left_over() -> None:
    """Every file of the folder belongs to an example."""
    there = {f"docs/manual/{p.name}" for p in (ROOT / "docs" / "manual").iterdir()}
    assert there == set(PLATES)


@pytest.mark.parametrize(
    "sentence", [s for s in INLINE if s.split()[0].lower() in {*BY_LEAD, "if"} and "..." not in s]
)
def test_sentences_within_the_prose_are_sentences(sentence: str) -> None:
    """What the prose quotes as a sentence can be read as one."""
    beginning = next(f.words for f in FENCES if f.kind == "beginning")
    text = fences.gone_on(beginning, "", "", sentence)[0]
    assert not [
        q
        for q in read_lesson(Source("manual.md", text)).queries
        if q.name in {"sentence-unread", "no-leading-word"}
    ]


def test_the_first_draft_has_ten_sentences() -> None:
    """As its heading promises, and no query and no check is open."""
    first = EXAMPLES[0]
    found = fences.run(first)
    assert len(found.draft.plan.lesson.items) == 10
    assert [bool(c.holds[0]) for c in found.checks] == [True]


def test_every_kind_of_sentence_has_an_example() -> None:
    """None is left to be guessed."""
    shown: set[str] = set()
    for example in EXAMPLES:
        plan = fences.run(example).draft.plan
        shown |= {step.clause.kind for step in each(plan.steps)}
        shown |= {step.clause.kind for step in plan.steps if isinstance(step, Place)}
        shown |= {"repeat"} if any(item.copies for item in plan.lesson.items) else set()
        shown |= {"call it"} if "call it" in example.text else set()
        shown |= {"let found"} if "be found between" in example.text else set()
        shown |= {"make"} if "by finding" in example.text else set()
    assert set(BY_KIND) - shown == set()


def _table(heading: str) -> list[list[str]]:
    """The rows of the table under a heading, without its head."""
    section = TEXT.split(f"\n# {heading}\n", 1)[1].split("\n# ", 1)[0]
    rows = [line for line in section.splitlines() if line.startswith("|")][2:]
    return [[cell.strip() for cell in re.split(r"(?<!\\)\|", row)[1:-1]] for row in rows]


def test_the_sixty_constructions_are_all_there() -> None:
    """One row each, and each row's sentence stands in an example that runs."""
    rows = _table("The sixty constructions")
    assert [row[0] for row in rows] == [str(n) for n in range(1, 61)]
    run_ones = "\n".join(f.words for f in FENCES if f.kind not in {"sh", "slip"})
    run_ones += "\n".join(f.words for f in FENCES if f.kind == "slip" and f.name == "limit-bites")
    for row in rows:
        assert row[2].strip("`") in run_ones, row[0]


def test_the_other_words_are_all_there() -> None:
    """Each word that is understood stands in the table, beside the word that is written for it."""
    rows = [(a.lower(), re.sub(r"\b(the|a|an) ", "", b.lower())) for a, b in _table("Other words")]
    for phrase, house in PHRASES.items():
        if phrase != house:
            assert any(" ".join(phrase) in b and house[0] in a for a, b in rows), phrase
    for word in set(_TURNS) - {"from"}:
        assert any(re.search(rf"\b{word}\b", b) for _, b in rows), word


def test_the_queries_it_names_exist() -> None:
    """Every word under *It may ask* is the name of a query in the program."""
    code = "".join(p.read_text(encoding="utf-8") for p in (ROOT / "src" / "tapewright").rglob("*.py"))
    known = set(re.findall(r'"([a-z]+(?:-[a-z]+)*)"', code))
    asked = re.findall(r"^\*It may ask:\*(.*?)(?:\n\n|\Z)", TEXT, re.DOTALL | re.MULTILINE)
    assert len(asked) > 20
    named = {one for words in asked for one in re.findall(r"`([a-z-]+)`", words)}
    assert named <= known, named - known


def test_its_ways_and_offsets_are_all_shown() -> None:
    """Every kind of way, and the two lengths of a point, are drawn in some example."""
    from tapewright.language.sentences import From

    shown: set[str] = set()
    for example in EXAMPLES:
        for step in each(fences.run(example).draft.plan.steps):
            if isinstance(step.clause, From):
                shown.add(type(step.clause.way).__name__)
                shown |= {type(r).__name__ for r in step.clause.reach if isinstance(r, Offset)}
    kinds = {kind.__name__ for kind in Way.__args__} - {"BareWay"}
    assert {*kinds, "Offset"} <= shown


def test_links_lead_somewhere() -> None:
    """Every link finds its file, and every link within the page its heading."""
    headings = {
        re.sub(r"[^\w\- ]", "", h.lower()).replace(" ", "-")
        for h in re.findall(r"^#+ (.+)$", TEXT, re.MULTILINE)
    }
    for target in re.findall(r"\]\(([^)]+)\)", TEXT):
        page, _, place = target.partition("#")
        if page:
            assert (fences.MANUAL.parent / page).exists(), target
        elif place:
            assert place in headings, target


def test_the_measure_sheet_shown_is_read_without_a_question() -> None:
    """Every sheet that is only shown is understood; at most it tells that two sides differ."""
    shown = [f for f in FENCES if f.kind == "yaml"]
    assert shown
    for fence in shown:
        sheet, queries = read_sheet(Source("shown.yaml", fence.words))
        assert sheet is not None
        assert {q.name for q in queries} <= {"sides-differ"}
