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


def read_table(path: Path) -> Source:
    """The text of a company's table, UTF-8 or UTF-16 with its mark; Trouble when there is none to be had."""
    data = _bytes(path)
    wide = data[:2] in {b"\xff\xfe", b"\xfe\xff"}
    try:
        return Source(path.name, data.decode("utf-16" if wide else "utf-8-sig"))
    except UnicodeDecodeError:
        raise Trouble(f"{path} is no plain text in UTF-8; save the table again as CSV in UTF-8.") from None


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


def write(path: Path, data: bytes, *, private: bool = False) -> None:
    """Write beside, then rename; the folder is made if it is not there.

    A `private` file can be read by its owner only: whatever holds somebody's measures.
    """
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
        raise Trouble(f"{path} cannot be written: {_said(slip)}. Nothing there was changed.") from None


def _said(slip: OSError) -> str:
    return (slip.strerror or str(slip)).lower()
