"""Historical units of length, each with the source of its size: what an old draft or an old stick is in.

They are read on measure sheets and wherever a caller asks for them (`read_length(..., old=True)`); the
language of lessons keeps to the units of today, and a lesson that wants an ell says what it is. A word
that named several lengths (`ell`, `aune`) is never taken for one of them: it finds all, and is asked about.
"""

from __future__ import annotations

import re
from fractions import Fraction

from tapewright.units.table import YARD, Unit, UnitKind

_POTTS = "Potts, Elementary Arithmetic, cloth measure"
_CASTILE = "the Castilian standard as works of reference give it: a pie of 278.635 mm, three to the vara"
_NICHOLSON = "Nicholson, Men and Measures (1912), chapter XVII"
_ROZIER = "Rozier, Cours d'agriculture, Aune (1780s)"
_LAW = "the French law of 19 frimaire year VIII: a metre is 3 pieds 11.296 lignes"

_LIGNE = Fraction(1_000_000, 443_296)
"""The ligne of the pied de roi in mm: the metre is 443.296 of them."""

_PIE = Fraction(278_635, 1000)
_QUARTER = YARD.mm / 4
_INCH = YARD.mm / 36


def _old(name: str, also: str, mm: Fraction, family: str, source: str) -> Unit:
    return Unit(name, tuple(also.split("; ")) if also else (), UnitKind.LENGTH, mm, family, source)


def _pied(pieds: int, pouces: int, lignes: Fraction | int) -> Fraction:
    return ((pieds * 12 + pouces) * 12 + lignes) * _LIGNE


OLD_UNITS: tuple[Unit, ...] = (
    _old("quarter", "quarters; qr; qrs; quarter of a yard; quarters of a yard", _QUARTER, "yard",
         f"{_POTTS}: a quarter of the yard, 9 in"),
    _old("English ell", "English ells; ell; ells", 5 * _QUARTER, "yard", f"{_POTTS}: five quarters"),
    _old("Flemish ell", "Flemish ells; ell; ells", 3 * _QUARTER, "yard", f"{_POTTS}: three quarters"),
    _old("French ell", "French ells; ell; ells", 6 * _QUARTER, "yard",
         f"{_POTTS}: six quarters; the English trade's French ell, not the ell of Paris"),
    _old("Paris ell", "Paris ells; ell of Paris; ells of Paris; ell; ells; aune; aunes; aune of Paris",
         _pied(3, 7, 8), "pied",
         "Garsault, L'Art de la Lingère (1771), and the edict of 1540 in Rozier: 3 pieds 7 pouces 8 lignes"),
    _old("Paris ell of 1748", "Paris ells of 1748; ell; ells; aune; aunes; aune of 1748",
         _pied(3, 7, 10 + Fraction(5, 6)), "pied",
         "as regulated in 1748 and shown by the standard of 1751: 3 pieds 7 pouces 10 5/6 lignes"),
    _old("ell of Abbeville", "ells of Abbeville; aune of Abbeville", _pied(2, 9, 0), "pied",
         f"{_ROZIER}: 2 pieds 9 pouces"),
    _old("ell of Troyes", "ells of Troyes; aune of Troyes", _pied(2, 6, 1), "pied",
         f"{_ROZIER}: 2 pieds 6 pouces 1 ligne"),
    _old("aune usuelle", "aunes usuelles", Fraction(1200), "aune usuelle",
         "the customary ell of 1812, 1.2 m (from memory)"),
    _old("pied", "pieds; pied de roi; pieds de roi", _pied(1, 0, 0), "pied", _LAW),
    _old("pouce", "pouces", _pied(0, 1, 0), "pied", f"{_LAW}; 12 to the pied"),
    _old("ligne", "lignes", _LIGNE, "pied", f"{_LAW}; 12 to the pouce"),
    _old("vara", "varas; bara; baras; vara of Burgos; varas of Burgos; Castilian vara; Castilian varas",
         3 * _PIE, "vara", _CASTILE),
    _old("pie", "pies", _PIE, "vara", _CASTILE),
    _old("palmo", "palmos; cuarta; cuartas; quarter of a vara", 3 * _PIE / 4, "vara",
         "a quarter of the vara (worked out from the standard)"),
    _old("tercia", "tercias; third of a vara", _PIE, "vara", "a third of the vara (from memory)"),
    _old("sesma", "sesmas; sixth of a vara", _PIE / 2, "vara", "a sixth of the vara (from memory)"),
    _old("ochava", "ochavas; eighth of a vara", 3 * _PIE / 8, "vara", "an eighth of the vara (from memory)"),
    _old("pulgada", "pulgadas", _PIE / 12, "vara", "a thirty-sixth of the vara, in works of reference"),
    _old("dedo", "dedos", _PIE / 16, "vara", "a forty-eighth of the vara, sixteen to the pie (from memory)"),
    _old("linea", "lineas; línea; líneas", _PIE / 144, "vara", "12 to the pulgada, in works of reference"),
    _old("vara of Aragon", "varas of Aragon", Fraction(772), "vara of Aragon",
         "the groove cut at Jaca, 772 mm"),
    _old("vara of Valencia", "varas of Valencia", 3 * _PIE * Fraction(13, 12), "vara of Valencia",
         "Rocha Burguen, Geometría y traça (1618), pattern 147: 6 1/2 varas of Castile are 6 of Valencia"),
    _old("vara of Portugal", "varas of Portugal; Portuguese vara; Portuguese varas",
         5 * Fraction(8749, 1000) * _INCH, "vara of Portugal", f"{_NICHOLSON}: five palmos of 8.749 in"),
    _old("covado", "covados; côvado; côvados", 3 * Fraction(90256, 10_000) * _INCH, "covado",
         f"{_NICHOLSON}: three spans of 9.0256 in"),
)  # fmt: skip
"""Each from a source that was read, or that says `from memory` or how it was worked out."""


def _by_word() -> dict[str, tuple[Unit, ...]]:
    found: dict[str, tuple[Unit, ...]] = {}
    for unit in OLD_UNITS:
        for word in (unit.name, *unit.synonyms):
            found[word.casefold()] = (*found.get(word.casefold(), ()), unit)
    return found


_WORDS = _by_word()
_MOST = max(len(word.split()) for word in _WORDS)
_NEXT = re.compile(r"\s*([^\W\d_]+|\d{4}(?=\W|$))[.]?")


def old_units_called(words: str) -> tuple[Unit, ...]:
    """The historical units that a word or several name; more than one where the name is ambiguous."""
    return _WORDS.get(" ".join(words.casefold().split()).removesuffix("."), ())


def old_unit_words() -> tuple[str, ...]:
    """Every word read as a historical unit."""
    return tuple(dict.fromkeys(w for unit in OLD_UNITS for w in (unit.name, *unit.synonyms)))


def scan_old_unit(text: str, at: int) -> tuple[tuple[Unit, ...], int, int] | None:
    """The units of the longest run of words at `at` that names any, and where those words start and end."""
    said: list[str] = []
    best: tuple[tuple[Unit, ...], int, int] | None = None
    start = at
    while len(said) < _MOST and (found := _NEXT.match(text, at)):
        if not said:
            start = found.start(1)
        said.append(found[1])
        at = found.end()
        if units := old_units_called(" ".join(said)):
            best = (units, start, at)
    return best
