"""What stands before the sentences: the title, the header, the lists, the tables."""

from __future__ import annotations

from collections.abc import Callable

from tapewright.diagnostics import Answer, Query, Source, Span, caution, did_you_mean, question
from tapewright.language import bullets, header, tables
from tapewright.language.lesson import Header, Heading
from tapewright.language.markdown import Block
from tapewright.language.reading import Reading, free
from tapewright.language.tokens import Names

_LISTS: dict[str, Callable[[Source, Span, Names], bullets.Read]] = {
    "measures": bullets.measure,
    "tapes": bullets.tape,
    "by eye": bullets.by_eye,
    "cloth": bullets.cloth,
}


def no_sentences(reading: Reading, found: list[Block]) -> Query:
    """The question about a lesson in which nothing is drawn."""
    last = next((b.span for b in reversed(found) if b.kind in {"paragraph", "bullet"}), Span(0, 0))
    return question(
        "no-sentences",
        "This lesson has no numbered sentences, so there is nothing to draw.",
        last,
        help="Number what is to be drawn, under a heading: 1. Begin at A, with the centre back on the left.",
    )


def front(reading: Reading, found: list[Block]) -> tuple[str, Header, list[Heading]]:
    """The title, the header and all headings."""
    source = reading.source
    headings = [Heading(source[b.span], b.level, b.span) for b in found if b.kind == "heading"]
    first = next((i for i, b in enumerate(found) if b.kind == "heading" and b.level == 1), None)
    if first is None:
        place = found[0].span if found else Span(0, 0)
        reading.ask(
            question("no-title", "A lesson begins with its title.", place, help="Try: # A woman's body block")
        )
        return "", Header(), headings
    following = found[first + 1] if first + 1 < len(found) else None
    if following is None or following.kind != "paragraph" or not header.is_header(source[following.span]):
        reading.ask(header.missing(found[first].span))
        return source[found[first].span], Header(), headings
    head, queries = header.read_header(source, following.span)
    for query in queries:
        reading.ask(query)
    return source[found[first].span], head, headings


def declarations(reading: Reading, found: list[Block]) -> list[bullets.Bullet]:
    """First pass: the bullets under the reserved headings, measures before their tapes."""
    by_list: dict[str, list[Block]] = {name: [] for name in _LISTS}
    reading.heads = {" ".join(reading.source[b.span].lower().split()) for b in found if b.kind == "heading"}
    under, heading, above, told = "", Span(0, 0), "", False
    for block in found:
        if block.kind == "heading":
            heading, above = block.span, ""
            under = " ".join(reading.source[block.span].lower().split())
            told = False
        elif block.kind == "bullet" and under in by_list:
            by_list[under].append(block)
        elif block.kind == "bullet" and not told:
            told = _near(reading, under, heading)
        elif block.kind == "paragraph":
            above = reading.source[block.span]
        elif block.kind == "table":
            _figures(reading, under, heading, block.span, above)
    entries: list[bullets.Bullet] = []
    for name, reader in _LISTS.items():
        for block in by_list[name]:
            entry, query = reader(reading.source, block.span, reading.names)
            if query is not None:
                reading.ask(query)
            if entry is None:
                # The name is declared all the same, so that its uses are not asked about as well.
                said = bullets.plain_name(reading.source[block.span].split(":")[0])
                reading.names.add(said)
                reading.unread.append((name, said))
                continue
            entries.append(entry)
            free(reading, entry.name, entry.span, None)
            reading.names.add(entry.name)
    return entries


#: What a heading of one of the lists may be called by slip.
_ALSO = {
    "measurements": "measures", "measurement": "measures", "measure": "measures", "sizes": "measures",
    "tape": "tapes", "by the eye": "by eye", "choices": "by eye", "eye": "by eye",
    "fabric": "cloth", "fabrics": "cloth", "cloths": "cloth", "material": "cloth", "materials": "cloth",
}  # fmt: skip


def _near(reading: Reading, under: str, heading: Span) -> bool:
    """Whether a heading over bullets is nearly that of a list, for then they are not read: says so."""
    meant = _ALSO.get(under) or next(iter(did_you_mean(under, _LISTS)), "")
    if not meant or meant in reading.heads:
        return False
    name = meant.capitalize()
    reading.ask(
        caution(
            "heading-near",
            f"What stands under “{reading.source[heading]}” is taken for prose.",
            heading,
            help=f"If it is a list for the draft, its heading is {name}.",
            answers=[Answer(f"the heading {name}", name)],
        )
    )
    return True


def _figures(reading: Reading, under: str, heading: Span, span: Span, above: str) -> None:
    """A pipe table: under a heading of its own it is a table or a shape, anywhere else it is the student's."""
    kind, _, name = under.partition(":")
    queries: list[Query] = []
    if kind == "table" and name:
        name = bullets.plain_name(name)
        table, queries = tables.table(reading.source, name, heading, span, above)
        reading.names.add(name)
        if table is None:
            reading.unread.append(("table", name))
        else:
            reading.tables.append(table)
            reading.names.tables[name] = table.columns
    elif kind == "shape" and name:
        shape, queries = tables.shape(reading.source, name.strip().strip('"“”'), heading, span)
        if shape is not None:
            reading.shapes.append(shape)
        else:
            reading.unread.append(("shape", name.strip().strip('"“”').lower()))
    for query in queries:
        reading.ask(query)
