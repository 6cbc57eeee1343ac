"""The crib for the wall holds the whole language, says only what draws, and fits its page."""

from __future__ import annotations

from pathlib import Path
from typing import get_args

import pytest
from typer.testing import CliRunner

from tapewright.app import crib as cribs
from tapewright.app.library import wearers
from tapewright.cli.main import app
from tapewright.diagnostics import Source
from tapewright.draft import evaluate, from_sheets
from tapewright.drawing import Drawing, Words, every, words_corners
from tapewright.language import Clause, read_amendments, walk
from tapewright.language.clause import BY_KIND
from tapewright.language.house_style import formatted
from tapewright.language.sentences import Curve, From, SeeThat, Sweep
from tapewright.language.tree import Amount, Way
from tapewright.language.tree_claims import Claim
from tapewright.measures import read_sheet
from tapewright.pages import A3, A4, LETTER, Paper
from tapewright.pages.crib import NoRoomForCrib, crib_page
from tapewright.plan import build_plan

#: What the printer writes for nothing that a maker says: a bare number, and the words that are not known.
_NEVER_SAID = {"Bare", "Unknown"}


def _clauses() -> list[Clause]:
    return [
        c for lesson in cribs.crib_lessons() for _, said in cribs._said(lesson) for c in cribs._clauses(said)
    ]


@pytest.mark.parametrize("which", [0, 1])
def test_its_sentences_draw(which: int) -> None:
    """Both lessons of the crib draw for a demo wearer without a query, and stand in house style."""
    lesson = cribs.crib_lessons()[which]
    sheet, _ = read_sheet(Source("sheet", wearers()[cribs.WEARER].read_text(encoding="utf-8")))
    assert sheet is not None
    plan = build_plan(lesson)
    draft = evaluate(plan, from_sheets([sheet], plan.measures()))
    assert [q.message for q in draft.queries()] == []
    assert formatted(lesson.source, lesson) == lesson.source.text


def test_its_amendments_are_amendments() -> None:
    """All three forms."""
    found, queries = read_amendments(Source("crib.md", cribs.crib_texts()[2]), cribs.crib_lessons()[0])
    assert not queries
    assert {one.form for one in found} == {"let", "instead", "after"}


def test_every_kind_of_sentence_is_on_it() -> None:
    """Each kind, under a leading word, in words that the page shows."""
    assert {clause.kind for clause in _clauses()} == set(BY_KIND)
    made = cribs.crib()
    shown = {said.words for word in made.words for said in word.said}
    kinds = {
        c.kind
        for one in cribs.crib_lessons()
        for h, s in cribs._said(one)
        for c in cribs._clauses(s)
        if h in {w.lead for w in made.words}
    }
    assert kinds == set(BY_KIND)
    assert len(shown) >= len(BY_KIND) - 1  # `call it` stands in the sentences of others


def test_a_kind_without_an_example_is_a_fault(monkeypatch: pytest.MonkeyPatch) -> None:
    """So a new kind of sentence cannot be forgotten."""
    texts = cribs.crib_texts()
    without = "\n".join(line for line in texts[0].splitlines() if "Draw a cone" not in line) + "\n"
    monkeypatch.setattr(cribs, "crib_texts", lambda: (without, *texts[1:]))
    with pytest.raises(ValueError, match="no example of cone"):
        cribs.crib()


def test_every_way_length_crossing_leaning_and_claim_is_on_it() -> None:
    """Each kind of each, so that nothing of the language is left off the wall."""
    clauses = _clauses()
    nodes = {type(node).__name__ for clause in clauses for node in walk(clause)}
    assert {k.__name__ for k in get_args(Way)} - {"BareWay"} <= nodes
    assert {k.__name__ for k in get_args(Amount)} - _NEVER_SAID <= nodes
    assert {type(c.claim).__name__ for c in clauses if isinstance(c, SeeThat)} == {
        k.__name__ for k in get_args(Claim)
    }
    ends = [c.end for c in clauses if isinstance(c, From | Sweep) and c.end is not None]
    which = {e.crossing.which for e in ends if e.crossing is not None}
    assert which == {"upper", "lower", "left", "right", "nearer", "farther"}
    how = [one.how for c in clauses if isinstance(c, Curve) for one in c.leanings]
    assert {one if isinstance(one, str) else type(one).__name__ for one in how} == {
        "plumb", "level", "SquareTo", "Toward", "AlongLine"
    }  # fmt: skip


@pytest.mark.parametrize("paper", [A4, LETTER, A3], ids=lambda p: p.name)
def test_it_fits_one_page(paper: Paper) -> None:
    """All its words lie inside the margins, and no line of them touches another."""
    made = cribs.crib()
    drawing = crib_page(made, paper)
    assert (drawing.width, drawing.height) == (paper.width, paper.height)
    assert drawing.missing() == ()
    boxes = []
    for mark in every(drawing.marks):
        if isinstance(mark, Words) and mark.setting.said.strip():
            xs, ys = zip(*words_corners(mark), strict=True)
            box = (min(xs), min(ys), max(xs), max(ys))
            assert box[0] >= paper.margin - 0.2
            assert box[1] >= paper.margin - 0.2
            assert box[2] <= drawing.width - paper.margin + 0.2
            assert box[3] <= drawing.height - paper.margin + 0.2
            boxes.append(box)
    for i, (a, b, c, d) in enumerate(boxes):
        for e, f, g, h in boxes[i + 1 :]:
            assert c <= e or g <= a or d <= f or h <= b


def _words(drawing: Drawing) -> str:
    said = [m.setting.said for m in every(drawing.marks) if isinstance(m, Words)]
    return " ".join(" ".join(said).replace("\u00a0", " ").split())


def test_all_that_it_should_say_is_on_the_page() -> None:
    """Every sentence and every phrase, whatever lines they are broken into."""
    from tapewright.pages.wording import as_printed

    made = cribs.crib()
    page = _words(crib_page(made, A4)).replace("\u201c", '"').replace("\u201d", '"')
    for word in made.words:
        for said in word.said:
            assert as_printed(said.words) in page
    for box in made.boxes:
        for phrase in box.phrases:
            assert as_printed(phrase) in page


def test_larger_paper_has_larger_type() -> None:
    """A3 for the wall is read from farther off; a postcard is refused."""
    made = cribs.crib()

    def size(paper: Paper) -> float:
        runs = [
            r for m in every(crib_page(made, paper).marks) if isinstance(m, Words) for r in m.setting.runs
        ]
        return max(run.size for run in runs)

    assert size(A3) > 1.25 * size(A4)
    with pytest.raises(NoRoomForCrib):
        crib_page(made, Paper("postcard", 148.0, 105.0))


def test_the_command_writes_it(tmp_path: Path) -> None:
    """One page, the same bytes each time; what is no page or no PDF is refused in a line."""
    import pypdfium2

    runner = CliRunner()
    target = tmp_path / "crib.pdf"
    assert runner.invoke(app, ["crib", "-o", str(target)]).exit_code == 0
    first = target.read_bytes()
    assert len(pypdfium2.PdfDocument(first)) == 1
    assert runner.invoke(app, ["crib", "-o", str(target), "--paper", "A4"]).exit_code == 0
    assert target.read_bytes() == first
    for wrong in (["-o", str(tmp_path / "crib.svg")], ["-o", str(target), "--paper", "one-page"]):
        result = runner.invoke(app, ["crib", *wrong])
        assert result.exit_code == 2
        assert len(result.output.strip().splitlines()) == 1
