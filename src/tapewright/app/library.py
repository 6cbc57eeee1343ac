"""The shipped lessons and demo wearers: data in the package, found by name."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path

from tapewright.app.files import Trouble, is_there, read_text, shown
from tapewright.diagnostics import Source, did_you_mean
from tapewright.language import Finder

_HOME = Path(str(files("tapewright"))) / "library"

#: The lessons the demo draws, each with the wearer it is drawn for.
DEMO = (("a-womans-body-block", "margery-thorne"), ("a-mans-body-block", "josiah-pell"))


def lessons() -> dict[str, Path]:
    """Every shipped lesson by its file's name without the ending."""
    return {p.stem: p for p in sorted(_HOME.glob("*.md"))}


def wearers() -> dict[str, Path]:
    """Every demo wearer by the file's name without the ending."""
    return {p.stem: p for p in sorted((_HOME / "figures").glob("*.yaml"))}


def nominal(figure: str) -> Path:
    """The sheet of the nominal figure, `woman` or `man`: nobody's, for a lesson that has no wearer yet."""
    return _HOME / "nominal" / f"nominal-{figure}.yaml"


def finder(beside: Path) -> Finder:
    """Finds a draft by its title: among the lessons of a folder, then among the shipped ones."""

    def find(title: str) -> Source | None:
        for path in [*sorted(beside.glob("*.md")), *lessons().values()]:
            try:
                source = read_text(path)
            except Trouble:
                continue
            if _title(source.text) == title:
                return source
        return None

    return find


def _title(text: str) -> str:
    """The first heading of a text, as it is written."""
    for line in text.splitlines():
        if line.startswith("# "):
            return line[2:].strip()
    return ""


def lesson_path(said: str) -> Path:
    """A lesson given as a file, or by the name of a shipped one."""
    path = Path(said)
    if is_there(path):
        if path.suffix.lower() in {".yaml", ".yml"}:
            raise Trouble(
                f"{path.name} is a measure sheet; the lesson stands first, and the sheet after --for."
            )
        return path
    return _shipped(said, lessons(), "lesson")


def wearer_path(said: str) -> Path:
    """A sheet or a folder of sheets given as a path, or by the name of a demo wearer or a nominal figure."""
    path = Path(said)
    if is_there(path):
        return path
    if said in {"nominal-woman", "nominal-man"}:
        return nominal(said.removeprefix("nominal-"))
    return _shipped(said, wearers(), "measure sheet")


def _shipped(said: str, known: dict[str, Path], what: str) -> Path:
    found = known.get(Path(said).stem) if "/" not in said else None
    if found is not None:
        return found
    near = did_you_mean(Path(said).stem, known)
    hint = f" Did you mean {' or '.join(near)}?" if near else f" The shipped ones are {', '.join(known)}."
    raise Trouble(f"There is no {what} {shown(said)}.{hint}")
