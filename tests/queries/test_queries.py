"""Every query, provoked, word for word; and no query without its page and its file, or the other way round.

What the table should say is our own wording, read aloud and settled by us: there is no outside source for it.
"""

from __future__ import annotations

import ast
import difflib
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from tapewright.diagnostics import Source, explanation, known_names
from tapewright.language import read_lesson
from tests.queries.bundle import bundles, read_bundle, run, with_expected

SOURCE = Path(__file__).parents[2] / "src" / "tapewright"

#: What makes a query, and the module in which those are made themselves.
MAKERS = {"question", "caution", "note"}
MADE_IN = SOURCE / "diagnostics" / "query.py"

#: Words that nobody should hear at the cutting table: a programmer's, or a schoolmaster's.
NOT_SAID = re.compile(
    r"\b(errors?|invalid|fail(s|ed|ure)?|exceptions?|syntax|pars(e|er|ed|ing)|tokens?|tracebacks?|warnings?"
    r"|illegal|null|integers?|floats?|index(es)?|variables?|objects?|arguments?|parameters?"
    r"|undefined|mistakes?|incorrect)\b",
    re.IGNORECASE,
)

FILES = bundles()


@pytest.fixture
def update(request: pytest.FixtureRequest) -> bool:
    """Whether to write instead of comparing."""
    return bool(request.config.getoption("--update-queries", default=False))


@pytest.mark.parametrize("path", FILES, ids=lambda p: p.stem)
def test_the_table_says_this_and_nothing_else(path: Path, tmp_path: Path, update: bool) -> None:
    """All queries of the files in a bundle, in order and to the letter; one caused by another would show."""
    bundle = read_bundle(path)
    said = run(bundle, tmp_path).text()
    if update:
        path.write_text(with_expected(path, said), encoding="utf-8")
        return
    if said != bundle.expected:
        diff = difflib.unified_diff(
            bundle.expected.splitlines(), said.splitlines(), "expected", "said", lineterm=""
        )
        pytest.fail(
            f"{path.name}\n--- expected\n{bundle.expected}\n--- said\n{said}\n--- difference\n"
            + "\n".join(diff)
            + "\n\nIf this is meant: pytest tests/queries --update-queries"
        )


# --- names, pages, files ---------------------------------------------------------------------------------


def named_in(path: Path) -> Iterator[tuple[str | None, int]]:
    """The name of each query a module makes, with its line; None where the name is not written out.

    Queries are made by `question`, `caution` and `note`, or by a name that was given one of these.
    """
    tree = ast.parse(path.read_text(encoding="utf-8"))
    makers = set(MAKERS)
    for node in ast.walk(tree):
        if isinstance(node, ast.Assign) and not isinstance(node.value, ast.Call):
            used = {n.id for n in ast.walk(node.value) if isinstance(n, ast.Name)}
            called = {
                n.func.id
                for n in ast.walk(node.value)
                if isinstance(n, ast.Call) and isinstance(n.func, ast.Name)
            }
            if used & MAKERS - called:
                makers |= {t.id for t in node.targets if isinstance(t, ast.Name)}
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in makers:
            first = node.args[0] if node.args else None
            plain = isinstance(first, ast.Constant) and isinstance(first.value, str)
            yield first.value if plain else None, node.lineno  # type: ignore[union-attr]


def made() -> dict[str, list[str]]:
    """Each query's name, and where it is made."""
    found: dict[str, list[str]] = {}
    for path in sorted(SOURCE.rglob("*.py")):
        if path == MADE_IN:
            continue
        for name, line in named_in(path):
            where = f"{path.relative_to(SOURCE)}:{line}"
            assert name is not None, f"{where} does not write out the name of its query"
            found.setdefault(name, []).append(where)
    return found


MADE = made()


def subject(path: Path) -> str:
    """The query that a file is about: its name as far as the first point."""
    return path.name.split(".", 1)[0]


def test_the_names_are_found_however_a_query_is_made(tmp_path: Path) -> None:
    """The reading of the sources sees plain calls and borrowed makers, and asks for names written out."""
    module = tmp_path / "some.py"
    module.write_text(
        'a = question("one", "x")\nmake = caution if big else note\nb = make("two", "y")\nc = note(name, "z")\n'
    )
    assert [name for name, _ in named_in(module)] == ["one", "two", None]


