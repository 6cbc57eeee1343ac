"""Lessons made to be timed: a bodice of many panels, of as many sentences as are asked for.

No garment anybody should sew. Every panel is drawn alike: a box, a taking at the waist, a swell by eye, three
curves, a meeting, an outline, its turnings, a seam to the panel before it. Each panel has a swell of its own,
so that one value by eye changes one panel and nothing else.
"""

from __future__ import annotations

from collections.abc import Iterator

HEAD = """# A bodice of {panels} panels

On the half. Drafted net. Taken over: a shift.

Drawn to see how long the drawing takes.

## Measures

- bust
- waist
- nape to waist

## Tapes

- bust tape: the bust in 48 parts; the usual tape

## By eye

- bust ease: 2 in all round, between 0 and 4 in
- dip: 1/2 in, between 1/4 and 1 in
{swells}

## The draft

"""

#: Sentences of the frame, and of a panel that is sewn to the one before it; the first panel has one fewer.
FRAME = 7
PANEL = 16


def lesson(panels: int, sentences: int | None = None) -> str:
    """The text of a bodice of so many panels, each sentence an item of its own.

    `sentences` fills the count up with checks of the frame; ValueError when the panels need more than that.
    """
    swells = "\n".join(f"- swell {i}: 1/4 in, between 1/8 and 1/2 in" for i in range(1, panels + 1))
    said = [*_frame(panels), *(sentence for i in range(1, panels + 1) for sentence in _panel(i))]
    if sentences is not None and sentences < len(said):
        raise ValueError(f"{panels} panels take {len(said)} sentences")
    said += ["See that A-B is the nape to waist."] * ((sentences or 0) - len(said))
    numbered = "\n".join(f"{n}. {sentence}" for n, sentence in enumerate(said, 1))
    return HEAD.format(panels=panels, swells=swells) + numbered + "\n"


def _frame(panels: int) -> Iterator[str]:
    """The box all panels hang from."""
    yield "Begin at A, with the centre back on the left and the centre front on the right."
    yield "From A down to B: the nape to waist."
    yield "From A across to C: half the bust plus half the bust ease."
    yield "Square across from B and down from C to D."
    yield f"Let the spacing be 1/{panels} of the bust tape."
    yield "From A down to U: 1/6 of the bust tape; square across to V on C-D; call it the under line."
    yield f"Let the panel width be 1/{2 * panels} of the bust tape plus 1/{2 * panels} of the bust ease."


def _panel(i: int) -> Iterator[str]:
    """One panel."""
    yield f"From A across to A{i}: {i} times the spacing; then right to C{i}: the panel width."
    yield f"Let the taking {i} be 1/36 of (the bust less the waist), but not less than 0 in."
    yield f"Square down from A{i} to B{i} on B-D carried on; then right to E{i}: the taking {i}."
    yield f"Square down from C{i} to D{i} on B-D carried on; then left to F{i}: the taking {i}."
    yield f"From A{i} along A{i}-B{i} to G{i}: half of A{i}-B{i}; then right to H{i}: the swell {i}."
    yield f"From C{i} along C{i}-D{i} to J{i}: half of C{i}-D{i}; then left to K{i}: the swell {i}."
    yield f"Divide A{i}-C{i} in half at M{i}; then down to N{i}: the dip."
    yield f"Draw a curve from A{i} through H{i} to E{i}, passing H{i} plumb; call it the left seam {i}."
    yield f"Draw a curve from C{i} through K{i} to F{i}, passing K{i} plumb; call it the right seam {i}."
    yield f"Draw a curve from A{i} through N{i} to C{i}, passing N{i} level; call it the upper edge {i}."
    yield f"Where the left seam {i} meets the under line carried on, put L{i}."
    yield (
        f"Let the panel {i} be the outline A{i} to C{i} by the upper edge {i}, "
        f"to F{i} by the right seam {i}, to E{i}, to A{i} by the left seam {i}."
    )
    yield f"Cut the panel {i} twice of calico, with M{i}-N{i} on the grain, leaving 1.5 cm everywhere."
    if i > 1:
        yield f"Sew the right seam {i - 1} to the left seam {i}."
    yield f"Mark the left seam {i} at L{i}, one notch."
    yield f"See that the left seam {i} is the right seam {i}."
