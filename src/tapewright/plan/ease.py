"""Ease: an ease all round enters a half draft as half of it.

A draft on the half that takes more than half of an ease counted all round (or more than the whole of one
counted on the half) gives the body more room than the maker said; that is a caution with the result.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from tapewright.diagnostics import Query, caution
from tapewright.language import sentences as s
from tapewright.language.clause import Clause
from tapewright.language.numbers import say_fraction, show
from tapewright.language.tree import Amount, Offset
from tapewright.plan.form import EyeBase, Form, Linear, MeasureBase, NamedBase
from tapewright.plan.plan import ByEye
from tapewright.units import show_length

_MOST = {"all round": Fraction(1, 2), "on the half": Fraction(1)}


def ask_about_ease(
    clause: Clause,
    forms: Mapping[int, Form],
    by_eye: Mapping[str, ByEye],
    defined: Mapping[str, Form],
    body: str,
) -> Iterator[Query]:
    """Cautions about the lengths a clause draws in a draft on the half; checks and settlings are free."""
    if body == "whole" or not isinstance(clause, s.From | s.Square):
        return
    reach = clause.reach if isinstance(clause, s.From) else (clause.reach,)
    for node in reach:
        if node is None:
            continue
        amount: Amount = node.amount if isinstance(node, Offset) else node
        form = forms.get(id(amount))
        if form is None:
            continue
        for name, share in _shares(form, defined, Fraction(1), frozenset()).items():
            eye = by_eye.get(name)
            most = _MOST.get(eye.share) if eye else None
            if eye is None or most is None or share <= most:
                continue
            beside = _beside(form)
            round_ = share * 2 if eye.share == "all round" else share
            times = "twice" if round_ == 2 else f"{show(round_)} times"
            that = f"{times} as much"
            if isinstance(eye.usual, Linear) and not eye.usual.terms:
                that = show_length(eye.usual.constant * round_)
            yield caution(
                "ease-too-much",
                f"The {name} is {_value(eye)}counted {eye.share}, and this is half the body: "
                f"that makes {that} {eye.share}.",
                amount.span,
                help=_advice(eye.share, beside),
                answers=[_answer(name, eye.share, beside)],
            )


def _beside(form: Form) -> Fraction | None:
    """The share of a measure that the ease stands beside: a quarter, in `a quarter of the waist plus the ease`."""
    if not isinstance(form, Linear):
        return None
    shares = [k for base, k in form.terms if isinstance(base, MeasureBase)]
    return shares[0] if len(shares) == 1 and 0 < shares[0] < Fraction(1, 2) else None


def _advice(counted: str, beside: Fraction | None) -> str:
    if beside is not None:
        share = say_fraction(beside) or show(beside)
        return f"Beside {share} of a measure stands {share} of its ease, counted all round."
    if counted == "all round":
        return "Half of an ease all round goes to the half draft."
    return "An ease counted on the half goes to the half draft once."


def _answer(name: str, counted: str, beside: Fraction | None) -> str:
    if beside is not None:
        share = beside if counted == "all round" else beside * 2
        said = say_fraction(share) or show(share)
        return f"{said} the {name}" if said == "half" else f"{said} of the {name}"
    return f"half the {name}" if counted == "all round" else f"the {name}"


def _value(eye: ByEye) -> str:
    """What an ease is, where it is the same on every body."""
    known = isinstance(eye.usual, Linear) and not eye.usual.terms
    return f"{show_length(eye.usual.constant)}, " if known and isinstance(eye.usual, Linear) else ""


def _shares(
    form: Form, defined: Mapping[str, Form], factor: Fraction, within: frozenset[str]
) -> dict[str, Fraction]:
    """How much of each value by eye is in a form, amounts named by Let unfolded."""
    found: dict[str, Fraction] = {}
    if not isinstance(form, Linear):
        return found
    for base, k in form.terms:
        if isinstance(base, EyeBase):
            share = k if factor == 1 else k * factor
            found[base.name] = found[base.name] + share if base.name in found else share
        elif isinstance(base, NamedBase) and base.name in defined and base.name not in within:
            inner = _shares(defined[base.name], defined, k * factor, within | {base.name})
            for name, share in inner.items():
                found[name] = found.get(name, Fraction(0)) + share
    return found
