"""Put lessons into house style."""

from __future__ import annotations

from pathlib import Path

from tapewright.app.files import Trouble, read_text, write
from tapewright.app.library import finder
from tapewright.language import read_lesson
from tapewright.language.house_style import in_house_style


def lessons_in(path: Path) -> list[Path]:
    """A lesson, or every lesson of a folder in the order of their names."""
    if not path.is_dir():
        return [path]
    found = sorted(p for p in path.iterdir() if p.suffix == ".md" and p.is_file())
    if not found:
        raise Trouble(f"There is no lesson (.md) in {path}.")
    return found


def format_lesson(path: Path, *, only_look: bool = False) -> bool:
    """Rewrite one lesson in house style; True when it was not in it. With `only_look` nothing is written."""
    source = read_text(path)
    text = in_house_style(read_lesson(source, finder(path.parent)))
    if text == source.text:
        return False
    if not only_look:
        write(path, text.encode("utf-8"))
    return True
