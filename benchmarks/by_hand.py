# ruff: noqa: N806 - the letters of the drafts are the lessons' own, and one draft is one run of lines
"""The two timed drafts written by hand in plain numpy: what the table's own speed is measured against.

No language, no provenance, no queries, no row that may fail: only the numbers, all bodies at once, as
somebody would write them who needs one draft and has an afternoon. A point is `(2, bodies)`, x right and y down, mm; a
curve is its control points `(4, 2, segments, bodies)`. The curves are J. D. Hobby's, "Smooth, easy to compute
interpolating splines", Discrete and Computational Geometry 1 (1986), written here a second time.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Final

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]
Measures = Mapping[str, Array]

INCH: Final = 25.4


@dataclass(slots=True)
class Drawn:
    """A draft by hand: points by letter, curves by name, the left side of each check by its words, the seams."""

    points: dict[str, Array] = field(default_factory=dict)
    curves: dict[str, Array] = field(default_factory=dict)
    checks: dict[str, Array] = field(default_factory=dict)
    seams: list[Array] = field(default_factory=list)


# --- points --------------------------------------------------------------------------------------------


def _at(x: Array | float, y: Array | float) -> Array:
    a, b = np.broadcast_arrays(np.asarray(x, dtype=np.float64), np.asarray(y, dtype=np.float64))
    return np.stack([a, b])


def _far(a: Array, b: Array) -> Array:
    return np.asarray(np.hypot(b[0] - a[0], b[1] - a[1]))


def _unit(v: Array) -> Array:
    long = np.hypot(v[0], v[1])
    return np.asarray(v / np.where(long > 0.0, long, 1.0))


def _toward(a: Array, b: Array, far: Array | float) -> Array:
    return np.asarray(a + _unit(b - a) * far)


def _square(v: Array) -> Array:
    return np.stack([-v[1], v[0]])


def _turned(p: Array, centre: Array, angle: Array) -> Array:
    d, c, s = p - centre, np.cos(angle), np.sin(angle)
    return np.asarray(centre + np.stack([d[0] * c - d[1] * s, d[0] * s + d[1] * c]))


def _angle(v: Array) -> Array:
    return np.asarray(np.arctan2(v[1], v[0]))


def _wrapped(a: Array) -> Array:
    return np.asarray((a + np.pi) % (2 * np.pi) - np.pi)


# --- curves --------------------------------------------------------------------------------------------


def _rho(t: Array, f: Array) -> Array:
    st, ct, sf, cf = np.sin(t), np.cos(t), np.sin(f), np.cos(f)
    top = 2 + np.sqrt(2) * (st - sf / 16) * (sf - st / 16) * (ct - cf)
    return np.asarray(top / (1 + 0.5 * (np.sqrt(5) - 1) * ct + 0.5 * (3 - np.sqrt(5)) * cf))


def _run(points: Sequence[Array], first: Array | None, last: Array | None) -> tuple[list[Array], list[Array]]:
    """The end angles of each segment of one run, with a direction or a free end (curl 1) at either end."""
    n = len(points) - 1
    chords = [q - p for p, q in pairwise(points)]
    far, way = [np.hypot(c[0], c[1]) for c in chords], [_angle(c) for c in chords]
    one = np.ones_like(far[0])
    nought = np.zeros_like(far[0])
    psi = [nought, *(_wrapped(way[k] - way[k - 1]) for k in range(1, n)), nought]
    below, on, above, known = ([nought] * (n + 1) for _ in range(4))
    on[0], above[0], known[0] = one, one, -psi[1]
    if first is not None:
        above[0], known[0] = nought, _wrapped(_angle(first) - way[0])
    for k in range(1, n):
        below[k], on[k], above[k] = 1 / far[k - 1], 2 / far[k - 1] + 2 / far[k], 1 / far[k]
        known[k] = -2 * psi[k] / far[k - 1] - psi[k + 1] / far[k]
    on[n], below[n] = one, one
    if last is not None:
        below[n], known[n] = nought, _wrapped(_angle(last) - way[n - 1])
    for k in range(1, n + 1):
        part = below[k] / on[k - 1]
        on[k], known[k] = on[k] - part * above[k - 1], known[k] - part * known[k - 1]
    theta = [nought] * (n + 1)
    theta[n] = known[n] / on[n]
    for k in range(n - 1, -1, -1):
        theta[k] = (known[k] - above[k] * theta[k + 1]) / on[k]
    return theta[:n], [-psi[k + 1] - theta[k + 1] for k in range(n)]


def _curve(points: Sequence[Array], ways: Mapping[int, Array]) -> Array:
    """A bounded Hobby curve through points, passing those in `ways` in a direction `(2, bodies)`."""
    stops = sorted({0, len(points) - 1, *ways})
    theta: list[Array] = []
    phi: list[Array] = []
    for first, last in pairwise(stops):
        t, f = _run(points[first : last + 1], ways.get(first), ways.get(last))
        theta += t
        phi += f
    segments = []
    for (p, q), out, back in zip(pairwise(points), theta, phi, strict=True):
        chord = q - p
        far, apex = np.hypot(chord[0], chord[1]), out + back
        one_way = (out * back > 0) & (np.abs(apex) < np.pi)
        safe = np.where(one_way, np.sin(apex), 1.0)
        u, ct, st, cf, sf = _unit(chord), np.cos(out), np.sin(out), np.cos(back), np.sin(back)
        front, rear = _rho(out, back) * far / 3, _rho(back, out) * far / 3
        front = np.where(one_way, np.minimum(front, far * sf / safe), front)
        rear = np.where(one_way, np.minimum(rear, far * st / safe), rear)
        leaving = np.stack([u[0] * ct - u[1] * st, u[0] * st + u[1] * ct])
        arriving = np.stack([u[0] * cf + u[1] * sf, u[1] * cf - u[0] * sf])
        segments.append(np.stack([p, p + leaving * front, q - arriving * rear, q]))
    return np.stack(segments, axis=2)


_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(12)
_T: Final = ((_NODES + 1) / 2)[:, None, None]
_W: Final = (_WEIGHTS / 2)[:, None, None]


def length(curve: Array) -> Array:
    """The length of a curve: 12 points of Gauss a segment."""
    d = 3 * (curve[1:] - curve[:-1])
    x, y = ((1 - _T) ** 2 * d[0, i] + 2 * _T * (1 - _T) * d[1, i] + _T * _T * d[2, i] for i in (0, 1))
    return np.asarray((_W * np.hypot(x, y)).sum((0, 1)))


def _crossing(curve: Array, y: Array) -> Array:
    """Where a curve that runs down all the way crosses a level line: the segment, then Newton's method."""
    segment = (curve[3, 1] < y).sum(axis=0)
    c = curve[:, :, segment, np.arange(y.size)]
    d = 3 * (c[1:] - c[:-1])
    t = (y - c[0, 1]) / (c[3, 1] - c[0, 1])
    for _ in range(6):
        u = 1 - t
        here = u * u * u * c[0, 1] + 3 * u * u * t * c[1, 1] + 3 * u * t * t * c[2, 1] + t * t * t * c[3, 1]
        t = t - (here - y) / (u * u * d[0, 1] + 2 * u * t * d[1, 1] + t * t * d[2, 1])
    u = 1 - t
    return np.asarray(u * u * u * c[0] + 3 * u * u * t * c[1] + 3 * u * t * t * c[2] + t * t * t * c[3])


