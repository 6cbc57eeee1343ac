"""What each kind of clause means on the paper: the twins of `tapewright.language.sentences`.

Importing this package fills the table in `tapewright.draft.kinds`. `call it`, `Let ... be found` and
`Make` have no twin here: the plan carries the first out, and solving the other two.
"""

from tapewright.draft.sentences import (
    begin,
    curve,
    cut,
    divide,
    from_,
    hollow,
    join,
    let,
    mark,
    outline,
    parallel,
    pivot,
    see_that,
    sew,
    share,
    square,
    sweep,
    take_out,
    where_,
)

__all__ = [
    "begin",
    "curve",
    "cut",
    "divide",
    "from_",
    "hollow",
    "join",
    "let",
    "mark",
    "outline",
    "parallel",
    "pivot",
    "see_that",
    "sew",
    "share",
    "square",
    "sweep",
    "take_out",
    "where_",
]
