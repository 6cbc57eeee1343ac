"""Files that provoke queries: a small lesson, perhaps a sheet and a fitting, and all that the table says.

A file is Markdown: what it shows in a sentence or two, then fenced blocks of four backquotes. A block with a
name (`lesson.md`, `fitting.md`, `sheet.yaml`, any other draft) is a file; the last block, without one, is
the whole text that reading, planning and drawing these files gives. A bundle without a sheet is drawn for
`woman.yaml` of this folder, unless it has a sheet in the folder `nominal`; one without a lesson is a sheet read by itself, with `body.yaml` beside it if
that is there, or a table of a company's measures (`company.csv`), or a notation (`notation.md`).

What no text can show is written between ⟦ and ⟧: `⟦nul⟧`, `⟦tab⟧`, `⟦cr⟧`, and `⟦1000 x⟧` for a thousand of x.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from tapewright.app import drafting
from tapewright.app.measuring import look_over
from tapewright.app.piecing import HowCut, cut_out
from tapewright.cli.saying import print_options
from tapewright.diagnostics import Query, Source, as_text
from tapewright.measures import read_company
from tapewright.tapes.notation_file import read_notation

#: Queries that come when the pieces are cut out, not when the lesson is drawn.
OF_PIECES = frozenset(
    "sewn-to-no-piece does-not-run-on no-edge-of-it not-in-the-table turning-too-wide cutting-lines-part no-grain "
    "cutting-line-crosses wider-than-the-cloth scye-and-arm neck-too-small wider-than-the-paper".split()
)
HERE = Path(__file__).parent
WEARER = HERE / "woman.yaml"

NOTHING = "Nothing to ask."

_BLOCK = re.compile(r"^````(\w+)(?: (\S+))?\n(.*?)^````$", re.DOTALL | re.MULTILINE)
_MARK = re.compile(r"⟦(?:(\d+) (.)|(nul|tab|cr))⟧")
_MARKS = {"nul": "\x00", "tab": "\t", "cr": "\r"}


@dataclass(frozen=True, slots=True)
class Bundle:
    """One file: its name without the ending, its prose, its files by name, and what the table should say."""

    name: str
    prose: str
    files: Mapping[str, str]
    expected: str


@dataclass(frozen=True, slots=True)
class Said:
    """What a run gave: the queries, and the texts they speak of."""

    queries: tuple[Query, ...]
    sources: Mapping[str, Source]

    def text(self) -> str:
        """All of it as the command prints it; a line too long to be read is cut."""
        texts = [as_text(query, self.sources) for query in self.queries]
        shown = "\n\n".join(texts) if texts else NOTHING
        return shown.replace("\x00", "⟦nul⟧").replace("\t", "⟦tab⟧") + "\n"


def bundles() -> list[Path]:
    """Every file of this folder that provokes something, in the order of their names."""
    return sorted(HERE.glob("*.md"))


def read_bundle(path: Path) -> Bundle:
    """A file of this folder in its parts; ValueError when it is not made as it should be."""
    text = path.read_text(encoding="utf-8")
    blocks = list(_BLOCK.finditer(text))
    if len(blocks) < 2 or blocks[-1][2] or not all(b[2] for b in blocks[:-1]):
        raise ValueError(f"{path.name}: named blocks first, and one without a name at the end")
    files = {b[2]: _MARK.sub(_unmarked, b[3]) for b in blocks[:-1]}
    return Bundle(path.stem, text[: blocks[0].start()].strip(), files, blocks[-1][3])


def _unmarked(found: re.Match[str]) -> str:
    return found[2] * int(found[1]) if found[1] else _MARKS[found[3]]


def with_expected(path: Path, said: str) -> str:
    """The text of a file with what the table says exchanged."""
    text = path.read_text(encoding="utf-8")
    last = list(_BLOCK.finditer(text))[-1]
    return text[: last.start(3)] + said + text[last.end(3) :]


def run(bundle: Bundle, folder: Path) -> Said:
    """Write the files of a bundle into a folder and read, plan and draw them as the command does."""
    (folder / "nominal").mkdir()
    for name, text in bundle.files.items():
        (folder / name).write_bytes(text.encode())
    sheet = next(
        (folder / name for name in bundle.files if name.startswith("nominal/")), folder / "sheet.yaml"
    )
    if not sheet.exists():
        sheet.write_bytes(WEARER.read_bytes())
    if "company.csv" in bundle.files:
        table = Source("company.csv", bundle.files["company.csv"])
        company = read_company(table)
        asked = (*company.queries, *(q for wearer in company.wearers for q in wearer.queries))
        return Said(asked, {table.name: table})
    if "notation.md" in bundle.files:
        notation = Source("notation.md", bundle.files["notation.md"])
        return Said(tuple(q.at(notation.name) for q in read_notation(notation)[1]), {notation.name: notation})
    if "lesson.md" not in bundle.files:
        (alone,) = look_over(sheet)
        return Said(alone.queries, alone.sources)
    fittings = [folder / name for name in bundle.files if name.startswith("fitting")]
    result = drafting.draft_for(drafting.read(folder / "lesson.md", fittings), sheet)
    if bundle.name.split(".", 1)[0] in OF_PIECES:
        return Said(_cut_out(result, bundle), result.sources)
    return Said(result.queries, result.sources)


def _cut_out(result: drafting.Result, bundle: Bundle) -> tuple[Query, ...]:
    """What is asked when the pieces are cut out as well; `cloths.txt` says how wide cloths are, `paper.txt` the paper."""
    lines = bundle.files.get("cloths.txt", "").split()
    widths = dict(line.split("=") for line in lines)
    paper = bundle.files.get("paper.txt", "one-page").strip()
    how = HowCut(print_options(paper, "1"), cloth_widths={n: 10 * float(w[:-2]) for n, w in widths.items()})
    return cut_out(result, how).queries
