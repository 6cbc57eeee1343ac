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

from tapewright.diagnostics import Query, Source, Span, answers_said, explanation  # noqa: E402
from tests.queries.bundle import bundles, read_bundle, run  # noqa: E402

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
GROUPS: dict[str, tuple[str, ...]] = {}


def page() -> str:
    """The whole page."""
    shown = _shown()
    parts = [HEAD]
    for title, names in GROUPS.items():
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
    for found in re.finditer(r"(?:^\s*(?:\d+\.|[-#]+)\s+)|(?<=[a-z0-9')]\.)\s+(?=[A-Z])", text[start:end]):
        if start + found.end() <= span.start:
            start += found.end() - (0 if start == 0 else 0)
            break
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


def listed() -> Iterator[str]:
    """Every name of the groups, in their order."""
    for names in GROUPS.values():
        yield from names


if __name__ == "__main__":
    (ROOT / PAGE).write_text(page(), encoding="utf-8")
    print(PAGE)
