"""Write docs/queries.md: every query with what it is, the words that provoked it, and what the table said.

The words and the answers come from running the files of `tests/queries`; what each query is, from its page
in `diagnostics/why`. The tests write the page again and compare.
"""

from __future__ import annotations

import re
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).parent.parent
sys.path.insert(0, str(ROOT))

from tests.queries.bundle import bundles, read_bundle, run  # noqa: E402

from tapewright.diagnostics import Query, Source, Span, answers_said, explanation  # noqa: E402

PAGE = "docs/queries.md"

HEAD = """# What the table asks

Made by `docs/queries.py` from `tests/queries` and the pages behind `tapewright why`; not to be edited here.

A query is what the table says about a lesson, a measure sheet or a fitting. A *question* waits: its line,
and what rests on it, is not drawn until it is answered, while the rest of the draft is. A *caution* draws
and warns. A *note* only tells. None of them says that somebody did wrong. In what follows stand the words
that gave rise to each, the smallest stretch that shows it **so**, and what the table said. More about any
of them: `tapewright why` and its name.
"""

#: The queries by what a maker is doing when they come, in the order of the page.
GROUPS = """
Opening a lesson:
    not-text text-too-long no-title header heading-near bullet-unread value-in-lesson no-sentences
Reading a sentence:
    sentence-unread said-otherwise no-leading-word begin runs-on no-end and-after-a-reading primes closed-rule
Letters and names:
    letter-unknown letter-made-twice letter-twice-in-curve name-unknown name-made-twice name-not-free
    no-such-curve another-sort letters-and-lengths drawn-in-one-branch branches-unlike
Amounts and tapes:
    no-unit length-or-angle letters-and-parts ruler-or-tape which-tape share-of-what shares
    beyond-its-range below-nothing
Ways and lines:
    no-start no-way which-way both-ways along-itself in-a-row one-point line-too-short straight-or-curve
    which-line which-side place-unset square leaning leaning-unclear corner-ends flat-corner two-offsets
Meeting:
    never-meets meets-behind meets-beyond which-crossing arm-too-short touches-at-end not-so-far
    off-the-line runs-past
Curves:
    sweep bulge bends-both-ways too-deep parallel-too-far curved-arm turns-back whole-circle no-effect limit-bites
Finding an amount:
    no-unknown one-unknown never-found found-twice cannot-be-found
Cones:
    cone-ends cone-too-wide
Turning, opening and closing:
    pivot slash-at-dart still-on-slash opens-too-far how-far nothing-taken-out wider-than-deep
    placed-over several-curves
Pieces:
    outline-open outline-crosses no-first-edge not-on-outline how-much-outside seams-twice on-the-fold
    no-such-turnings too-close-together
Cutting out:
    sewn-to-no-piece does-not-run-on no-edge-of-it not-in-the-table turning-too-wide cutting-lines-part
    cutting-line-crosses no-grain wider-than-the-cloth wider-than-the-paper scye-and-arm neck-too-small
    off-the-table repeat
Checks and seams:
    check seam-differs sewn-to-itself ease-too-much
Tables and shapes:
    table table-column table-figure between-rows no-such-shape
Choices, other drafts and fittings:
    no-such-choice not-by-eye no-such-draft which-draft begins-from-itself amendment-incomplete
    amendment-target amendment-changed amendment-unread
The measure sheet:
    sheet-not-readable sheet-not-text sheet-too-large sheet-plain-only sheet-shape sheet-for-nobody
    sheet-twice sheet-unknown-key sheet-unit sheet-date sheet-figure sheet-choice value-not-a-number
    value-not-positive value-unit value-unusual value-impossible value-unlike-others readings-apart
    side-unknown
A lesson and its wearer:
    measure-not-taken measure-unknown measure-other-word measure-which nothing-taken bust-for-chest
    bust-or-chest sides-differ sides-disagree side-unclear worn-beneath nominal-figure beyond-the-survey
    laced-tightly child-over-stays estimate-used not-estimated
A company's table:
    import-no-table import-no-wearers import-which-column import-column-twice import-column-passed-over
    import-row import-wearer-twice
A notation of one's own:
    notation-line notation-mark notation-rule notation-share notation-source notation-table
    notation-twice
Paper strips:
    ruler-short
"""


