"""Turns of phrase that beginners use for whole sentences, and the sentences of the language for them."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import pairwise

_L = r"[A-Z][0-9]{0,2}['’′]{0,2}"
_LETTERS = re.compile(rf"(?<!\w){_L}(?![\w'’′])")
_WAYS = {
    "down": "down", "up": "up", "left": "left", "right": "right", "across": "across", "below": "down",
    "under": "down", "beneath": "down", "above": "up", "over": "up", "to the left of": "left",
    "left of": "left", "to the left": "left", "to the right of": "right", "right of": "right",
    "to the right": "right",
    "downwards": "down", "upwards": "up", "downward": "down", "upward": "up",
}  # fmt: skip
_WAY = "(?P<way>" + "|".join(sorted(_WAYS, key=len, reverse=True)) + ")"
_FAR = r"(?P<far>[^:;,]+?)"
_GO = r"(?:[Gg]o|[Mm]easure|[Cc]ome|[Mm]ark|[Ss]et off|[Dd]raw(?: a (?:straight )?line)?)"
_THEN = r"(?:go |measure |come |draw |move |mark )?"
_PUT = r"(?:[Mm]ark|[Pp]ut|[Pp]lace|[Mm]ake|[Ss]et)"
_BOX = r"Draw (?:a|the) (?:rectangle|square|box|oblong|frame)"
_ROUND = r"(?:round|around|about|at|on|from|centred on|with cent(?:re|er)(?: at)?)"
_NAMED = r"[a-z][\w' ]*?"
_TASTE = r",? (?:to taste|as you like|by eye|at will)"
_P, _N = rf"(?P<p>{_L})", rf"(?P<n>{_L})"
_COUNTS = {
    "a": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8,
    "nine": 9, "ten": 10, "eleven": 11, "twelve": 12,
}  # fmt: skip
_PARTS = {"half": 2, "halves": 2, "thirds": 3, "quarters": 4, "fifths": 5, "sixths": 6, "eighths": 8}
_MANY = "|".join((*_COUNTS, *_PARTS))
_COUNT = r"(?P<count>\d+|" + "|".join(_COUNTS) + r")"
_FIGURE = r"\d+(?:\.\d+|[ -]\d+/\d+|/\d+)?"
_CLOTH = r"(?:\s+(?:of|from|out of|in)\s+(?:the\s+)?(?P<cloth>[a-z]\w*(?:\s+(?!of\b)\w+)*?))?"
_TAIL = r"(?P<tail>,.*)?"


@dataclass(frozen=True, slots=True)
class Known:
    """What stands before a clause: the text above it, the names and the letters made there."""

    above: str
    names: tuple[str, ...]
    points: tuple[str, ...]

    def free(self, count: int, but: tuple[str, ...] = ()) -> list[str]:
        """Letters that nobody has made yet; I and O are left out, as on the table they look like figures."""
        used = {*self.points, *but}
        found = [one for one in "ABCDEFGHJKLMNPQRSTUVWXYZ" if one not in used]
        found += [f"{one}{k}" for k in range(2, 9) for one in "ABCDEFGH" if f"{one}{k}" not in used]
        return found[:count]

    def pieces(self) -> list[str]:
        """The outlines made above, the last first."""
        found = re.findall(r"\bLet\s+the\s+([a-z][a-z0-9' ]*?)\s+be\s+the\s+outline\b", self.above)
        return [" ".join(name.split()) for name in reversed(found)]

    def edges_at(self, letter: str) -> list[str]:
        """The edges of the last outline that meet at a letter, as they are said there."""
        outlines = re.findall(rf"be\s+the\s+outline\s+({_L}(?:,?\s+to\s[^.;]*)?)", self.above)
        if not outlines:
            return []
        first, *runs = re.split(r",?\s+to\s+(?=[A-Z])", outlines[-1].strip())
        here, found = first.split()[0], []
        for run in runs:
            to, _, by = run.partition(" by ")
            to = to.strip(" ,")
            if letter in {here, to}:
                found.append(by.strip(" ,") or f"{here}-{to}")
            here = to
        return found


@dataclass(frozen=True, slots=True)
class Said:
    """What the table says of a turn of phrase, and the sentences it offers instead, without their stop.

    The example is shown where none of these can be offered.
    """

    message: str
    example: str
    say: tuple[str, ...] = ()
    tip: str = ""


Turn = Callable[[re.Match[str], Known], Said | None]
_TURNS: list[tuple[re.Pattern[str], Turn]] = []


def phrases(text: str, known: Known) -> Iterator[Said]:
    """What the table says of a clause in words that it knows for those of beginners."""
    for pattern, turn in _TURNS:
        found = pattern.fullmatch(text.rstrip(" ."))
        said = None if found is None else turn(found, known)
        if said is not None:
            yield said


def _turn(*patterns: str) -> Callable[[Turn], Turn]:
    def enter(turn: Turn) -> Turn:
        for pattern in patterns:
            # Leading words may begin with either case; letters of the draft are capitals.
            first = f"[{pattern[0]}{pattern[0].lower()}]{pattern[1:]}" if pattern[0].isalpha() else pattern
            _TURNS.append((re.compile(first.replace(" ?", r"\s*").replace(" ", r"\s+"), re.DOTALL), turn))
        return turn

    return enter


def _number(word: str) -> int:
    return int(word) if word.isdigit() else _COUNTS.get(word) or _PARTS[word]


@_turn(
    rf"From {_P},? {_THEN}(?:by )?{_FAR} {_WAY},? (?:to|is|put|mark) {_N}",
    rf"From {_P},? {_THEN}{_WAY},? (?:by )?{_FAR},? (?:to|is|put|mark) {_N}",
    rf"From {_P},? (?:go|measure|come|draw|move|mark) {_WAY},? to {_N}[,:]? {_FAR}",
    rf"Square {_WAY} from {_P},? (?:by )?{_FAR},? to {_N}",
    rf"Square {_WAY},? (?:by )?{_FAR},? from {_P} to {_N}",
    rf"Square {_FAR} {_WAY} from {_P} to {_N}",
    rf"{_GO} {_FAR} {_WAY} from {_P},? to {_N}",
    rf"{_GO} {_WAY} (?:by )?{_FAR} from {_P},? to {_N}",
    rf"Draw a (?:straight )?line {_WAY} from {_P},? to {_N}[,:]? {_FAR}",
    rf"Draw a (?:straight )?line from {_P},? {_WAY},? (?:by )?{_FAR},? to {_N}",
    rf"Draw a (?:straight )?line from {_P},? {_WAY},? to {_N}[,:]? {_FAR}",
    rf"{_PUT} (?:a )?(?:new )?(?:point |letter )?{_N},?(?: at)? {_FAR} {_WAY}(?: of| from)? {_P}",
    rf"(?:[Pp]oint |[Ll]etter )?{_N}:? (?:is |lies )?{_FAR} {_WAY}(?: of| from)? {_P}",
)
def _so_far(found: re.Match[str], known: Known) -> Said:
    start, new, far = found["p"], found["n"], found["far"].strip(" ,:")
    way = _WAYS[" ".join(found["way"].lower().split())]
    return Said(
        "A new letter is made in this order: from where, which way, to which letter, how far.",
        "Such as: From A down to B: 5 cm. How far stands last, after a colon.",
        (f"From {start} {way} to {new}: {far}",),
    )


@_turn(
    rf"From {_P},? {_THEN}{_WAY}[,:]? (?:by )?{_FAR}",
    rf"From {_P},? {_THEN}(?:by )?{_FAR},? {_WAY}",
    rf"{_GO} {_FAR} {_WAY} from {_P}",
    rf"{_GO} {_WAY} (?:by )?{_FAR} from {_P}",
    rf"{_GO} {_WAY} from {_P},? {_FAR}",
)
def _without_letter(found: re.Match[str], known: Known) -> Said:
    way = _WAYS[" ".join(found["way"].lower().split())]
    new = known.free(1, (found["p"],))[0]
    return Said(
        "Every place that is measured to gets a letter.",
        "Such as: From A down to B: 5 cm.",
        (f"From {found['p']} {way} to {new}: {found['far'].strip(' ,:')}",),
    )


@_turn(
    rf"(?P<before>[A-Za-z].*?: ?)(?:about |from |between )?(?P<low>{_FIGURE})(?P<unit> ?[a-z]+)??"
    rf"(?: ?[-–—] ?| to | or | and )(?P<high>{_FIGURE})(?P<last> ?[a-z]+)(?:{_TASTE})?",
    rf"(?P<before>[A-Za-z].*?: ?)(?P<low>{_FIGURE})(?P<last> ?[a-z]+){_TASTE}",
)
def _range(found: re.Match[str], known: Known) -> Said:
    low, unit = found["low"], found["last"].strip()
    high = found.groupdict().get("high") or low
    between = "" if high == low else f", between {low} and {high}"
    return Said(
        "A sentence says one length; what may be chosen stands in the By eye list, with its range.",
        "",
        tuple(dict.fromkeys(f"{found['before']}{one} {unit}" for one in (low, high))),
        f"Under By eye: - depth: {low} {unit}{between}; and here: the depth.",
    )


@_turn(
    rf"{_BOX}(?:,? (?:of )?(?P<one>[^,;:]+?)(?: (?:by|x) |×)(?P<other>[^,;:]+?))?",
    rf"{_BOX}.*",
)
def _rectangle(found: re.Match[str], known: Known) -> Said:
    corner = known.points[0] if known.points else "A"
    if set(known.points) >= {"A"}:
        corner = "A"
    one, other, last = known.free(3, (corner,))
    sizes = found.groupdict()
    say: tuple[str, ...] = ()
    if sizes.get("one") and known.points:
        wide, deep = sizes["one"].strip(), sizes["other"].strip()
        wide = wide if re.search(r"[a-z]", wide) else f"{wide} {deep.split()[-1]}"
        sides = f"From {corner} down to {one}: {deep}. From {corner} across to {other}: {wide}"
        say = (f"{sides}. Square across from {one} and down from {other} to {last}",)
    return Said(
        "A rectangle is drawn by its corners, so that each has its letter.",
        "First two sides from one corner, then the corner opposite: Square across from B and down from C to D.",
        say,
    )


@_turn(
    rf"(?:Draw|[Mm]ake) (?:a|the) circle(?: {_ROUND} (?P<p>{_L}))?"
    r"(?:,? (?:of|by|with)(?: a)?(?: radius)?(?: of)? (?P<far>[^,;:]+?)(?: radius)?)?",
    r"Draw (?:a|the) circle.*",
)
def _circle(found: re.Match[str], known: Known) -> Said:
    name = "circle" if "circle" not in known.names else "second circle"
    groups = found.groupdict()
    point, far = groups.get("p"), groups.get("far")
    return Said(
        "A circle is a sweep about a letter by its radius.",
        "Such as: Sweep about A by 5 cm; call it the circle.",
        (f"Sweep about {point} by {far.strip()}; call it the {name}",) if point and far else (),
    )


@_turn(
    rf"(?:Join|[Cc]onnect|[Dd]raw|[Rr]ule)(?: a| the)?(?: straight)?(?: line)? (?:between |from )?{_P}"
    rf"(?:\s*[-–—‑]\s*|,? (?:and|with|to|,) |, ?)(?P<n>{_L}(?:(?:\s*[-–—]\s*|,? (?:and|with|to) |, ?){_L})*)"
    r"(?P<tail>;.*)?",
)
def _join(found: re.Match[str], known: Known) -> Said:
    letters = [found["p"], *_LETTERS.findall(found["n"])]
    lines = [f"Join {a} to {b}" for a, b in pairwise(letters)]
    if re.search(r"\sto\s.*\sto\s", found[0]) and len(letters) % 2 == 0:
        # A to D and B to C: lines by themselves.
        lines = lines[::2]
    return Said(
        "A straight line is drawn from one letter to another.",
        "Such as: Join A to B.",
        (". ".join(lines) + (found["tail"] or ""),),
    )


@_turn(
    r"(?:Draw|[Mm]ake)(?: a| the)? (?P<sort>flat |easy |full )?(?:curved? line|curve)"
    rf"(?: between| joining| from)? {_P},? (?:to|and|-) {_N}(?P<tail>[;,].*)?",
    rf"(?:Curve|[Bb]end)(?: from)? {_P},? (?:to|and|-) {_N}(?P<tail>[;,].*)?",
    r"(?:Draw|[Mm]ake)(?: a| the| an)? (?P<sort>flat |easy |full )?(?:curved? line|curve)(?: between| joining| from)? "
    rf"{_P},? (?:to|and|-) {_N},? (?:through|by|via|passing|over) "
    rf"(?P<by>{_L}(?:(?:, | and ){_L})*)(?P<tail>[;,].*)?",
)
def _curve(found: re.Match[str], known: Known) -> Said:
    sort = (found.groupdict().get("sort") or "").strip()
    by = found.groupdict().get("by") or ""
    through = f" through {by}" if by else ""
    article = "an easy" if sort == "easy" else f"a {sort}".strip()
    return Said(
        "A curve is drawn from one letter to another, through those that lie between.",
        "Such as: Draw a curve from A through B to C; call it the hem.",
        (f"Draw {article} curve from {found['p']}{through} to {found['n']}{found['tail'] or ''}",),
    )


@_turn(
    rf"(?:Divide|[Ss]plit|[Cc]ut) (?P<line>{_L}-{_L}|(?:the )?[a-z][\w ]*?) (?:in|into|by) "
    rf"(?P<count>\d+|{_MANY})(?: (?:equal )?parts| equally)?"
    rf"(?P<rest>(?:[,;:]| and| at| in| by| call| them| these|it| the| points?| letters?|\s*{_L})*)",
)
def _divide(found: re.Match[str], known: Known) -> Said | None:
    count = _number(found["count"])
    if not 2 <= count <= 12:
        return None
    letters = _LETTERS.findall(found["rest"])
    if not letters:
        letters = known.free(count - 1)
    if len(letters) != count - 1:
        return None
    at = letters[0] if len(letters) == 1 else f"{', '.join(letters[:-1])} and {letters[-1]}"
    into = f"in half at {at}" if count == 2 else f"into {count} at {at}"
    return Said(
        "A line is divided into so many parts at so many new letters.",
        "Such as: Divide A-B into 3 at C and D.",
        (f"Divide {found['line']} {into}",),
    )


@_turn(
    rf"Let the (?P<name>[a-z][\w' ]*?) be (?:(?:the |an |a )?outline )?(?:of |from |through |by )?"
    rf"(?P<ring>{_L}(?:(?:\s*[-–—]\s*|,? (?:and )?|,? to ){_L}){{2,}})",
)
def _outline(found: re.Match[str], known: Known) -> Said:
    letters = _LETTERS.findall(found["ring"])
    if letters[-1] != letters[0]:
        letters.append(letters[0])
    ring = ", ".join([f"{letters[0]} to {letters[1]}", *(f"to {one}" for one in letters[2:])])
    return Said(
        "An outline goes from letter to letter and comes back to the first.",
        "An edge that was drawn as a curve is named: to C by the hem.",
        (f"Let the {found['name']} be the outline {ring}",),
    )


@_turn(
    rf"Cut(?: out)? {_COUNT}(?:(?: of)?(?: the)? (?P<piece>[a-z][\w' ]*?)| of)?{_CLOTH}{_TAIL}",
    rf"Cut(?: out)? (?:the )?(?P<piece>[a-z][\w' ]*?),? (?:x ?|× ?)?{_COUNT}(?: times| pieces)?{_CLOTH}{_TAIL}",
    rf"Cut(?: out)? (?:the )?(?P<piece>{_NAMED}),? (?P<count>once|twice)"
    rf"(?: (?:in|from|out of) (?:the )?(?P<cloth>[a-z][\w ]*?))?{_TAIL}",
)
def _cut(found: re.Match[str], known: Known) -> Said:
    count = {"once": 1, "twice": 2}.get(found["count"]) or _number(found["count"])
    times = {1: "once", 2: "twice"}.get(count, f"{count} times")
    pieces = known.pieces()
    said = " ".join((found["piece"] or "").split())
    named = [p for p in pieces if said and said in {p, f"{p}s", f"{p}es"}]
    stuff = said if said in known.names and said not in pieces else "cloth"
    cloth = " ".join((found["cloth"] or stuff).split())
    tail = found["tail"] or ""
    return Said(
        "A piece is cut by the name of its outline, so many times, of some cloth.",
        "Such as: Cut the back twice of cloth, leaving 1.5 cm everywhere. Its outline is made first: "
        "Let the back be the outline A to B, to C, to A.",
        tuple(f"Cut the {p} {times} of {cloth}{tail}" for p in (named or pieces)[:4]),
    )


@_turn(
    r"Mark (?:(?:a|one|two|2|1) )?(?:(?:notch|notches|balance marks?|nicks?|marks?) )?(?:(?:at|on) )?"
    rf"{_P}(?:, (?:one|two) notch(?:es)?)?",
    rf"(?:Notch|[Nn]ick)(?: at)? {_P}",
    rf"(?:Notch|[Nn]ick) (?P<edge>[^,;:]+?) at {_P}",
    rf"Mark (?:(?:a|one|two|2|1) )?(?:notch|notches|balance marks?|nicks?) (?:on|in|at) (?P<edge>[^,;:]+?) at {_P}",
    rf"Mark (?P<edge>[^,;:]+? )at {_P}(?: with (?:a|one|two|2) notch(?:es)?)?",
)
def _mark(found: re.Match[str], known: Known) -> Said | None:
    groups = found.groupdict()
    two = re.search(r"\b(?:two|2|notches)\b", found[0]) is not None
    notches = "two notches" if two else "one notch"
    edge = (groups.get("edge") or "").strip()
    if edge in {"a notch", "notch", "one notch", "two notches", "notches"}:
        return None
    edges = [edge] if edge else known.edges_at(found["p"])
    return Said(
        "A balance mark stands on an edge, at a letter of it, and has one notch or two.",
        "Such as: Mark the hem at B, one notch.",
        tuple(f"Mark {one} at {found['p']}, {notches}" for one in edges[:4]),
    )


@_turn(r"Cut(?: out)? (?:the )?(?P<piece>[a-z][\w' ]*?)(?P<tail>, .*)?")
def _cut_of_what(found: re.Match[str], known: Known) -> Said | None:
    piece = " ".join(found["piece"].split())
    if piece not in known.pieces():
        return None
    return Said(
        f"How many times is the {piece} cut, and of what?",
        "",
        tuple(f"Cut the {piece} {times} of cloth{found['tail'] or ''}" for times in ("once", "twice")),
    )
