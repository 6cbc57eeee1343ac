"""The lists of a lesson, bound: measures, tapes, values by eye, choices, cloths."""

from __future__ import annotations

from tapewright.diagnostics import note, question
from tapewright.language.lesson import MeasureEntry
from tapewright.language.reading import KNOWN_CLOTHS
from tapewright.measures import measure_called, measure_meant, measures_meant, say_either
from tapewright.plan.form import Dimension
from tapewright.plan.making import Making
from tapewright.plan.plan import ByEye, Choice, Tape
from tapewright.plan.scope import Named
from tapewright.units import UnitKind


def _another_word(making: Making, measure: MeasureEntry) -> bool:
    """Tells of another word for a measure; whether it may mean several, so that what uses it waits."""
    meant = measures_meant(measure.name)
    if len(meant) == 1:
        making.ask(
            note(
                "measure-other-word",
                f"“{measure.name}” is another word for the {meant[0]}, and is taken from the sheet as that.",
                measure.span,
                help="If a length of your own is meant, give it a name of its own.",
                answers=meant,
            )
        )
    elif meant:
        making.ask(
            question(
                "measure-which",
                f"“{measure.name}” may mean {say_either(meant)}.",
                measure.span,
                help="Set the one that is meant in its place, here and in the sentences.",
                answers=meant,
            )
        )
        making.scope.waiting_names.add(measure.name)
    return len(meant) > 1


def declare_lists(making: Making) -> None:
    """Measures, tapes, values by eye, choices, cloths, places."""
    lesson = making.lesson
    making.source = lesson.source.name
    making.scope.waiting_names.update(name for sort, name in lesson.unread if sort != "shape")
    making.scope.tape_waits = any(sort == "tapes" for sort, _ in lesson.unread)
    for measure in lesson.measures:
        if measure_called(measure.name) is None and _another_word(making, measure):
            continue
        known = measure_meant(measure.name)
        angle = known.kind is UnitKind.ANGLE if known else measure.note.startswith("in degrees")
        making.dimensions[measure.name] = Dimension.ANGLE if angle else Dimension.LENGTH
        making.enter(Named(measure.name, "measure", measure.span))
    for entry in lesson.tapes:
        binder = making.binder()
        whole = binder.amount(entry.whole, Dimension.LENGTH)
        making.take(binder)
        if whole is None:
            making.scope.waiting_names.add(entry.name)
            continue
        making.enter(Named(entry.name, "tape", entry.span))
        making.tapes[entry.name] = Tape(entry.name, whole, entry.parts, entry.usual, entry.span)
    for eye in lesson.by_eye:
        binder = making.binder()
        usual = binder.amount(eye.usual)
        kind = usual.dimension if usual is not None else None
        low = None if eye.low is None else binder.amount(eye.low, kind)
        high = None if eye.high is None else binder.amount(eye.high, kind)
        making.take(binder)
        if usual is None:
            making.scope.waiting_names.add(eye.name)
            continue
        making.dimensions[eye.name] = usual.dimension
        making.enter(Named(eye.name, "by eye", eye.span))
        making.by_eye[eye.name] = ByEye(eye.name, usual, low, high, eye.share, eye.span)
    for choice in lesson.choices:
        making.enter(Named(choice.name, "choice", choice.span))
        making.choices[choice.name] = Choice(choice.name, choice.options, choice.options[0])
    for cloth in lesson.cloths:
        if cloth.amount is None:
            making.enter(Named(cloth.name, "cloth", cloth.span))
            continue
        binder = making.binder()
        form = binder.amount(cloth.amount, Dimension.LENGTH)
        making.take(binder)
        if form is not None:
            making.enter(Named(cloth.name, "by eye", cloth.span))
            making.by_eye[cloth.name] = ByEye(cloth.name, form, None, None, "", cloth.span)
        else:
            making.scope.waiting_names.add(cloth.name)
    for table in lesson.tables:
        making.enter(Named(table.name, "table", table.span))
        making.tables[table.name] = table
    for name in KNOWN_CLOTHS:
        making.scope.names.setdefault(name, Named(name, "cloth", lesson.header.span))
