"""The tree of claims (`See that ...`) and conditions (`If ...`)."""

from __future__ import annotations

from dataclasses import dataclass

from tapewright.diagnostics import Span
from tapewright.language.tree import Amount, CornerRef, Edge, LineRef, NameRef, PointRef, Unknown, where


@dataclass(frozen=True, slots=True)
class Compared:
    """`E-H plus R-F is half the bust, within 1 mm`; relation: is, at least, at most, more, less."""

    left: Amount
    relation: str
    right: Amount
    within: Amount | None = None
    span: Span = where()


@dataclass(frozen=True, slots=True)
class InRange:
    """`the scye is between 2/5 of the chest and half the chest`."""

    amount: Amount
    low: Amount
    high: Amount
    span: Span = where()


@dataclass(frozen=True, slots=True)
class LongerBy:
    """`the back shoulder is longer than the front shoulder by 4 mm to 7 mm`; no amount: by anything."""

    longer: Amount
    shorter: Amount
    low: Amount | None = None
    high: Amount | None = None
    span: Span = where()


@dataclass(frozen=True, slots=True)
class SquareCorner:
    """`the corner A-B-D is square`."""

    corner: CornerRef
    span: Span = where()


@dataclass(frozen=True, slots=True)
class LiesOn:
    """`K lies on A-B`."""

    point: PointRef
    line: LineRef
    span: Span = where()


@dataclass(frozen=True, slots=True)
class RunsOn:
    """`the back neck and the front neck run on smoothly at N and M`."""

    edges: tuple[Edge, ...]
    points: tuple[PointRef, ...]
    span: Span = where()


@dataclass(frozen=True, slots=True)
class SameBothSides:
    """`A-B is the same on both sides`."""

    amount: Amount
    span: Span = where()


Claim = Compared | InRange | LongerBy | SquareCorner | LiesOn | RunsOn | SameBothSides


@dataclass(frozen=True, slots=True)
class ChoiceIs:
    """`the figure is stout`."""

    name: NameRef | Unknown
    choice: str
    span: Span = where()


Condition = Compared | ChoiceIs