def page() -> str:
    """The whole page."""
    shown = _shown()
    parts = [HEAD]
    for title, names in _groups():
        parts.append(f"## {title}\n")
        parts += [_entry(name, shown.get(name, [])) for name in names]
    return "\n".join(parts)


def _shown() -> dict[str, list[str]]:
    """For each query, the words that provoked it with what was said of them, once for each wording."""
    found: dict[str, list[str]] = {}
    for path in bundles():
        bundle = read_bundle(path)
        subject = path.name.split(".", 1)[0]
        with tempfile.TemporaryDirectory() as folder:
            said = run(bundle, Path(folder))
        for query in said.queries:
            if query.name != subject:
                continue
            text = _said(query, said.sources.get(query.source))
            if text not in found.setdefault(subject, []):
                found[subject].append(text)
    return found


def _entry(name: str, shown: list[str]) -> str:
    why = explanation(name) or ""
    heading, _, rest = why.partition("\n")
    what = rest.strip().split("\n\n", 1)[0]
    return "\n".join([f"### {heading.removeprefix('# ')} (`{name}`)", "", what, "", *shown])


def _said(query: Query, source: Source | None) -> str:
    """The words concerned as a quotation, and beneath them what the table said."""
    words = [query.message, query.help, answers_said(query)]
    said = f"*{str(query.kind).capitalize()}.* " + " ".join(_plain(w) for w in words if w)
    quoted = _quoted(source, query.span) if source is not None and query.span is not None else ""
    return f"> {quoted}\n>\n> {said}\n" if quoted else f"> {said}\n"


def _quoted(source: Source, span: Span) -> str:
    """The sentence, or the line of a list or a sheet, in which a stretch stands, the stretch set bold."""
    text = source.text
    start = text.rfind("\n", 0, span.start) + 1
    end = text.find("\n", max(span.start, span.end - 1))
    end = len(text) if end < 0 else end
    line = start
    for found in re.finditer(r"(?:^\s*(?:\d+\.|[-#]+)\s+)|(?<=[a-z0-9')]\.)\s+(?=[A-Z])", text[line:end]):
        if line + found.end() <= span.start:
            start = line + found.end()
    return _around(text, start, end, span)


def _around(text: str, start: int, end: int, span: Span) -> str:
    before, said, after = text[start : span.start], text[span.start : span.end], text[span.end : end]
    cut = list(re.finditer(r"(?<=[a-z0-9')\"])\.\s+(?=[A-Z])", before))
    if cut:
        before = before[cut[-1].end() :]
    stop = re.search(r"(?<=[a-z0-9')\"])\.\s+(?=[A-Z])", after)
    if stop is not None:
        after = after[: stop.start() + 1]
    bold = f"**{_plain(said.strip())}**" if said.strip() else ""
    return " ".join(f"{_plain(before)}{bold}{_plain(after)}".split())


def _plain(text: str) -> str:
    """A text whose marks mean nothing to Markdown."""
    shown = text.replace("\x00", "⟦nul⟧").replace("\t", " ")
    return re.sub(r"([*_`|<>\[\]#])", r"\\\1", shown)


def _groups() -> Iterator[tuple[str, list[str]]]:
    for title, names in re.findall(r"^(\S.*):\n((?:    .*\n)+)", GROUPS, re.MULTILINE):
        yield title, names.split()


def listed() -> Iterator[str]:
    """Every name of the groups, in their order."""
    for _, names in _groups():
        yield from names


if __name__ == "__main__":
    (ROOT / PAGE).write_text(page(), encoding="utf-8")
    print(PAGE)
