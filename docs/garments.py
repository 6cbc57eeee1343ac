"""Draw the contact sheets of the shipped garments: `make sheets`, into docs/garments.

Each sheet shows the pieces of one garment, as they are cut and as they are sewn, for six real figures out of the trial
half of the 1988 survey (US Army, public domain): so one sees at a glance where a draft holds and where it strains. Who
the six are is decided by rules below, not by eye. A sheet over stays is made by the factors of `tests.garments.people`.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import numpy as np
from shapely import LinearRing

ROOT = Path(__file__).parent.parent
sys.path.insert(0, str(ROOT))

from tests.garments.people import Array, drawn, people, plan  # noqa: E402
from tests.survey import Sex  # noqa: E402

from tapewright import drawing  # noqa: E402
from tapewright.app.library import lessons  # noqa: E402
from tapewright.draft.bodies import Mask  # noqa: E402
from tapewright.drawing import (  # noqa: E402
    INK,
    SOFT,
    Drawing,
    Line,
    Mark,
    Stroke,
    Transform,
    from_cubics,
    set_text,
    through,
    words_at,
)
from tapewright.export import svg  # noqa: E402
from tapewright.geometry import cubics  # noqa: E402
from tapewright.pieces import pieces_of  # noqa: E402

SHEETS = ROOT / "docs" / "garments"
PAGE = ROOT / "docs" / "garments.md"
SCALE = 1 / 12
_GAP, _MARGIN, _HEAD = 4.0, 6.0, 7.0
_CUT, _SEWN = Line(0.3, INK), Line(0.2, SOFT, (1.2, 0.8))
#: So many of each sort are passed over: the very last of five hundred is as often a slip as a figure.
PASSED_OVER = 3


def garments() -> dict[str, Sex]:
    """The shipped garments, and for whom they are drawn here; the blocks are no garments."""
    return {
        name: Sex.MEN if plan(name).lesson.title.startswith("A man") else Sex.WOMEN
        for name in lessons()
        if "block" not in name
    }


def over_stays(name: str) -> bool:
    """Whether a lesson's measures are taken over stays."""
    return any("stays" in layer for layer in plan(name).lesson.header.over or ())


def figures(body: dict[str, Array], sex: Sex, drawn_on: Mask) -> dict[str, int]:
    """Six figures by rule: the fourth most extreme of each sort, among those on whom everything was drawn."""
    girth = body["bust" if sex is Sex.WOMEN else "chest"]
    sorts = {
        "small": -(girth + body["stature"] / 3),
        "large in the bust" if sex is Sex.WOMEN else "large in the chest": girth
        - (body["high bust"] if sex is Sex.WOMEN else body["waist"]),
        "stout": body["waist"],
        "tall": body["stature"] - body["waist"] / 3,
        "stooping": body["nape to waist"] / body["front neck to waist"],
        "narrow in the shoulder": -body["shoulder"] / girth,
    }
    found: dict[str, int] = {}
    for name, score in sorts.items():
        order = [int(k) for k in np.argsort(-np.where(drawn_on, score, -np.inf), kind="stable")]
        found[name] = next(k for k in order[PASSED_OVER:] if k not in found.values())
    return found


def sheet(name: str, sex: Sex) -> Drawing:
    """The contact sheet of one garment."""
    stays = over_stays(name)
    draft = drawn(name, sex, stays=stays)
    pieces = pieces_of(draft)
    body = people(sex, stays=stays)
    rows: list[tuple[str, list[tuple[drawing.Path, drawing.Path]]]] = []
    for sort, row in figures(body, sex, draft.drawn()).items():
        shapes = []
        for piece in pieces:
            cut = np.concatenate([c for run in piece.cut.runs if len(c := cubics(run, row))])
            net = np.concatenate([c for e in piece.edges if len(c := cubics(e.net, row))])
            shapes.append((_thinned(cut), _thinned(net)))
        rows.append((sort, shapes))
    marks: list[Mark] = []
    y, wide = _MARGIN, max(_width(shapes) for _, shapes in rows) + 2 * _GAP
    for two in zip(rows[::2], rows[1::2], strict=True):
        high = 0.0
        for column, (sort, shapes) in enumerate(two):
            left = _MARGIN + column * wide
            marks.append(words_at(set_text(sort, "hand", 3.4), left, y + 3.0))
            for placed, size in _beside(shapes, left, y + _HEAD):
                marks += placed
                high = max(high, size[1])
        y += _HEAD + high + _GAP
    return Drawing(2 * wide + _MARGIN, y, tuple(marks))


def _thinned(found: Array) -> drawing.Path:
    """A closed line at the sheet's scale, as a polygon within a fiftieth of a millimetre."""
    spots = [p for run in from_cubics(found * SCALE).flat() for p in run]
    line = LinearRing(spots).simplify(0.02, preserve_topology=False)
    return through([(float(x), float(y)) for x, y in line.coords[:-1]], closed=True)


def _width(shapes: list[tuple[drawing.Path, drawing.Path]]) -> float:
    boxes = [cut.box() for cut, _ in shapes]
    return sum(box.width + _GAP for box in boxes if box is not None)


def _beside(
    shapes: list[tuple[drawing.Path, drawing.Path]], x: float, y: float
) -> Iterator[tuple[list[Mark], tuple[float, float]]]:
    """The pieces of one figure beside each other; with each, where the next begins and how high it is."""
    for cut, net in shapes:
        box = cut.box()
        assert box is not None
        how = Transform.moving(x - box.left, y - box.top)
        x += box.width + _GAP
        yield (
            [Stroke(cut.placed(how), _CUT), Stroke(net.placed(how), _SEWN)],
            (x, box.height),
        )


def page() -> str:
    """The page that shows the sheets."""
    lines = [
        "# The garments on six figures",
        "",
        "Made by `make sheets`; not to be edited here. Each picture shows the pieces of one garment, where they are",
        "cut and, broken, where they are sewn, at a twelfth of their size, for six figures of the trial half of the",
        "1988 survey: small, large in the bust or the chest, stout, tall, stooping, narrow in the shoulder. Which",
        "person stands for each is the fourth most extreme of five hundred; a lesson over stays is drawn on measures",
        "that were put into stays by factors which are judgement (`tests/garments/people.py`).",
    ]
    for name in garments():
        title = plan(name).lesson.title
        lines += [
            "",
            f"## {title}",
            "",
            f"![The pieces of {title[0].lower()}{title[1:]} for six figures.](garments/{name}.svg)",
        ]
    return "\n".join(lines) + "\n"


def made() -> dict[Path, bytes]:
    """Every file, as it should be."""
    found: dict[Path, bytes] = {
        SHEETS / f"{name}.svg": svg(sheet(name, sex)) for name, sex in garments().items()
    }
    return found | {PAGE: page().encode()}


if __name__ == "__main__":
    SHEETS.mkdir(exist_ok=True)
    for path, data in made().items():
        path.write_bytes(data)
        print(path.relative_to(ROOT))
