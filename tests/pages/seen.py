"""Finding things among the paths of a printed page."""

from __future__ import annotations

from tests.export.reading import SeenPath


def rectangles(seen: list[SeenPath]) -> list[tuple[float, float, float, float]]:
    """Upright stroked rectangles as left, top, width, height, in mm."""
    found = []
    for path in seen:
        xs = {round(x, 3) for x, _ in path.places}
        ys = {round(y, 3) for _, y in path.places}
        if path.stroked and len(xs) == len(ys) == 2 and len(path.places) in {4, 5}:
            found.append((min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys)))
    return found


def squares(seen: list[SeenPath], side: float) -> list[tuple[float, float, float, float]]:
    """Rectangles whose two sides are within a tenth of a per cent of a length."""
    return [r for r in rectangles(seen) if max(abs(r[2] - side), abs(r[3] - side)) < side / 1000]


def uprights(seen: list[SeenPath]) -> list[tuple[float, float, float]]:
    """Stroked upright lines of one piece: x, and the y of their upper and lower end."""
    found = []
    for path in seen:
        if path.stroked and [kind for kind, _, _ in path.steps] == ["move", "to"]:
            (x0, y0), (x1, y1) = path.places
            if abs(x1 - x0) < 1e-3 < abs(y1 - y0):
                found.append((x0, min(y0, y1), max(y0, y1)))
    return found
