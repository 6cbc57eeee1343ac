"""The page `docs/check-values.md`: which worked figures of printed books come out, and which are not compared."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from tests.handbook import Row, rows
from tests.handbooks.drafts import Found, comparisons, drawn_entry, found, waiting, waiting_ids
from tests.tapes.test_handbooks import WORKED

OPENING = """# Worked figures of handbooks

Printed books of cutting, dressmaking and old measures work out lengths for measures that they state.
`tests/data/check-values.csv` holds {total} such figures, each with its work, its page and how far it may be
out; `tests/data/README.md` says where they come from. Here each is held against what the program makes of the
same measures: {drafts} through lessons in the drafting language (`tests/handbooks`), {alone} through the tapes and the
units alone (`tests/tapes/test_handbooks.py`). A row that is worked both ways is counted once.

**{hold} of {total} hold**, {seen} of them *seen*: the book, its author and its title known, gives the figure itself. The
other {apart} stand *apart* and are no evidence by themselves: worked out from the book's rule, read at second hand,
from a book whose author, title or date was not seen, or remembered. {wait} are not compared, for the reasons below.

Most figures are a rule and what it comes to, so a figure that holds says that the language can say the rule
and that the program reckons it rightly. The rules for Vincent's boys (HB-075 to HB-084, but HB-080) were found
in the very rows that they are held against: there the printed figures are his, the rules are not.

This page is written by `python -m tests.handbooks`; a test holds it against the drafts as they are.
"""

TOPICS = {
    "scale": "shares of a tape, and whose whole",
    "unit": "old units",
    "proportion": "measures by rule",
    "skirt": "skirts and flounces",
    "cone": "cones",
    "frustum": "cones without their point",
    "sphere": "the ball",
    "draft": "drafts",
    "cloth": "cloth",
    "lay": "lays",
}


@dataclass(frozen=True, slots=True)
class Outcome:
    """A row that is compared: what came out, where, and whether it holds."""

    row: Row
    value: Found
    how: str

    @property
    def holds(self) -> bool:
        """Whether it is the book's figure within the row's tolerance."""
        return self.value.holds(self.row)


def outcomes() -> tuple[Outcome, ...]:
    """Every row that is compared, in the order of the table; a draft goes before the tapes alone."""
    drafted = {
        asked.row.id: Outcome(
            asked.row,
            found(drawn_entry(entry), asked),
            f"{entry}: {asked.what}" + (f", in {asked.unit}" if asked.unit else ""),
        )
        for entry, asked in comparisons()
    }
    done = []
    for one in rows():
        if one.id in drafted:
            done.append(drafted[one.id])
        elif one.id in WORKED:
            done.append(Outcome(one, Found(WORKED[one.id](), True), "the tapes and units"))
    return tuple(done)


def _table(head: Sequence[str], lines: Iterator[Sequence[str]]) -> str:
    rows_ = [head, ["---"] * len(head), *lines]
    return "\n".join("| " + " | ".join(cell.replace("|", "\\|") for cell in line) + " |" for line in rows_)


def number(value: float, tolerance: float) -> str:
    """A figure as the page shows it: four decimals, six where the row is finer than that."""
    places = 6 if 0 < tolerance < 0.0001 else 4
    text = f"{value:.{places}f}".rstrip("0").rstrip(".")
    return "0" if text in {"-0", ""} else text


def page() -> str:
    """The whole page."""
    done = outcomes()
    hold = [o for o in done if o.holds]
    drafted = {asked.row.id for _, asked in comparisons()}
    opening = OPENING.format(
        total=len(rows()),
        drafts=len(drafted),
        alone=len(done) - len(drafted),
        hold=len(hold),
        seen=sum(o.row.seen for o in hold),
        apart=sum(not o.row.seen for o in hold),
        wait=len(waiting_ids()),
    )
    return "\n".join([opening, *_by_topic(done), *_waiting(), *_rows(done)]) + "\n"


def _by_topic(done: Sequence[Outcome]) -> Iterator[str]:
    def lines() -> Iterator[Sequence[str]]:
        for topic, words in TOPICS.items():
            yield counted(words, [r for r in rows() if r.topic.split(".")[0] == topic])
        yield counted("**all**", list(rows()))

    def counted(words: str, of: Sequence[Row]) -> Sequence[str]:
        ids = {r.id for r in of}
        own = [o for o in done if o.row.id in ids]
        hold = [o for o in own if o.holds]
        seen = sum(o.row.seen for o in hold)
        return [words, *map(str, (len(of), seen, len(hold) - seen, len(own) - len(hold), len(of) - len(own)))]

    yield "## By topic\n"
    yield _table(["figures about", "rows", "hold, seen", "hold, apart", "are out", "not compared"], lines())


def _waiting() -> Iterator[str]:
    yield "\n## What is not compared\n"
    yield _table(["rows", "what", "why"], iter([", ".join(w.rows), w.what, w.why] for w in waiting()))


def _rows(done: Sequence[Outcome]) -> Iterator[str]:
    def lines() -> Iterator[Sequence[str]]:
        for one in done:
            allowed = float(one.row.tolerance)
            yield [
                one.row.id,
                f"{one.row.source}, {one.row.page}".removesuffix(", -"),
                f"{number(float(one.row.expected), allowed)} {one.row.unit}"
                + (f" ± {number(allowed, allowed)}" if allowed else ""),
                number(float(one.value.value), allowed) + (" exactly" if one.value.exact else ""),
                one.how,
                "seen" if one.row.seen else one.row.why_apart,
            ]

    yield "\n## Every row that is compared\n"
    yield "*Exactly* stands where the figure is a fraction to the last and no rounding came into it; elsewhere a"
    yield "row without ± agrees to a thousand-millionth of its unit.\n"
    yield _table(["row", "work and place", "the book", "drafted", "what of which draft", "evidence"], lines())