# --- the bodice of many panels -------------------------------------------------------------------------


def panels(m: Measures, count: int) -> Drawn:
    """The bodice of `lessons.lesson`, by hand, with its by-eye values as they stand in the lesson."""
    o = Drawn()
    p = o.points
    bust, waist, long = m["bust"], m["waist"], m["nape to waist"]
    nought = np.zeros_like(bust)
    p["A"], p["B"] = _at(nought, nought), _at(nought, long)
    p["C"] = _at(bust / 2 + INCH, nought)
    p["D"], p["U"] = _at(p["C"][0], long), _at(nought, bust / 6)
    p["V"] = _at(p["C"][0], p["U"][1])
    level, plumb = _at(nought + 1, nought), _at(nought, nought + 1)
    wide, spacing = (bust + 2 * INCH) / (2 * count), bust / count
    before = nought
    for i in range(1, count + 1):
        a = _at(spacing * i, nought)
        c = _at(a[0] + wide, nought)
        taking = np.maximum((bust - waist) / 36, 0)
        b, d = _at(a[0], long), _at(c[0], long)
        e, f = _at(b[0] + taking, long), _at(d[0] - taking, long)
        g, j = _at(a[0], long / 2), _at(c[0], long / 2)
        h, k = _at(g[0] + INCH / 4, g[1]), _at(j[0] - INCH / 4, j[1])
        middle = (a + c) / 2
        n = _at(middle[0], nought + INCH / 2)
        left, right = _curve([a, h, e], {1: plumb}), _curve([c, k, f], {1: plumb})
        o.curves[f"left seam {i}"], o.curves[f"right seam {i}"] = left, right
        o.curves[f"upper edge {i}"] = _curve([a, n, c], {1: level})
        letters = zip("ACBEDFGHJKMNL", (a, c, b, e, d, f, g, h, j, k, middle, n), strict=False)
        p.update({f"{letter}{i}": point for letter, point in letters})
        p[f"L{i}"] = _crossing(left, p["U"][1])
        one, other = length(left), length(right)
        if i > 1:
            o.seams.append(before - one)
        o.checks[f"the left seam {i}"] = one
        before = other
    return o


