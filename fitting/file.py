"""The data file that the program reads: the models in whole numbers, so that it is small and plain to compare.

`middle` are means of logarithms and `spread` their standard deviations, in hundred-thousandths; `together`
the correlations, row by row under the diagonal, likewise. `taken in 2012` are logarithms of how much larger
that survey takes a measure on the same body. `doubt` is how many spreads a value may stand from what the
others foretell before the table asks: as few as leave the fitting half at most `FALSE_ALARMS` an entry.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import numpy as np
from tests.survey import Half, Sex

from fitting.fit import AS_IN_2012, GROUPS, Fitted, apart, fit
from fitting.people import ASIDE, of_1988

MODEL = Path(__file__).parent.parent / "src" / "tapewright" / "measures" / "model.json"
SCALE = 100_000
FALSE_ALARMS = 0.010
"""What may be asked about wrongly, an entry, on the fitting half: under the 1.2 % that is promised, because
the people who come were on neither half."""

TWENTY: dict[str, tuple[str, ...]] = {
    "women": (
        "stature", "bust", "high bust", "waist", "hip", "neck base", "nape to waist", "front neck to waist",
        "scye depth", "cross back", "shoulder", "neck to bust point", "nape to bust point",
        "bust point to bust point", "scye girth", "arm", "upper arm", "wrist", "waist to floor", "waist to hip",
    ),
    "men": (
        "stature", "bust", "waist", "hip", "neck base", "nape to waist", "front neck to waist", "scye depth",
        "cross back", "shoulder", "scye girth", "arm", "shoulder to elbow", "upper arm", "wrist",
        "waist to floor", "leg", "thigh", "knee", "calf",
    ),
}  # fmt: skip
"""A usual sheet of twenty measures: for a body, a sleeve, and a skirt or breeches."""


def _whole(values: Any) -> list[int]:
    return [int(v) for v in np.rint(np.asarray(values) * SCALE)]


def _group(fitted: Fitted) -> dict[str, Any]:
    spread = np.sqrt(np.diag(fitted.covariance))
    together = fitted.covariance / np.outer(spread, spread)
    return {
        "middle": _whole(fitted.mean),
        "spread": _whole(spread),
        "together": [_whole(together[i, :i]) for i in range(len(spread))],
    }


def misfits(fitted: Fitted, sex: Sex, group: str, half: Half) -> np.ndarray[Any, np.dtype[np.float64]]:
    """How far each entry of a usual sheet stands from what the others foretell, in spreads: (rows, 20)."""
    people = of_1988(sex, half)
    by = apart(sex, half)
    names = TWENTY[group]
    rows = np.stack([people[n] + (by[n] if n in AS_IN_2012 else 0.0) for n in names], axis=1)
    at = [fitted.names.index(n) for n in names]
    tight = np.linalg.inv(fitted.covariance[np.ix_(at, at)])
    return np.asarray((rows - fitted.mean[at]) @ tight / np.sqrt(np.diag(tight)))


def doubt(fitted: dict[str, Fitted]) -> float:
    """The least number of spreads, in hundredths, that keeps false alarms on the fitting half within bounds."""
    far = [
        np.abs(misfits(fitted[group], sex, group, Half.FITTING)).ravel()
        for group, sex in (("women", Sex.WOMEN), ("men", Sex.MEN))
    ]
    worst = max(float(np.quantile(one, 1 - FALSE_ALARMS)) for one in far)
    return float(np.ceil(worst * 100) / 100)


def written() -> str:
    """The whole file."""
    fitted = {group: fit(group) for group in GROUPS}
    names = fitted["both"].names
    data = {
        "about": "Written by python -m fitting from the fitting half of two public surveys; see docs/measures.md.",
        "names": list(names),
        "aside": list(ASIDE),
        "doubt": doubt(fitted),
        "taken in 2012": {
            group: {name: round(by * SCALE) for name, by in apart(sex, Half.FITTING).items() if by}
            for group, sex in (("women", Sex.WOMEN), ("men", Sex.MEN))
        },
        "as in 2012": list(AS_IN_2012),
        "groups": {group: _group(model) for group, model in fitted.items()},
    }
    return _plain(data) + "\n"


def _plain(data: Any, depth: int = 0) -> str:
    """JSON in which every list of numbers or words is one line, so that a change is seen where it is."""
    inner = " " * (depth + 1)
    if isinstance(data, dict):
        rows = [f"{inner}{json.dumps(key)}: {_plain(value, depth + 1)}" for key, value in data.items()]
        return "{\n" + ",\n".join(rows) + "\n" + " " * depth + "}"
    if isinstance(data, list) and data and isinstance(data[0], list):
        return "[\n" + ",\n".join(inner + _plain(row, depth + 1) for row in data) + "\n" + " " * depth + "]"
    return json.dumps(data, ensure_ascii=False)
