"""Put lessons into house style."""

from __future__ import annotations

from pathlib import Path

from tapewright.app.files import Trouble, files_in, is_folder, read_text, write
from tapewright.app.library import finder
from tapewright.language import read_lesson
from tapewright.language.house_style import in_house_style


def lessons_in(path: Path) -> list[Path]:
    """A lesson, or every lesson of a folder in the order of their names."""
    if not is_folder(path):
        return [path]
    found = files_in(path, (".md",))
    if not found:
        raise Trouble(f"There is no lesson (.md) in {path}.")
    return found


def format_lesson(path: Path, *, only_look: bool = False) -> bool:
    """Rewrite one lesson in house style; True when it was not in it. With `only_look` nothing is written."""
    source = read_text(path)
    lesson = read_lesson(source, finder(path.parent))
    unread = next((q for q in lesson.queries if q.name in {"not-text", "text-too-long"}), None)
    if unread is not None:
        raise Trouble(f"{path.name}: {unread.message}")
    text = in_house_style(lesson)
    if text == source.text:
        return False
    if not only_look:
        write(path, text.encode("utf-8"))
    return True
