"""Whether a lettered plate keeps its promises, asked with shapely, a library the placing does not use."""

from __future__ import annotations

import numpy as np
from shapely.geometry import LineString, Point, Polygon
from shapely.strtree import STRtree

from tapewright.pages import Field, Inset, Label, Plate, PlateLine, Role, Scale


def flat(line: PlateLine, k: float) -> LineString | None:
    """A line as 64 straight pieces a cubic, at a scale; None if it has no length."""
    t = np.linspace(0.0, 1.0, 65)
    s = 1.0 - t
    weights = np.stack([s**3, 3 * s * s * t, 3 * s * t * t, t**3])
    places = np.einsum("kt,nkc->ntc", weights, np.asarray(line.cubics, dtype=float)).reshape(-1, 2) * k
    return LineString(places) if len(np.unique(places, axis=0)) > 1 else None


def faults(field: Field, plate: Plate, scale: Scale) -> list[str]:
    """Everything that breaks the promises of a lettered plate; none, if all is well."""
    k = float(scale.factor)
    found: list[str] = []
    if [label.name for label in field.lettering.labels] != [point.name for point in plate.points]:
        found.append("not one label for each point, in order")
    every: list[Label] = [*field.lettering.labels, *field.names, *field.captions]
    boxes = [Polygon(label.corners) for label in every]
    for i, j in zip(*STRtree(boxes).query(boxes, predicate="intersects"), strict=True):
        if i < j:
            found.append(f"{every[i].name} touches {every[j].name}")
    outlines = [
        path for line in plate.lines if line.role is Role.OUTLINE and (path := flat(line, k)) is not None
    ]
    dots = [Point(p.x * k, p.y * k) for p in plate.points]
    for label, box in zip(every, boxes, strict=True):
        if label.inset is None:
            found += [f"{label.name} touches an outline" for line in outlines if line.intersects(box)]
            found += [f"{label.name} covers a point" for dot in dots if dot.intersects(box)]
    for i, label in enumerate(every):
        if label.leader:
            leader = LineString([label.leader[:2], label.leader[2:]])
            found += [
                f"the leader of {label.name} crosses {every[j].name}"
                for j, box in enumerate(boxes)
                if j != i and box.intersects(leader)
            ]
    found += _inset_faults(field, outlines, every, boxes)
    return found


def _enlarged(line: LineString, inset: Inset) -> LineString:
    how = inset.enlarging
    return LineString([how(x, y) for x, y in line.coords])


def _inset_faults(
    field: Field, outlines: list[LineString], every: list[Label], boxes: list[Polygon]
) -> list[str]:
    found: list[str] = []
    insets = field.lettering.insets
    rings = [Point(i.x, i.y).buffer(i.radius, 64) for i in insets]
    windows = [Point(i.into_x, i.into_y).buffer(i.into_radius, 64) for i in insets]
    for n, inset in enumerate(insets):
        seen = [_enlarged(line, inset).intersection(windows[n]) for line in outlines]
        for label, box in zip(every, boxes, strict=True):
            if label.inset == n:
                if not windows[n].contains(box):
                    found.append(f"{label.name} leaves its inset")
                found += [
                    f"{label.name} touches an outline in its inset" for line in seen if line.intersects(box)
                ]
            else:
                if windows[n].intersects(box):
                    found.append(f"{label.name} lies over an inset")
                if label.inset is None and rings[n].exterior.intersects(box):
                    found.append(f"{label.name} touches a ring")
        tie = LineString([inset.tie[:2], inset.tie[2:]])
        found += [
            f"a tie crosses {label.name}"
            for label, box in zip(every, boxes, strict=True)
            if label.inset is None and box.intersects(tie)
        ]
        for m in range(n):
            if windows[n].intersects(windows[m]) or rings[n].intersects(rings[m]):
                found.append("two insets overlap")
    return found
