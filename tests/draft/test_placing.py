"""A draft begun from another: its letters, names and lines, its values by eye, and its own name for them."""

from __future__ import annotations

import numpy as np
import pytest

from tapewright.diagnostics import Source
from tapewright.draft import Draft, evaluate, from_arrays
from tapewright.language import read_lesson
from tapewright.measures import Figure
from tapewright.plan import build_plan
from tests.lessons import TRIAL, at, names

BLOCK = """# A block
On the half. Drafted net. Taken over: a shift.

## Measures
- bust
- nape to waist

## Tapes
- bust tape: the bust in 48 parts; the usual tape

## By eye
- ease: 2 in all round, between 0 and 4 in

## The frame
1. Begin at A, with the centre back on the left and the centre front on the right.
2. From A down to B: the nape to waist. From A across to C: half the bust plus half the ease.
3. Square across from B and down from C to D. Join B to D; call it the waist line. Let the depth be half A-B.
4. Sweep about D from B toward A through 90 degrees to K; call it the bowl.
5. Let the bit be the outline D to B, to K by the bowl, to D.
6. Cut the bit once of cloth, leaving nothing everywhere. See that A-B is the nape to waist.
"""
SECOND = BLOCK.replace("# A block", "# Another block").replace("half A-B", "a third of A-B")
HEAD = "# A bodice\nOn the half. Drafted net. Taken over: {over}.\n\n## By eye\n- bodice ease: 2 cm\n\n## The back\n"


def draw(*items: str, over: str = "a shift") -> Draft:
    """A lesson that may begin from either block."""
    texts = {"A block": BLOCK, "Another block": SECOND}
    text = HEAD.format(over=over) + "\n".join(f"{i}. {t}" for i, t in enumerate(items, 1))

    def find(title: str) -> Source | None:
        if title == "A bodice":
            return Source("bodice.md", text)
        return Source(f"{title}.md", texts[title]) if title in texts else None

    made = build_plan(read_lesson(Source("bodice.md", text), find))
    return evaluate(made, from_arrays({k: np.array([v]) for k, v in TRIAL.items()}, Figure.WOMAN))


BEGIN = 'Begin from the draft "A block"; call it the block.'


def test_letters_names_and_lines_are_known() -> None:
    """What the block made can be used as if it had been made here."""
    draft = draw(
        BEGIN, "From B up to E: the depth. Square across from E to F on C-D.", "Let the far be the bowl.",
        "From B along the waist line to G: 2 parts. From the block's A down to H: half the block's A-B.",
        "From F toward the centre back to J: half the ease.",
    )  # fmt: skip
    assert not draft.queries(), [q.message for q in draft.queries()]
    assert at(draft, "E") == (0, 200)
    assert at(draft, "F") == pytest.approx((505.4, 200))
    assert at(draft, "G") == pytest.approx((40, 400))
    assert at(draft, "H") == (0, 200)
    assert at(draft, "J")[0] == pytest.approx(505.4 - 25.4)
    assert draft.amount("far")[0] == pytest.approx(505.4 * np.pi / 2, abs=1e-3)


def test_values_by_eye_are_given() -> None:
    """With the ease at the bodice ease."""
    draft = draw(
        'Begin from the draft "A block", with the ease at the bodice ease.', "From C down to E: 1 cm."
    )
    assert at(draft, "E") == (490, 10)
    wrong = draw(
        'Begin from the draft "A block", with the eese at the bodice ease.', "From C down to E: 1 cm."
    )
    assert names(wrong.queries()) == ["not-by-eye"]
    assert [a.replace for a in wrong.queries()[0].answers] == ["the ease"]


def test_its_pieces_and_checks_are_its_own() -> None:
    """What the block cuts is not cut again; its outlines can be."""
    draft = draw(BEGIN, "Cut the bit twice of cloth, leaving 1 cm everywhere.")
    assert [p.name for p in draft.pieces()] == ["bit"]
    assert draft.pieces()[0].cloths[0].count == 2
    assert draft.checks() == ()


def test_a_letter_of_the_block_cannot_be_made_again() -> None:
    """Neither letters nor names."""
    draft = draw(BEGIN, "From A down to B: 3 cm.", "Let the depth be 3 cm.")
    assert names(draft.queries()) == ["letter-made-twice", "name-made-twice"]


def test_two_drafts_that_share_letters() -> None:
    """The bare letter is a question; each is reached by its draft's name."""
    second = 'Begin from the draft "Another block"; call it the coat.'
    clear = draw(BEGIN, second, "From the block's B right to Q: 1 cm. From the coat's B left to R: 1 cm.")
    assert not clear.queries(), [q.message for q in clear.queries()]
    assert at(clear, "Q") == (10, 400)
    assert at(clear, "R") == (-10, 400)
    unclear = draw(BEGIN, second, "From B right to Q: 1 cm.")
    assert names(unclear.queries()) == ["which-draft"]
    assert [a.replace for a in unclear.queries()[0].answers] == ["the block's B", "the coat's B"]


def test_what_is_not_there_or_begins_from_itself() -> None:
    """One question each, and nothing that rests on it is asked about."""
    gone = draw(
        'Begin from the draft "A blok".', "From B right to Q: the depth. Square down from Q to R on the hem."
    )
    assert names(gone.queries()) == ["no-such-draft"]
    itself = draw('Begin from the draft "A bodice".', "From B right to Q: the depth.")
    assert names(itself.queries()) == ["begins-from-itself"]


def test_a_block_taken_over_something_else_is_noted() -> None:
    """It runs on the outer lesson's sheet."""
    draft = draw(BEGIN, over="stays")
    assert names(draft.queries()) == ["placed-over"]
    assert draft.alive("point D")


def test_a_question_within_the_block_is_told_with_its_own_place() -> None:
    """The block needs the nape to waist; the sheet lacks it."""
    text = HEAD.format(over="a shift") + "1. " + BEGIN
    found = build_plan(read_lesson(Source("bodice.md", text), lambda t: Source("block.md", BLOCK)))
    draft = evaluate(found, from_arrays({"bust": np.array([900.0])}, Figure.WOMAN))
    assert [(q.name, q.source) for q in draft.queries()] == [("measure-not-taken", "block.md")]
