"""Odd inputs: whatever is typed, nothing is raised, and one slip is asked about once.

What each is asked about is our own ruling; that nothing else is asked because of it is what the lists hold to.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.queries.bundle import Bundle, run

HEAD = """# A trial
On the half. Drafted net. Taken over: a shift.

## Measures
- bust
- high bust
- waist
- nape to waist

## Tapes
- bust tape: the bust in 48 parts; the usual tape

## By eye
- ease: 2 in all round, between 0 and 4 in
- figure: usual or stout

## The frame
"""
BEGIN = "Begin at A, with the centre back on the left and the centre front on the right."


def lesson(*items: str, head: str = HEAD) -> str:
    """A lesson of some numbered items after its Begin."""
    return head + "".join(f"{i}. {item}\n" for i, item in enumerate((BEGIN, *items), 1))


def asked(text: str, folder: Path) -> list[str]:
    """The names of all queries that reading, planning and drawing a text gives."""
    said = run(Bundle("odd", "", {"lesson.md": text}, ""), folder)
    assert said.text()
    for query in said.queries:
        source = said.sources.get(query.source)
        if source is not None and query.span is not None:
            assert 0 <= query.span.start <= query.span.end <= len(source.text)
    return [query.name for query in said.queries]


#: Amounts as they may be typed behind `From A down to B:`, and the query that each gives, if any.
AMOUNTS = [
    ("0 cm", ""),
    ("0", ""),
    ("1/0 cm", "sentence-unread"),
    ("0/5 cm", ""),
    ("1000000 km", "sentence-unread"),
    ("99999999999999999999999 cm", "sentence-unread"),
    ("1e9 cm", "sentence-unread"),
    ("0.000000001 cm", ""),
    ("-3 cm", "sentence-unread"),
    ("−3 cm", "sentence-unread"),
    ("3,5 cm", "said-otherwise"),
    ("1 000 cm", "sentence-unread"),
    ("½ in", ""),
    ("3½ in", ""),
    ("3-1/2 in", ""),
    ("1 1/2 1/2 in", "sentence-unread"),
    ("three cm", ""),
    ("thirteen cm", "name-unknown"),
    ("3cm", ""),
    ("3 CM", ""),
    ("3 cms", "sentence-unread"),
    ('3"', "said-otherwise"),
    ("3”", "said-otherwise"),
    ("3′", "said-otherwise"),
    ("3’", "said-otherwise"),
    ("3 inches", ""),
    ("3 in.", ""),
    ("3 cm 5 mm", "sentence-unread"),
    ("5 ft 3 in", ""),
    ("a yard", "sentence-unread"),
    ("half", "share-of-what"),
    ("halve the waist", "name-unknown"),
    ("twice twice the waist", "said-otherwise"),
    ("1/2 the waist", ""),
    ("half of half of the waist", "sentence-unread"),
    ("100 times the waist", ""),
    ("half-way to C", "sentence-unread"),
    ("(the waist", "sentence-unread"),
    ("the waist)", "sentence-unread"),
    ("((3 cm))", ""),
    ("()", "sentence-unread"),
    ("3 cm plus", "sentence-unread"),
    ("plus 3 cm", "sentence-unread"),
    ("3 cm plus plus 2 cm", "said-otherwise"),
    ("3 cm less less 2 cm", "said-otherwise"),
    ("the waist but not more than", "sentence-unread"),
    ("3 parts of", "sentence-unread"),
    ("of the waist", "sentence-unread"),
    ("48/48 of the bust tape", ""),
    ("49/48 of the bust tape", ""),
]


@pytest.mark.parametrize(("amount", "name"), AMOUNTS)
def test_an_amount_typed_oddly(amount: str, name: str, tmp_path: Path) -> None:
    """It is read, or asked about once; the next sentence is drawn all the same."""
    text = lesson(f"From A down to B: {amount}.", "From A across to C: 3 cm.")
    assert asked(text, tmp_path) == ([name] if name else [])


#: Sentences in which letters stand that nobody has made; Q to W are never made.
UNKNOWN = [
    "From Q down to B: 3 cm.",
    "From A toward Q to B: 3 cm.",
    "From A along Q-R to B: 3 cm.",
    "From A square to Q-R toward S to B: 3 cm.",
    "From A at 10 degrees from Q-R toward S to B: 3 cm.",
    "From A into the corner Q-R-S to B: 3 cm.",
    "From A down to B on Q-R.",
    "From A down to B: Q-R.",
    "Square down from Q to B on R-S.",
    "Carry Q-R to B: 3 cm.",
    "Join Q to R.",
    "Divide Q-R in half at B.",
    "Where Q-R meets S-T, put B.",
    "Sweep about Q from R to S; call it the hem.",
    "Sweep about Q by 3 cm to B on R-S.",
    "Draw a curve from Q through R to S, leaving T square to U-V; call it the neck.",
    "Draw an arc from Q through R to S; call it the cap.",
    "Draw a quarter round from Q to R in the corner Q-S-R; call it the cap.",
    "Draw C-D parallel to Q-R, 3 cm down.",
    "Hollow Q-R by 1 cm toward S at 3 cm from T.",
    "Round the corner Q-R-S by 1 cm.",
    "Take out 1 cm at Q on R-S, from B to C, lost at T.",
    "Let out Q-R by 1 cm at S, to nothing at T, toward U.",
    "Let the back be the outline Q to R, to S, to Q.",
    "Pivot Q, R and S about T by 10 degrees toward U.",
    "Pivot Q about R until Q lies on R-T.",
    "Turn over Q and R on S-T.",
    "Draw a plumb line touching the scye at B, toward Q.",
    "Mark Q-R at S, one notch.",
    "See that Q-R is S-T.",
    "See that the corner Q-R-S is square.",
    "See that Q lies on R-S.",
    "Draw a cone from Q-R across to C-D: 3 cm at Q and 5 cm at R.",
    "Draw an arc from Q to B on R-S, square to T-U and V-W; call it the edge.",
    "If Q-R is at least 3 cm, from A down to B: 3 cm; otherwise from A down to B: 4 cm.",
    "Let the far be Q-R if taken, otherwise S-T.",
    "Cut the back twice of cloth, with Q-R on the grain, leaving 1 cm everywhere.",
    "Sew Q-R to S-T.",
    "Lay the front against the back with Q on R and S on T-U.",
    "Open the front along Q-R by 3 cm, keeping S still.",
    'Draw the shape "x" from Q on squares of 1 cm.',
    "Make Q-R equal to S-T by finding the height.",
    "From A to B: 3 cm left and 3 cm toward Q.",
    "Carry A-Q beyond R to B on S-T carried on.",
    "From A both ways along Q-R to B and C: 3 cm.",
]


@pytest.mark.parametrize("sentence", UNKNOWN)
def test_letters_that_nobody_made(sentence: str, tmp_path: Path) -> None:
    """Each is asked for once, wherever it stands first; whoever uses it again waits in silence."""
    letters = sorted({*re.findall(r"\b[Q-W]\b", sentence)})
    again = [f"See that A-{letter} is 3 cm." for letter in letters]
    found = asked(lesson(sentence, "From A up to Z: 1 cm.", *again), tmp_path)
    assert found.count("letter-unknown") == len(letters)
    assert {*found} <= {"letter-unknown", "name-unknown", "no-such-shape"}


#: Sentences typed oddly, and what is asked.
SENTENCES: list[tuple[str, list[str], list[str]]] = [
    ("half sentence then fine", ["From A down to", "From A across to C: 3 cm."], ["sentence-unread"]),
    ("wrong order", ["To B from A down: 3 cm."], ["no-leading-word"]),
    ("wrong order 2", ["Down 3 cm from A to B."], ["no-leading-word"]),
    ("wrong order 3", ["From A: 3 cm down to B."], ["sentence-unread"]),
    ("from a to b as long", ["From A to B down: 3 cm."], ["sentence-unread"]),
    ("emphasis", ["From *A* down to B: 3 cm."], ["sentence-unread"]),
    ("emphasis 2", ["From A **down** to B: 3 cm."], ["no-way"]),
    ("emphasis 3", ["From A down to B: *about* 3 cm."], []),
    ("underscore emphasis", ["From A down to B: _3 cm_."], ["sentence-unread"]),
    ("code", ["From A down to B: `3 cm`."], ["sentence-unread"]),
    ("html", ["From A down to <b>B</b>: 3 cm."], ["sentence-unread"]),
    ("link", ["From A down to [B](x): 3 cm."], ["sentence-unread"]),
    ("image", ["![x](y.png)"], ["no-leading-word", "no-leading-word"]),
    (
        "many sentences",
        ["From A down to B: 3 cm. From B down to C: 3 cm. From Q down to D: 3 cm. From C down to E: 3 cm."],
        ["letter-unknown"],
    ),
    (
        "many with one bad",
        ["From A down to B: 3 cm. Frm B down to C: 3 cm. From C down to D: 3 cm. From D down to E: 3 cm."],
        ["no-leading-word"],
    ),
    (
        "names in names",
        [
            "From A down to B: 3 cm; call it the front.",
            "From B across to C: 3 cm; call it the front edge.",
            "From C down to D: 3 cm; call it the front edge line.",
            "See that the front edge line is the front. See that the front edge is 3 cm.",
        ],
        [],
    ),
    (
        "name of a measure inside",
        [
            "From A down to B: 3 cm; call it the waist line.",
            "From A down to C: the waist. Square across from C to D: half the waist line.",
        ],
        [],
    ),
    ("name with a unit", ["Let the in seam be 3 cm. From A down to B: the in seam."], []),
    (
        "name with and",
        ["From A down to B: 3 cm; call it the neck and shoulder. See that the neck and shoulder is 3 cm."],
        [],
    ),
    ("name is a letter", ["From A down to B: 3 cm; call it the A."], ["sentence-unread"]),
    ("name a number", ["From A down to B: 3 cm; call it the 3."], ["sentence-unread"]),
    (
        "name capital",
        ["From A down to B: 3 cm; call it the Side Seam.", "See that the side seam is 3 cm."],
        [],
    ),
    ("gore 2", ["From A down to B: 3 cm; call it gore 2. See that gore 2 is 3 cm."], []),
    ("tabs", ["From\tA\tdown\tto\tB:\t3\tcm."], []),
    ("nbsp", ["From\xa0A\xa0down\xa0to\xa0B:\xa03\xa0cm."], []),
    ("thin nbsp", ["From A down to B: 3\u202fcm."], []),
    ("en dash span", ["From A down to B: 3 cm. From A along A–B to C: 1 cm."], []),
    ("em dash span", ["From A down to B: 3 cm. From A along A—B to C: 1 cm."], []),
    ("minus span", ["From A down to B: 3 cm. From A along A−B to C: 1 cm."], []),
    ("hyphen spaced", ["From A down to B: 3 cm. From A along A - B to C: 1 cm."], ["sentence-unread"]),
    ("nb hyphen", ["From A down to B: 3 cm. From A along A‑B to C: 1 cm."], []),
    ("curly shape", ["Draw the shape “cuff” from A on squares of 1 cm."], ["no-such-shape"]),
    ("single curly", ["Draw the shape ‘cuff’ from A on squares of 1 cm."], ["sentence-unread"]),
    (
        "apostrophe name",
        ["From A down to B: 3 cm; call it the boys' side.", "See that the boys’ side is 3 cm."],
        [],
    ),
    ("primes straight", ["From A down to B': 3 cm. From B' down to C: 3 cm."], []),
    ("primes true", ["From A down to B′: 3 cm. From B' down to C: 3 cm."], []),
    ("primes curly", ["From A down to B’: 3 cm. From B′ down to C: 3 cm."], []),
    ("double prime", ["From A down to B″: 3 cm. From B'' down to C: 3 cm."], []),
    ("double quote prime", ["From A down to B\": 3 cm. From B'' down to C: 3 cm."], []),
    ("three primes", ["From A down to B''': 3 cm."], ["sentence-unread"]),
    ("lower case letters", ["from a down to b: 3 cm."], ["said-otherwise"]),
    ("letter three digits", ["From A down to B123: 3 cm."], ["sentence-unread"]),
    ("no stop", ["From A down to B: 3 cm"], []),
    ("two stops", ["From A down to B: 3 cm.."], []),
    ("ellipsis", ["From A down to B: 3 cm…"], ["sentence-unread"]),
    ("question mark", ["From A down to B: 3 cm?"], ["sentence-unread"]),
    ("exclamation", ["From A down to B: 3 cm!"], ["sentence-unread"]),
    ("semicolons", ["From A down to B: 3 cm;;; down to C: 3 cm;"], []),
    ("only marks", [". ; : , ."], ["no-leading-word"]),
    ("emoji", ["From A down to B: 3 cm 🙂."], ["sentence-unread"]),
    ("combining", ["From A down to B: 3 cm; call it the ré́server.", "See that the ré́server is 3 cm."], []),
    ("rtl", ["From A down to B: ٣ cm."], ["sentence-unread"]),
    (
        "accented name",
        ["From A down to B: 3 cm; call it the derrière.", "See that the derrière is 3 cm."],
        [],
    ),
    (
        "if bad condition",
        [
            "If the waist is big, from A down to B: 3 cm; otherwise from A down to B: 4 cm.",
            "From B across to C: 3 cm.",
        ],
        ["another-sort"],
    ),
    (
        "if bad branch",
        [
            "If the waist is at least 3 cm, from A dwn to B: 3 cm; otherwise from A down to B: 4 cm.",
            "From B across to C: 3 cm.",
        ],
        ["sentence-unread"],
    ),
    (
        "if no comma",
        ["If the waist is at least 3 cm from A down to B: 3 cm.", "From B across to C: 3 cm."],
        ["sentence-unread"],
    ),
    ("degrees as length", ["From A down to B: 15 degrees."], ["length-or-angle"]),
    (
        "length as degrees",
        ["From A down to B: 3 cm. Sweep about A from B toward the centre front through 3 cm to C."],
        ["length-or-angle"],
    ),
    ("degrees sweep by", ["Sweep about A by 15 degrees."], ["length-or-angle"]),
    (
        "degrees hollow",
        ["From A down to B: 9 cm. Hollow A-B by 15 degrees toward the centre front at the middle."],
        ["length-or-angle"],
    ),
    (
        "degrees take out",
        [
            "From A down to B: 9 cm. Divide A-B in half at M. From M across to P: 3 cm. Take out 15 degrees at M on A-B, from C to D, lost at P."
        ],
        ["length-or-angle"],
    ),
    (
        "degrees pivot by length",
        ["From A down to B: 9 cm. Pivot B about A by 3 cm toward the centre front."],
        ["length-or-angle"],
    ),
    (
        "found between length and degrees",
        [
            "Let the far be found between 3 cm and 9 degrees. From A down to B: the far. Make A-B equal to 5 cm by finding the far."
        ],
        ["length-or-angle"],
    ),
    (
        "make length equal degrees",
        [
            "Let the far be found between 3 cm and 9 cm. From A down to B: the far. Make A-B equal to 5 degrees by finding the far."
        ],
        ["length-or-angle"],
    ),
    (
        "leaving degrees",
        [
            "From A down to B: 9 cm. From A across to C: 9 cm. Let the back be the outline A to B, to C, to A. Cut the back twice of cloth, leaving 5 degrees everywhere."
        ],
        ["length-or-angle"],
    ),
    (
        "mark degrees",
        ["From A down to B: 9 cm. Mark A-B at 5 degrees from A, one notch."],
        ["length-or-angle"],
    ),
    (
        "divide degrees",
        ["Divide 30 degrees: half as the one and the rest as the other. From A down to B: the one."],
        ["length-or-angle"],
    ),
    ("if degrees", ["If the waist is at least 30 degrees, from A down to B: 3 cm."], ["length-or-angle"]),
    ("square degrees", ["Square down from A to B: 30 degrees."], ["length-or-angle"]),
    ("carry degrees", ["From A down to B: 3 cm. Carry A-B to C: 30 degrees."], ["length-or-angle"]),
    (
        "parallel degrees",
        ["From A down to B: 3 cm. Draw C-D parallel to A-B, 30 degrees right."],
        ["length-or-angle"],
    ),
    (
        "round corner degrees",
        ["From A down to B: 3 cm. From B across to C: 3 cm. Round the corner A-B-C by 30 degrees."],
        ["length-or-angle"],
    ),
    (
        "let out degrees",
        ["From A down to B: 3 cm. Let out A-B by 30 degrees at B, to nothing at A, toward the centre front."],
        ["length-or-angle"],
    ),
    (
        "ruler degrees",
        ["From A down to B: 3 cm. From A across to C: 3 cm. From C to D on A-B: 10 degrees."],
        ["length-or-angle"],
    ),
    (
        "cone degrees",
        ["From A down to B: 3 cm. Draw a cone from A-B across to C-D: 9 degrees at A and 10 degrees at B."],
        ["length-or-angle", "length-or-angle"],
    ),
    (
        "open degrees",
        [
            "From A down to B: 3 cm. From A across to C: 3 cm. Let the back be the outline A to B, to C, to A. Open the back along A-B by 10 degrees, keeping C still."
        ],
        ["length-or-angle"],
    ),
    (
        "ease degrees",
        ["From A down to B: 3 cm. From A across to C: 3 cm. Sew A-B to A-C, easing A-B by 1 degrees."],
        ["length-or-angle"],
    ),
]


@pytest.mark.parametrize(("items", "names"), [s[1:] for s in SENTENCES], ids=[s[0] for s in SENTENCES])
def test_sentences_typed_oddly(items: list[str], names: list[str], tmp_path: Path) -> None:
    """Emphasis, marks, spaces and signs of every sort; half sentences; words in another order."""
    assert asked(lesson(*items), tmp_path) == names


BELOW = HEAD[HEAD.index("## The frame") :]
ABOVE = HEAD[: HEAD.index("## The frame")]
TABLE = "## Table: the sizes\n| waist (cm) | depth (cm) |\n|---|---|\n| 50 |\n\n"
SHAPE = "## Shape: cuff\n| across | down |\n|---|---|\n| 50 | 2 |\n\n"
ITEM = f"1. {BEGIN}\n2. From A down to B: 3 cm.\n"

#: Whole lessons, and what is asked.
WHOLE = [
    (
        "table after item",
        f"{HEAD}{ITEM}\n| a | b |\n|---|---|\n| 1 | 2 |\n\n3. From B across to C: 3 cm.\n",
        [],
    ),
    (
        "table in item",
        f"{HEAD}{ITEM}\n   | a | b |\n   |---|---|\n   | 1 | 2 |\n3. From B across to C: 3 cm.\n",
        [],
    ),
    ("nested numbers", f"{HEAD}{ITEM}   1. From B down to C: 3 cm.\n3. From B across to E: 3 cm.\n", []),
    ("nested bullets", f"{HEAD}{ITEM}   - a remark for the student\n3. From B across to E: 3 cm.\n", []),
    ("nested in bullets", f"{HEAD}- a\n  1. {BEGIN}\n", ["no-sentences"]),
    ("no items", HEAD, ["no-sentences"]),
    ("empty", "", ["no-title"]),
    ("title only", "# A trial\n", ["header"]),
    ("spaces only", "   \n\t\n", ["no-title"]),
    ("line ends of two signs", (HEAD + ITEM).replace("\n", "\r\n"), []),
    ("line ends of one sign", (HEAD + ITEM).replace("\n", "\r"), []),
    ("tabs in the list", f"{HEAD}1.\t{BEGIN}\n2.\tFrom A down to B: 3 cm.\n", []),
    ("byte order mark", f"\ufeff{HEAD}{ITEM}", []),
    ("numbered otherwise", f"{HEAD}7. {BEGIN}\n7. From A down to B: 3 cm.\n", []),
    ("numbered with brackets", HEAD + ITEM.replace("1.", "1)").replace("2.", "2)"), []),
    ("underlined title", HEAD.replace("# A trial", "A trial\n=======") + ITEM, []),
    ("header as a list", f"# A trial\n- On the half.\n- Drafted net.\n\n{ITEM}", ["header"]),
    ("no line before the list", f"# A trial\nOn the half. Drafted net. Taken over: a shift.\n{ITEM}", []),
    ("two titles", f"{HEAD}{ITEM}\n# Another\n\n1. Begin at K.\n", ["begin"]),
    ("making up", f"{HEAD}{ITEM}\n## Making up\n1. Sew it nicely.\n", []),
    (
        "a tape unread",
        lesson(
            "From A across to C: 1/4 of the bust tape.",
            "From A down to B: 3 parts.",
            head=HEAD.replace("in 48 parts; the usual tape", ", somehow"),
        ),
        ["bullet-unread"],
    ),
    (
        "a value by eye unread",
        lesson(
            "From A across to C: half the waist plus half the ease.",
            head=HEAD.replace("ease: 2 in all round, between 0 and 4 in", "ease: a bit"),
        ),
        ["bullet-unread"],
    ),
    (
        "a choice unread",
        lesson(
            "If the figure is stout, from A across to C: 3 cm.",
            head=HEAD.replace("usual or stout", "usual or very stout"),
        ),
        ["bullet-unread"],
    ),
    (
        "a table unread",
        lesson("From A across to C: the depth for the waist in the sizes.", head=ABOVE + TABLE + BELOW),
        ["table"],
    ),
    (
        "a shape unread",
        lesson('Draw the shape "cuff" from A on squares of 1 cm.', head=ABOVE + SHAPE + BELOW),
        ["table"],
    ),
    (
        "a cloth unread",
        lesson(
            "From A across to C: 3 cm, but not more than the linen.",
            head=ABOVE + "## Cloth\n- linen: 1 yd or so\n\n" + BELOW,
        ),
        ["bullet-unread"],
    ),
    ("a measure twice", lesson(head=HEAD.replace("- waist\n", "- waist\n- waist\n")), ["name-made-twice"]),
    (
        "a tape of nothing known",
        lesson(
            "From A across to C: 1/4 of the bust tape.", head=HEAD.replace("the bust in 48", "the hip in 48")
        ),
        ["name-unknown"],
    ),
    ("a thousand halves", lesson(f"From A down to B: {'half of ' * 1000}the waist."), ["sentence-unread"]),
    ("a name of a thousand words", lesson(f"From A down to B: 3 cm; call it {'very ' * 1000}long."), []),
    ("a thousand brackets", lesson(f"From A down to B: {'(' * 1000}3 cm{')' * 1000}."), ["sentence-unread"]),
    ("many letters", lesson(f"From A down to {', '.join(f'B{i}' for i in range(1, 60))}: 3 cm."), []),
]


@pytest.mark.parametrize(("text", "names"), [w[1:] for w in WHOLE], ids=[w[0] for w in WHOLE])
def test_whole_lessons_typed_oddly(text: str, names: list[str], tmp_path: Path) -> None:
    """Tables, lists in lists, line ends, marks and headings where nobody looks for them; lists with a slip."""
    assert asked(text, tmp_path) == names
