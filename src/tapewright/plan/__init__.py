"""Tree and amendments become a plan: names bound, kinds checked, amounts as exact forms. No numbers."""

from tapewright.plan.build import build_plan
from tapewright.plan.form import Bounded, Dimension, Form, Linear, Taken
from tapewright.plan.plan import Branch, Comparison, Finding, Line, Plan, Step, Straight, each

__all__ = [
    "Bounded",
    "Branch",
    "Comparison",
    "Dimension",
    "Finding",
    "Form",
    "Line",
    "Linear",
    "Plan",
    "Step",
    "Straight",
    "Taken",
    "build_plan",
    "each",
]
