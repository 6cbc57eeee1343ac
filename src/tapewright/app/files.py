"""Reading and writing files: a text with its name, and bytes written beside and renamed.

A file is either as it was or whole and new, never half. What cannot be read or written is said in one line.
"""

from __future__ import annotations

import os
import stat
import tempfile
from collections.abc import Collection
from pathlib import Path

from tapewright.diagnostics import Query, Source
from tapewright.measures import sheet_source


class Trouble(Exception):
    """A file that could not be read or written, in one line for the maker."""


LARGEST = 20_000_000
_LONGEST_SHOWN = 200


def read_text(path: Path) -> Source:
    """The text of a lesson or of amendments; Trouble when there is none to be had."""
    data = _bytes(path)
    wide = data[:2] in {b"\xff\xfe", b"\xfe\xff"}
    try:
        text = data.decode("utf-16" if wide else "utf-8-sig")
    except UnicodeDecodeError as slip:
        raise Trouble(
            f"{shown(path)} is not plain text in UTF-8 (byte {slip.start + 1} is not); save it again as UTF-8."
        ) from None
    return Source(path.name, text)


def read_sheet_source(path: Path) -> Source | Query:
    """The text of a measure sheet; what is wrong with its bytes is a query of the sheet's own."""
    return sheet_source(path.name, _bytes(path))


def read_table(path: Path) -> Source:
    """The text of a company's table, UTF-8 or UTF-16 with its mark; Trouble when there is none to be had."""
    data = _bytes(path)
    wide = data[:2] in {b"\xff\xfe", b"\xfe\xff"}
    try:
        return Source(path.name, data.decode("utf-16" if wide else "utf-8-sig"))
    except UnicodeDecodeError:
        raise Trouble(f"{path} is no plain text in UTF-8; save the table again as CSV in UTF-8.") from None


def is_there(path: Path) -> bool:
    """Whether there is a file or folder of that name; a name that no file can have is not there."""
    try:
        return path.exists()
    except (OSError, ValueError):
        return False


def is_folder(path: Path) -> bool:
    """Whether there is a folder of that name."""
    try:
        return path.is_dir()
    except (OSError, ValueError):
        return False


def files_in(folder: Path, endings: Collection[str]) -> list[Path]:
    """The files of a folder with some endings, in the order of their names; Trouble when it cannot be read."""
    try:
        return sorted(p for p in folder.iterdir() if p.suffix.lower() in endings and p.is_file())
    except OSError as slip:
        raise Trouble(f"{folder} cannot be read: {_said(slip)}.") from None


def _bytes(path: Path) -> bytes:
    try:
        if path.is_dir():
            raise Trouble(f"{shown(path)} is a folder; a file is wanted here.")
        there = path.stat()
        if not stat.S_ISREG(there.st_mode):
            # A device or a pipe may never end, or never begin.
            raise Trouble(f"{shown(path)} is no plain file.")
        if there.st_size > LARGEST:
            raise Trouble(f"{shown(path)} holds {there.st_size:,} bytes; that is no lesson and no sheet.")
        return path.read_bytes()
    except FileNotFoundError:
        raise Trouble(f"There is no {shown(path)}.") from None
    except OSError as slip:
        raise Trouble(f"{shown(path)} cannot be read: {_said(slip)}.") from None
    except ValueError:
        raise Trouble(f"There is no {shown(path)}.") from None


def shown(path: Path | str) -> str:
    """A path as it can be printed: cut where it is far too long, signs that cannot be shown left out."""
    text = "".join(c for c in str(path) if c.isprintable())
    return text if len(text) <= _LONGEST_SHOWN else text[: _LONGEST_SHOWN - 1] + "…"


def write(path: Path, data: bytes, *, private: bool = False) -> None:
    """Write beside, then rename; the folder is made if it is not there.

    A `private` file can be read by its owner only: whatever holds somebody's measures.
    """
    in_the_way = next((p for p in reversed(path.parents) if is_there(p) and not is_folder(p)), None)
    if in_the_way is not None:
        raise Trouble(f"{shown(path)} cannot be written: {shown(in_the_way)} is a file, no folder.")
    if is_folder(path):
        raise Trouble(f"{shown(path)} cannot be written: it is a folder.")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, beside = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", suffix=".part")
        try:
            with os.fdopen(handle, "wb") as out:
                out.write(data)
                out.flush()
                os.fsync(out.fileno())
            Path(beside).chmod(0o600 if private else 0o644)
            Path(beside).replace(path)
        except BaseException:
            Path(beside).unlink(missing_ok=True)
            raise
    except OSError as slip:
        raise Trouble(f"{shown(path)} cannot be written: {_said(slip)}. Nothing there was changed.") from None
    except ValueError:
        raise Trouble(f"{shown(path)} is no name that a file can have.") from None


def _said(slip: OSError) -> str:
    return (slip.strerror or str(slip)).lower()
