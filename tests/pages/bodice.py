"""An invented bodice to letter: a frame 475 by 400 mm, crowded at both necks and the shoulder, curves.

Its figures follow no rule and no book; only the kind of crowding is that of a real block.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from tapewright.pages import Plate, PlateCheck, PlateLine, PlatePoint, Role

Place = tuple[float, float]

POINTS: dict[str, Place] = {
    "A": (0, 0), "C": (475, 0), "S": (0, 195), "F": (475, 195), "W": (0, 400), "X": (475, 400),
    "A1": (70, 0), "N": (70, -21), "A2": (0, 8), "A3": (0, 38), "J": (0, 110),
    "B": (175, 195), "B2": (175, 38), "H": (182, 34), "H'": (170, 40), "K": (168, 100),
    "T": (205, 185), "V": (240, 195), "V2": (240, 203), "Y": (300, 195), "Y2": (290, 130),
    "M": (405, -34), "M2": (405, -25), "M3": (399, -28), "R": (290, 20), "R'": (296, 16),
    "R2": (298, 60), "Q": (475, 68), "Q2": (475, 40), "Q3": (405, 40),
    "D": (370, 215), "D1": (352, 400), "D2": (388, 400), "D3": (370, 400),
    "L": (225, 400), "L1": (214, 400), "L2": (236, 400),
    "E": (95, 400), "E1": (88, 400), "E2": (102, 400), "E3": (95, 210),
    "G": (0, 210), "U": (475, 210), "X2": (475, 410),
}  # fmt: skip
RANKS = dict.fromkeys("ACWXSF", 1) | dict.fromkeys(["N", "H", "M", "R", "Q", "V2", "L1", "L2"], 2)
MORE_AT_THE_NECKS: dict[str, Place] = {
    "N2": (78, -14), "N3": (62, -9), "N4": (70, -9), "N5": (83, -21), "A4": (60, 3), "M4": (413, -28),
    "M5": (405, -14), "M6": (396, -36), "M7": (415, -18), "H2": (190, 26), "H3": (172, 24),
    "V3": (246, 210), "V4": (232, 208), "T2": (214, 186), "Z": (260, 192), "P": (270, 185),
}  # fmt: skip


def straight_line(a: Place, b: Place) -> NDArray[np.float64]:
    """One cubic that is straight."""
    p, q = np.array(a, dtype=float), np.array(b, dtype=float)
    return np.array([[p, p + (q - p) / 3, p + (q - p) * 2 / 3, q]])


def curve(places: list[Place], ways: list[Place]) -> NDArray[np.float64]:
    """Cubics through places, in given directions there, arms a little over a third of each span."""
    pts = np.array(places, dtype=float)
    to = np.array(ways, dtype=float)
    to /= np.hypot(to[:, 0], to[:, 1])[:, None]
    rows = []
    for i in range(len(pts) - 1):
        arm = 0.36 * np.hypot(*(pts[i + 1] - pts[i]))
        rows.append([pts[i], pts[i] + arm * to[i], pts[i + 1] - arm * to[i + 1], pts[i + 1]])
    return np.array(rows)


def lines() -> tuple[PlateLine, ...]:
    """The bodice's lines: frame, construction, outline, two darts."""
    p = POINTS

    def ruled(a: str, b: str, role: Role, name: str = "") -> PlateLine:
        return PlateLine(name, straight_line(p[a], p[b]), role, bool(name))

    def drawn(through: str, ways: list[Place], name: str = "") -> PlateLine:
        return PlateLine(name, curve([p[n] for n in through.split()], ways), Role.OUTLINE, bool(name))

    frame, built, outline, dart = Role.FRAME, Role.CONSTRUCTION, Role.OUTLINE, Role.DART
    return (
        ruled("A", "W", frame, "centre back"),
        ruled("C", "X2", frame, "centre front"),
        ruled("A", "C", frame),
        ruled("W", "X", frame, "waist line"),
        ruled("S", "F", frame, "scye line"),
        ruled("A1", "N", built),
        ruled("B", "B2", built),
        PlateLine("", straight_line(p["J"], (175, 110)), built),
        ruled("Y", "R", built),
        ruled("M", "Q3", built),
        ruled("Q3", "Q2", built),
        ruled("V", "L", built),
        ruled("M", "D", built),
        ruled("G", "U", built, "bust line"),
        drawn("A2 N", [(1, 0), (0.35, -1)], "back neck"),
        ruled("N", "H", outline, "back shoulder"),
        drawn("H K T V2", [(-0.35, 1), (0.02, 1), (1, 0.9), (1, 0.12)], "back scye"),
        drawn("V2 Y2 R", [(1, 0), (0.05, -1), (-0.25, -1)], "front scye"),
        ruled("R", "M", outline, "front shoulder"),
        drawn("M Q", [(0.05, 1), (1, 0)], "front neck"),
        ruled("Q", "X2", outline),
        ruled("A2", "W", outline),
        drawn("V2 L1", [(-0.06, 1), (-0.02, 1)]),
        drawn("V2 L2", [(0.06, 1), (0.02, 1)]),
        ruled("W", "L1", outline),
        drawn("L2 X2", [(1, 0), (1, 0.1)]),
        ruled("D", "D1", dart),
        ruled("D", "D2", dart),
        ruled("E3", "E1", dart),
        ruled("E3", "E2", dart),
    )


def bodice(*, dense: bool = False) -> Plate:
    """The plate; `dense` adds sixteen points 8 to 15 mm apart where it is crowded already."""
    places = POINTS | (MORE_AT_THE_NECKS if dense else {})
    return Plate(
        "A bodice block, drafted to measure",
        tuple(PlatePoint(name, x, y, RANKS.get(name, 4)) for name, (x, y) in places.items()),
        lines(),
        "Hester Amory, over stays, 3 May",
        "Plate 1. The frame, the neck, the shoulders and the scye.",
        (
            PlateCheck("The side seams agree: 19.7 cm on the back, 19.7 cm on the front.", True),
            PlateCheck("The back shoulder is 1/4 in longer than the front: 12.5 cm and 12.5 cm.", False),
        ),
        ("The cross front was not taken; 1/5 of the bust tape and 1 1/2 parts stand in for it.",),
    )
