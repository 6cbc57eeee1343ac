"""Documents that show something show what the program does now."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
sys.path.insert(0, str(ROOT / "docs"))
import plates  # noqa: E402

import queries  # noqa: E402
from tapewright.cli.main import app  # noqa: E402
from tapewright.diagnostics import Source, known_names  # noqa: E402
from tapewright.draft import evaluate, from_sheets  # noqa: E402
from tapewright.language import read_amendments, read_lesson  # noqa: E402
from tapewright.measures import read_sheet  # noqa: E402
from tapewright.plan import build_plan  # noqa: E402


@pytest.mark.parametrize("name", sorted(plates.PLATES))
def test_plates_are_as_drawn_now(name: str) -> None:
    """Each committed plate is, byte for byte, what `make plates` draws."""
    assert (ROOT / name).read_bytes() == plates.PLATES[name](), "run `make plates` and look at the result"


def test_the_page_of_queries_is_what_the_table_says_now() -> None:
    """`docs/queries.md` is what `docs/queries.py` makes, and each query with a page stands in one group of it."""
    assert (ROOT / queries.PAGE).read_text(encoding="utf-8") == queries.page(), "run `make queries`"
    listed = list(queries.listed())
    assert len(set(listed)) == len(listed)
    assert set(listed) == set(known_names())


def test_the_readme_lesson_asks_nothing_and_its_checks_hold() -> None:
    """What a newcomer copies out of the README works."""
    draft = plates.drawn_for(plates.readme_lesson(), "margery-thorne")
    assert not draft.queries()
    assert all(bool(c.holds[0]) for c in draft.checks())
    assert len(draft.checks()) == 2


def test_the_readmes_sheet_and_fitting_are_understood() -> None:
    """The measure sheet of the README is read without a question, and its fitting changes two sentences."""
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    sheet_text = re.findall(r"```yaml\n(.*?)```", text, re.DOTALL)[0]
    fitting = re.findall(r"```markdown\n(# Hester.*?)```", text, re.DOTALL)[0]
    sheet, queries = read_sheet(Source("hester.yaml", sheet_text))
    assert sheet is not None
    assert [str(q.kind) for q in queries] == ["note"]
    lesson = read_lesson(Source("pocket.md", plates.readme_lesson()))
    amendments, asked = read_amendments(Source("fitting.md", fitting), lesson)
    assert not asked
    plan = build_plan(lesson, amendments)
    draft = evaluate(plan, from_sheets([sheet], plan.measures()))
    plain = evaluate(build_plan(lesson), from_sheets([sheet], plan.measures()))
    assert not draft.queries()
    part = 172 / 24
    e, was = draft.point("E"), plain.point("E")
    assert was.y[0] - e.y[0] == pytest.approx(part)
    f, then = draft.point("F"), plain.point("F")
    assert then.x[0] - f.x[0] == pytest.approx(2 * part)


def test_every_command_is_in_the_readme() -> None:
    """The table of commands leaves none out."""
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    names = {c.name or c.callback.__name__ for c in app.registered_commands if c.callback is not None}
    names |= {g.name for g in app.registered_groups if g.name}
    assert names
    assert names <= set(re.findall(r"`tapewright (\w+)", text))


def test_the_readme_opens_with_the_job_and_the_two_commands() -> None:
    """One paragraph, then make demo and make test."""
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    assert text.index("make demo") < text.index("make test") < text.index("## ")


@pytest.mark.parametrize(
    "page", ["README.md", "CONTRIBUTING.md", "docs/architecture.md", "examples/README.md"]
)
def test_links_lead_somewhere(page: str) -> None:
    """Every link to a file of the project finds it."""
    text = (ROOT / page).read_text(encoding="utf-8")
    for target in re.findall(r"\]\(([^)#:]+)\)", text) + re.findall(r'src="([^"]+)"', text):
        assert ((ROOT / page).parent / target).exists(), target


def test_the_commands_of_the_readme_exist() -> None:
    """Each command named in the README's table has its help."""
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    for command in sorted(set(re.findall(r"`tapewright (\w+)", text))):
        result = subprocess.run(
            [str(Path(sys.executable).parent / "tapewright"), command, "--help"],
            capture_output=True,
            text=True,
            check=False,
        )
        assert result.returncode == 0, command


def test_the_slip_that_the_readme_shows_is_what_the_table_says() -> None:
    """The query printed in the README is the program's own."""
    from tapewright.diagnostics import Source, as_text
    from tapewright.language import read_lesson

    text = plates.readme_lesson().replace("From A down to B:", "From A dwon to B:")
    source = Source("pocket.md", text)
    said = as_text(read_lesson(source).queries[0], {"pocket.md": source}).splitlines()
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    for line in (said[0], *said[3:6]):
        assert line.strip() in readme, line


@pytest.mark.slow
def test_the_contact_sheets_are_what_the_garments_look_like_now() -> None:
    """`docs/garments` holds a sheet for every shipped garment, as `docs/garments.py` draws it."""
    import garments

    made = garments.made()
    assert {p for p in made if p.suffix == ".svg"} == set((ROOT / "docs" / "garments").glob("*.svg"))
    for path, data in made.items():
        assert path.read_bytes() == data, path.name
