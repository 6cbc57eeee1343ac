"""`make fuzz`: two hundred thousand mutated lessons, read, planned and, where anything is left, drawn.

`python -m tests.fuzz [HOW MANY [FIRST]]`. Ends with 1 at the first lesson that is not answered, and prints
its seed; `tests.fuzz.mutate.mutated(SEED)` is its text.
"""

from __future__ import annotations

import sys
import time
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context

from tests.fuzz.batches import batch

MANY, EACH, WORKERS = 200_000, 250, 2


def main() -> int:
    """All batches, over two processes; 1 if any lesson is not answered."""
    many = int(sys.argv[1]) if len(sys.argv) > 1 else MANY
    start = int(sys.argv[2]) if len(sys.argv) > 2 else 0
    batches = [(first, min(EACH, start + many - first)) for first in range(start, start + many, EACH)]
    begun = time.monotonic()
    with ProcessPoolExecutor(WORKERS, mp_context=get_context("spawn")) as pool:
        answers = pool.map(batch, *zip(*batches, strict=True))
        for k, (slip, one) in enumerate(zip(answers, batches, strict=True)):
            done = sum(one) - start
            if slip:
                print(slip)
                pool.shutdown(cancel_futures=True)
                return 1
            if k % 40 == 39 or done == many:
                print(f"{done:,} of {many:,} lessons, {time.monotonic() - begun:.0f} s", flush=True)
    print("every lesson was answered")
    return 0


if __name__ == "__main__":
    sys.exit(main())
