"""The most memory a process of its own takes for so many bodies: `python -m benchmarks.memory drawn|hand|none`."""

from __future__ import annotations

import resource
import subprocess
import sys

from benchmarks.subjects import bodice, turnings
from tapewright.draft import evaluate

ROWS = 6000


def most(what: str) -> float:
    """What a child process took at most, MB."""
    said = subprocess.run(
        [sys.executable, "-m", "benchmarks.memory", what], check=True, capture_output=True, text=True
    )
    return float(said.stdout)


def _main(what: str) -> None:
    subject = bodice()
    kept: list[object] = []
    if what == "drawn":
        draft = evaluate(subject.plan, subject.bodies(ROWS))
        kept += [draft, turnings(draft)]
    elif what == "hand":
        kept.append(subject.hand(subject.measures(ROWS)))
    else:
        kept.append(subject.bodies(ROWS))
    taken = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    # Counted in bytes on macOS, in kilobytes elsewhere.
    sys.stdout.write(f"{taken / (1e6 if sys.platform == 'darwin' else 1e3):.0f}\n")


if __name__ == "__main__":
    _main(sys.argv[1])
