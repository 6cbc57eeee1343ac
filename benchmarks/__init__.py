"""How long things take, each beside a baseline of the same run: `python -m benchmarks`."""
