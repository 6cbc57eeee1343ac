"""One file a kind of sentence: its leading words, its template, its slots.

Importing this package fills the table in `tapewright.language.clause`. The order of import is the order
in which kinds that share a leading word are tried.
"""

from tapewright.language.sentences.arc import Arc, ArcSquare, QuarterRound
from tapewright.language.sentences.begin import Begin
from tapewright.language.sentences.begin_from import BeginFrom
from tapewright.language.sentences.call_it import CallIt
from tapewright.language.sentences.carry import Carry
from tapewright.language.sentences.cone import Cone
from tapewright.language.sentences.curve import Curve
from tapewright.language.sentences.cut import Cut
from tapewright.language.sentences.divide import Divide
from tapewright.language.sentences.from_ import From
from tapewright.language.sentences.hollow import Hollow
from tapewright.language.sentences.join import Join
from tapewright.language.sentences.lay import Lay
from tapewright.language.sentences.let_out import LetOut

from tapewright.language.sentences.outline import Outline  # isort: skip - before the other kinds of Let
from tapewright.language.sentences.stand_for import StandFor  # isort: skip - before the other kinds of Let
from tapewright.language.sentences.let import Let, LetFound
from tapewright.language.sentences.make import Make
from tapewright.language.sentences.mark import Mark, MarkOn
from tapewright.language.sentences.open_ import Open
from tapewright.language.sentences.parallel import Parallel
from tapewright.language.sentences.pivot import Pivot, PivotOutline
from tapewright.language.sentences.repeat import Repeat
from tapewright.language.sentences.round_corner import RoundCorner
from tapewright.language.sentences.see_that import SeeThat
from tapewright.language.sentences.sew import Sew
from tapewright.language.sentences.shape import CurveRule, Shape
from tapewright.language.sentences.share import Share
from tapewright.language.sentences.square import Square
from tapewright.language.sentences.sweep import Sweep
from tapewright.language.sentences.take_out import TakeOut
from tapewright.language.sentences.touch import Touch
from tapewright.language.sentences.trim import Trim
from tapewright.language.sentences.turn_over import TurnOver
from tapewright.language.sentences.where_ import Where

__all__ = [
    "Arc",
    "ArcSquare",
    "Begin",
    "BeginFrom",
    "CallIt",
    "Carry",
    "Cone",
    "Curve",
    "CurveRule",
    "Cut",
    "Divide",
    "From",
    "Hollow",
    "Join",
    "Lay",
    "Let",
    "LetFound",
    "LetOut",
    "Make",
    "Mark",
    "MarkOn",
    "Open",
    "Outline",
    "Parallel",
    "Pivot",
    "PivotOutline",
    "QuarterRound",
    "Repeat",
    "RoundCorner",
    "SeeThat",
    "Sew",
    "Shape",
    "Share",
    "Square",
    "StandFor",
    "Sweep",
    "TakeOut",
    "Touch",
    "Trim",
    "TurnOver",
    "Where",
]
