"""Reading and writing files: a text with its name, and bytes written beside and renamed.

A file is either as it was or whole and new, never half. What cannot be read or written is said in one line.
"""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from tapewright.diagnostics import Query, Source
from tapewright.measures import sheet_source


class Trouble(Exception):
    """A file that could not be read or written, in one line for the maker."""


LARGEST = 20_000_000


def read_text(path: Path) -> Source:
    """The text of a lesson or of amendments; Trouble when there is none to be had."""
    data = _bytes(path)
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as slip:
        raise Trouble(f"{path} is not plain text in UTF-8 (byte {slip.start + 1} is not).") from None
    return Source(path.name, text)


def read_sheet_source(path: Path) -> Source | Query:
    """The text of a measure sheet; what is wrong with its bytes is a query of the sheet's own."""
    return sheet_source(path.name, _bytes(path))


def _bytes(path: Path) -> bytes:
    try:
        if path.is_dir():
            raise Trouble(f"{path} is a folder; a file is wanted here.")
        if path.stat().st_size > LARGEST:
            raise Trouble(f"{path} holds {path.stat().st_size:,} bytes; that is no lesson and no sheet.")
        return path.read_bytes()
    except FileNotFoundError:
        raise Trouble(f"There is no {path}.") from None
    except OSError as slip:
        raise Trouble(f"{path} cannot be read: {_said(slip)}.") from None


def write(path: Path, data: bytes) -> None:
    """Write beside, then rename; the folder is made if it is not there."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, beside = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", suffix=".part")
        try:
            with os.fdopen(handle, "wb") as out:
                out.write(data)
                out.flush()
                os.fsync(out.fileno())
            Path(beside).chmod(0o644)
            Path(beside).replace(path)
        except BaseException:
            Path(beside).unlink(missing_ok=True)
            raise
    except OSError as slip:
        raise Trouble(f"{path} cannot be written: {_said(slip)}. Nothing there was changed.") from None


def _said(slip: OSError) -> str:
    return (slip.strerror or str(slip)).lower()
