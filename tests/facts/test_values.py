"""What a fact's value can be, what type it has, and what a fact is made of."""

from __future__ import annotations

from types import SimpleNamespace

from kitproof.facts.fact import Fact, fact, facts_in
from kitproof.facts.values import (
    TRUTH,
    Amount,
    Several,
    Truth,
    Verdict,
    Words,
    is_thing,
    joined,
    number,
    reach,
    set_of,
    text,
    thing,
)
from kitproof.words.dimensions import LENGTH, MASS
from tests.model.texts import RIG, made, subject


def test_a_type_is_of_one_sort_and_says_what_belongs_to_that_sort() -> None:
    made_of = [
        (number(MASS), ("number", MASS, "", "", ())),
        (reach(LENGTH), ("reach", LENGTH, "", "", ())),
        (text("loose", "off"), ("text", None, "", "", ("loose", "off"))),
        (text(), ("text", None, "", "", ())),
        (thing("part", "head"), ("thing", None, "part", "head", ())),
        (thing("part"), ("thing", None, "part", "", ())),
        (set_of("point"), ("set", None, "point", "", ())),
        (set_of("part", "lens"), ("set", None, "part", "lens", ())),
        (TRUTH, ("truth", None, "", "", ())),
    ]
    for found, wanted in made_of:
        assert (found.sort, found.dimension, found.subject, found.kind, found.words) == wanted


def test_a_rig_is_a_thing_and_nothing_numbers_words_truths_and_sets_are_not() -> None:
    rig = subject(made(RIG))
    assert is_thing(rig)
    for held in (None, Amount(1, 2), Words("loose"), Words(None), Verdict(Truth.TRUE), (), (rig,), Several([rig])):
        assert not is_thing(held)


def test_a_number_is_sharp_where_both_its_ends_are_one() -> None:
    assert Amount(2, 2).sharp
    assert not Amount(2, 3).sharp


def test_a_set_of_things_says_what_may_have_held_more() -> None:
    rig = subject(made(RIG))
    found = Several(iter([rig]), ("rig A: line 9",))
    assert (tuple(found), found.missing, Several([rig]).missing) == ((rig,), ("rig A: line 9",), ())


def test_what_is_missing_is_named_once_in_the_order_met() -> None:
    assert joined(("mass", "cog"), (), ("height", "mass")) == ("mass", "cog", "height")
    assert joined() == ()


def test_a_fact_is_made_of_what_is_said_of_it_and_of_what_works_it_out() -> None:
    def weight(of: str) -> Words:
        return Words(of)

    found = fact("weight", "part", number(MASS), "how much", "m × g", "statics", certain=True)(weight)
    assert found == Fact(
        name="weight",
        about="part",
        type=number(MASS),
        says="how much",
        compute=weight,
        formula="m × g",
        source="statics",
        certain=True,
    )
    assert not fact("weight", "part", number(MASS), "how much")(weight).certain


def test_a_module_has_the_facts_that_it_defines_in_the_order_written() -> None:
    one, other = (fact(name, "part", TRUTH, "")(lambda of: None) for name in ("one", "other"))
    module = SimpleNamespace(other=other, limit=3.0, one=one, words="x")
    assert facts_in(module) == [other, one]