# --- the woman's block ---------------------------------------------------------------------------------


def woman(m: Measures) -> Drawn:
    """The shipped woman's block by hand, for women all of whose measures but the cross front are taken."""
    o = Drawn()
    p = o.points
    bust, high_bust, waist, neck = m["bust"], m["high bust"], m["waist"], m["neck base"]
    slope, ridge, long = m["shoulder slope"], m["shoulder"], m["nape to waist"]
    nought = np.zeros_like(bust)
    ease, drop, hollow = 2 * INCH, INCH / 2, INCH / 4
    # The frame.
    A, B = _at(nought, nought), _at(nought, long)
    C, E = _at((bust + ease) / 2, nought), _at(nought, m["scye depth"] + drop)
    D, F = _at(C[0], B[1]), _at(C[0], E[1])
    # The back.
    G = _at(neck / 6 + 0.75 * neck / 48, nought)
    N = _at(G[0], nought - 0.75 * INCH)
    N1 = _at(C[0], N[1])
    lean = slope - np.radians(8)
    J = N + _at(np.cos(lean), np.sin(lean)) * ridge
    J1 = _at(nought, J[1])
    stand = high_bust / 12 + high_bust / 192
    E1 = _at(nought, E[1] - ((E[1] - J1[1]) / 2 + stand))
    E2 = _at(C[0], E1[1])
    S = _at(N[0] + np.sqrt(ridge**2 - (E1[1] - N[1]) ** 2), E1[1])
    along, level, plumb = _unit(S - N), _at(nought + 1, nought), _at(nought, nought + 1)
    back_neck = _curve([A, N], {0: level, 1: _at(along[1], -along[0])})
    back_width = np.minimum(m["cross back"] / 2, S[0] - hollow)
    H = _at(back_width + ease / 10, E[1])
    T1 = _at(H[0], E1[1])
    T = (H + T1) / 2
    # The front.
    Q = _at(D[0], D[1] - m["front neck to waist"])
    Q1 = _at(Q[0], Q[1] - (neck / 5 + INCH / 4))
    M = _at(Q1[0] - G[0], Q1[1])
    M1 = _at(nought, M[1])
    lean = slope - np.radians(4)
    L = M + _at(-np.cos(lean), np.sin(lean)) * ridge
    L1 = _at(C[0], L[1])
    F1 = _at(C[0], F[1] - ((F[1] - L1[1]) / 2 + stand))
    F2 = _at(nought, F1[1])
    U = _at(M[0] - np.sqrt(ridge**2 - (F1[1] - M[1]) ** 2), F1[1])
    along = _unit(U - M)
    front_neck = _curve([M, Q], {0: _at(along[1], -along[0]), 1: level})
    room = high_bust / 2 - back_width - high_bust / 12
    front_width = room / 2 + (F1[0] - U[0] - INCH) / 2
    front_width = np.minimum(front_width, F1[0] - U[0] - hollow)
    Y1 = _at(F[0] - (front_width + ease / 10), F[1])
    Y2 = _at(Y1[0], F1[1])
    Y = (Y1 + Y2) / 2
    # The bust.
    P1 = _at(F[0] - m["bust point to bust point"] / 2, F[1])
    P2 = _at(P1[0], D[1])
    P = _at(P1[0], M[1] + np.sqrt(m["neck to bust point"] ** 2 - (P1[0] - M[0]) ** 2))
    bust_taking = np.maximum(2 * (bust - high_bust) / 3, 0)
    shoulder_taking = np.minimum(bust_taking, 2 * INCH)
    V = (M + U) / 2
    V1, V2 = V - _at(bust_taking, nought), V - _at(shoulder_taking, nought)
    turn = _wrapped(_angle(V1 - P) - _angle(V - P))
    Va, Ua, Ya = (_turned(x, P, turn) for x in (V, U, Y))
    R = _at(Ya[0], F[1])
    # The scye and the side.
    Z1 = (H + R) / 2
    Z = Z1 + _at(nought + INCH / 4, nought)
    half = np.sqrt(0.5)
    H1 = H + _at(half, -half)[:, None] * (Z[0] - H[0]) / 2
    R1 = R + _at(-half, -half)[:, None] * (R[0] - Z[0]) * 0.4
    excess = np.maximum(D[0] - B[0] - waist / 2 - INCH / 2, 0)
    side = excess / 4
    W = _at(Z[0], D[1])
    W1, W2 = W - _at(side / 2, nought), W + _at(side / 2, nought)
    back_scye = _curve([S, T, H1, Z], {1: plumb, 3: -_square(W1 - Z)})
    K = _toward(Z, W2, 3 * INCH)
    turn = _wrapped(_angle(V2 - P) - _angle(Va - P))
    Vb, Ub, Yb, Rb, Rb1, Zb, Kb = (_turned(x, P, turn) for x in (Va, Ua, Ya, R, R1, Z, K))
    front_scye = _curve([Ub, Yb, Rb1, Zb], {1: Rb - Yb, 3: _square(Kb - Zb)})
    V3, K1 = (V + Vb) / 2, (K + Kb) / 2
    P4, P5 = _toward(P, V3, 0.75 * INCH), _toward(P, K1, 0.75 * INCH)
    # The waist.
    front = np.minimum(np.maximum(D[0] - W2[0] - waist / 4 - INCH / 4, 0), excess - side)
    rest = excess - side - front
    back = rest / 3
    blade = rest - back
    B1 = _at(back, D[1])
    centre_back = _curve([E, B1], {0: plumb})
    X = (E + H) / 2
    X1 = _at(X[0], D[1])
    X2, X3 = X1 - _at(blade / 2, nought), X1 + _at(blade / 2, nought)
    P3 = _at(P[0], P[1] + 0.75 * INCH)
    F3, F4 = P2 - _at(front / 2, nought), P2 + _at(front / 2, nought)
    # fmt: off
    p.update({
        "A": A, "B": B, "C": C, "D": D, "E": E, "F": F, "G": G, "N": N, "N1": N1, "J": J, "J1": J1, "E1": E1,
        "E2": E2, "S": S, "H": H, "T1": T1, "T": T, "Q": Q, "Q1": Q1, "M": M, "M1": M1, "L": L, "L1": L1,
        "F1": F1, "F2": F2, "U": U, "Y1": Y1, "Y2": Y2, "Y": Y, "P1": P1, "P2": P2, "P": P, "V": V, "V1": V1,
        "V2": V2, "V'": Va, "U'": Ua, "Y'": Ya, "R": R, "Z1": Z1, "Z": Z, "H1": H1, "R1": R1, "W": W,
        "W1": W1, "W2": W2, "K": K, "V''": Vb, "U''": Ub, "Y''": Yb, "R'": Rb, "R1'": Rb1, "Z'": Zb,
        "K'": Kb, "V3": V3, "K1": K1, "P4": P4, "P5": P5, "B1": B1, "X": X, "X1": X1, "X2": X2, "X3": X3,
        "P3": P3, "F3": F3, "F4": F4,
    })
    # fmt: on
    o.curves = {
        "back neck": back_neck,
        "front neck": front_neck,
        "back scye": back_scye,
        "front scye": front_scye,
        "centre back seam": centre_back,
    }
    o.seams = [
        _far(V, P4) - _far(Vb, P4),
        _far(K, P5) - _far(Kb, P5),
        _far(F3, P3) - _far(F4, P3),
        _far(X2, X) - _far(X3, X),
        _far(Zb, Kb) + _far(K, W2) - _far(Z, W1),
        _far(M, V) + _far(Vb, Ub) - _far(N, S),
    ]
    o.checks = _checks(o)
    return o


