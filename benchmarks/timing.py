"""Plain repeated timing: the median of many runs, and the run that nineteen in twenty do not exceed.

Time on the processor and time on the clock are both kept: the first is what the work costs, the second what
somebody waits for, and where they part the machine was busy with something else.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True, slots=True)
class Timing:
    """Medians and 95th hundredths of so many runs, in ms."""

    processor: float
    processor_95: float
    clock: float
    clock_95: float
    runs: int


def timed(work: Callable[[int], object], *, seconds: float = 2.0, least: int = 7, most: int = 300) -> Timing:
    """Time `work(k)` for k = 0, 1, 2 and so on, after one run that does not count."""
    work(0)
    processor: list[float] = []
    clock: list[float] = []
    until = time.perf_counter() + seconds
    while len(clock) < least or (len(clock) < most and time.perf_counter() < until):
        at, spent = time.perf_counter(), time.process_time()
        work(len(clock) + 1)
        processor.append((time.process_time() - spent) * 1e3)
        clock.append((time.perf_counter() - at) * 1e3)
    return Timing(
        float(np.median(processor)),
        float(np.percentile(processor, 95)),
        float(np.median(clock)),
        float(np.percentile(clock, 95)),
        len(clock),
    )