@pytest.mark.parametrize("name", sorted(MADE))
def test_each_query_has_its_page_and_its_file(name: str) -> None:
    """`tapewright why` answers for it, and a file of this folder named after it shows it."""
    assert name in known_names(), f"no page diagnostics/why/{name}.md; it is made in {MADE[name]}"
    own = [p for p in FILES if subject(p) == name]
    assert own, f"no file tests/queries/{name}.md; it is made in {MADE[name]}"
    assert any(f"tapewright why {name})" in read_bundle(p).expected for p in own)


def test_no_page_and_no_file_without_a_query() -> None:
    """What is no longer asked is no longer explained or shown."""
    assert known_names() <= set(MADE)
    beginners = re.compile(r"beginner-\d\d")
    strays = [p.name for p in FILES if subject(p) not in MADE and not beginners.fullmatch(subject(p))]
    assert not strays


@pytest.mark.parametrize("name", sorted(known_names()))
def test_pages_are_made_for_a_maker(name: str) -> None:
    """A heading in the trade's words, what kind of query it is, an example set in, and a plain voice."""
    page = explanation(name)
    assert page is not None
    lines = page.splitlines()
    assert re.fullmatch(r"# [A-Z“].+", lines[0])
    assert lines[0].removeprefix("# ").lower().rstrip("?") != name
    assert lines[1] == ""
    assert re.match(r"A (question|caution|note)\b", lines[2]), "it begins by saying what kind of query it is"
    assert any(line.startswith("    ") for line in lines), "an example is set in by four spaces"
    assert max(map(len, lines)) <= 120
    found = NOT_SAID.search(page)
    assert found is None, f"“{found[0]}” is not a word of the table"


#: Pages that show a sentence which cannot be read, or one that needs two drafts before it.
UNREAD = {"sentence-unread", "said-otherwise", "no-leading-word", "name-not-free", "which-draft"}
#: Names that the examples use without making them; what each is does not matter for reading.
USED = (
    "apron, back, back neck, back scye, back shoulder, cloth width, collar, crown height, dart, excess, first sweep, "
    "frill, front, front neck, front shoulder, hem, hem line, neck, neck tape, scye, scye depth, second sweep, side, side seam"
)
#: Statements of the header, and sentences of a fitting; both are read by readers of their own.
OTHERWISE = ("Taken over", "On the half", "Whole", "Between", "Instead of", "After")


def shown_in(page: str) -> Iterator[str]:
    """The drafting sentences of a page's examples, without the remarks that stand behind them."""
    for line in page.splitlines():
        said = re.sub(r"\s{2,}.*", "", line.removeprefix("    ")) if line.startswith("    ") else ""
        if re.match(r"[A-Z]\w+ ", said) and said.endswith(".") and not said.startswith(OTHERWISE):
            yield said


@pytest.mark.parametrize("name", sorted(known_names() - UNREAD))
def test_the_sentences_of_a_page_can_be_read(name: str) -> None:
    """Even the example that gets the query is a sentence of the language; only its meaning is asked about."""
    head = "# A page\nOn the half. Drafted net. Taken over: a shift.\n\n## By eye\n"
    head += "".join(f"- {used}: 1 in\n" for used in USED.split(", "))
    head += (
        "\n## Table: the boys' sizes\n| waist (cm) | depth (cm) |\n|---|---|\n| 50 | 13 |\n\n## The draft\n"
    )
    for said in shown_in(explanation(name) or ""):
        lesson = read_lesson(Source("page", f"{head}1. {said}\n"))
        about = {"no-such-draft", "begins-from-itself", "repeat"}
        assert not [q.message for q in lesson.queries if q.name not in about], said


@pytest.mark.parametrize("path", FILES, ids=lambda p: p.stem)
def test_nothing_said_is_unkind(path: Path) -> None:
    """No query says that somebody did wrong, and none speaks of the program's insides."""
    said = [line for line in read_bundle(path).expected.splitlines() if line.startswith("  ")]
    spoken = [line for line in said if not re.match(r" +(\d+)? \|", line)]
    for line in spoken:
        found = NOT_SAID.search(re.sub(r"“[^”]*”|\(more: .*", "", line))
        assert found is None, f"“{found[0]}” in: {line}"