def _checks(o: Drawn) -> dict[str, Array]:
    """The left side of every See that of the woman's block, under its words."""
    p = o.points
    back_neck, front_neck = length(o.curves["back neck"]), length(o.curves["front neck"])
    back, front = length(o.curves["back scye"]), length(o.curves["front scye"])

    def far(*spans: str) -> Array:
        return np.asarray(sum(_far(p[a], p[b]) for a, b in (span.split("-") for span in spans)))

    def corner(letters: str) -> Array:
        a, b, c = (p[letter] for letter in letters.split("-"))
        return _corner(a - b, c - b)

    darts, waist = far("V-V''", "K-K'"), far("W2-F3", "F4-D")
    return {
        "A-B": far("A-B"),
        "E-Z plus Z-F": far("E-Z", "Z-F"),
        "N-S": far("N-S"),
        "Q-D": far("Q-D"),
        "A-E less the scye drop": far("A-E") - INCH / 2,
        "twice E-H less a fifth of the bust ease": 2 * far("E-H") - 2 * INCH / 5,
        "M-P": far("M-P"),
        "twice F-P1": 2 * far("F-P1"),
        "N-J": far("N-J"),
        "M-L": far("M-L"),
        "M-V plus V''-U''": far("M-V", "V''-U''"),
        "Z'-K' plus K-W2": far("Z'-K'", "K-W2"),
        "the back neck plus the front neck": back_neck + front_neck,
        "the back neck": back_neck,
        "the back neck plus M-P": back_neck + far("M-P"),
        "the back scye plus the front scye": back + front,
        "the back scye": back,
        "H-R": far("H-R"),
        "E-E1": far("E-E1"),
        "A-E plus G-N less E-E1": far("A-E", "G-N") - far("E-E1"),
        "the corner M1-M-U": corner("M1-M-U"),
        "along the back scye from T to Z": length(o.curves["back scye"][:, :, 1:]),
        "along the front scye from Y'' to Z'": length(o.curves["front scye"][:, :, 1:]),
        "S-T": far("S-T"),
        "U-Y": far("U-Y"),
        "E1-S less E-H": far("E1-S") - far("E-H"),
        "F1-U less F-Y1": far("F1-U") - far("F-Y1"),
        "V-V'' plus K-K'": darts,
        "K-K'": far("K-K'"),
        "the corner V-P-P4": corner("V-P-P4"),
        "the corner K-P-P5": corner("K-P-P5"),
        "B1-X2 plus X3-W1 plus W2-F3 plus F4-D": far("B1-X2", "X3-W1") + waist,
        "W2-F3 plus F4-D": waist,
        "W1-W2": far("W1-W2"),
        "B-B1": far("B-B1"),
        "the back neck and the front neck": _runs_on(
            _end(o.curves["back neck"]), p["S"] - p["N"], _start(o.curves["front neck"]), p["V"] - p["M"]
        ),
        "the back scye and the front scye": _runs_on(
            _end(o.curves["back scye"]), p["W1"] - p["Z"], _end(o.curves["front scye"]), p["K'"] - p["Z'"]
        ),
    }


def _start(curve: Array) -> Array:
    """Which way a curve sets out from its start."""
    return np.asarray(curve[1, :, 0] - curve[0, :, 0])


def _end(curve: Array) -> Array:
    """Which way a curve sets out from its end, run back."""
    return np.asarray(curve[2, :, -1] - curve[3, :, -1])


def _runs_on(edge: Array, side: Array, other: Array, other_side: Array) -> Array:
    """How far from straight two edges run on over a seam: what their two corners lack to a straight line."""
    return np.asarray(np.abs(np.pi - _corner(edge, side) - _corner(other, other_side)))


def _corner(one: Array, two: Array) -> Array:
    return np.asarray(np.abs(np.arctan2(one[0] * two[1] - one[1] * two[0], (one * two).sum(axis=0))))
