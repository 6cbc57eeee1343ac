"""What is worn beneath, compared as sets of layers."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from tapewright.measures import Layer, layers_named, same_layers, say_layers

layer_names = st.sampled_from(["shift", "stays", "petticoat", "bum roll", "shirt", "waistcoat"])


def test_a_sentence_and_a_list_say_the_same() -> None:
    """`Taken over: a shirt and a waistcoat.` agrees with the sheet's list, whatever its order."""
    said = layers_named("a shirt and a waistcoat.")
    assert said == ("shirt", "waistcoat")
    assert same_layers(said, [Layer("The Waistcoat", Fraction(4)), Layer("a shirt")])
    assert not same_layers(said, [Layer("shirt")])


def test_nothing_is_the_empty_list() -> None:
    """`nothing` is an answer, and equals a list with no layer in it."""
    assert layers_named("nothing") == ()
    assert same_layers(layers_named("Nothing."), [])
    assert same_layers(["nothing"], [])
    assert not same_layers(["nothing"], ["stays"])
    assert say_layers([]) == "nothing"


def test_articles_and_capitals_do_not_matter_but_words_do() -> None:
    """An article at the front is noise; one within a name is not, and `and` within a word is no joint."""
    assert same_layers(["an Apron"], ["the apron"])
    assert layers_named("sandals") == ("sandals",)
    assert not same_layers(["stays"], ["front lacing stays"])


@given(st.lists(layer_names, unique=True))
def test_said_aloud_and_read_again(layers: list[str]) -> None:
    """What the table says of a list of layers is read back as the same list."""
    assert layers_named(say_layers(layers)) == tuple(layers)


@given(st.lists(layer_names))
def test_order_and_repetition_do_not_matter(layers: list[str]) -> None:
    """The comparison is one of sets."""
    mixed = [*reversed(layers), *layers]
    assert same_layers(layers, mixed)
    assert same_layers(mixed, layers)
    assert not same_layers(layers, [*layers, "armour"])
