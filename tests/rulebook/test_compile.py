"""Compiled expressions at their edges: whose day it is, what a house wrote, and what no fact may give."""

from __future__ import annotations

from datetime import date

import pytest

from kitproof.facts.values import Amount, Held, Several, Tagged, Truth, Verdict, Words
from kitproof.rulebook.check import checked
from kitproof.rulebook.compile import Env, amount, condition, value, words
from kitproof.rulebook.scope import Scope
from kitproof.words.dimensions import MASS, NUMBER
from tests.rulebook.fakes import ENV, VOCABULARY, Fake, about, part, rig
from tests.rulebook.fakes import words as said

SCOPE = Scope("rig", VOCABULARY)
INF = float("inf")
F, T, U, M = Truth.FALSE, Truth.TRUE, Truth.UNDECIDED, Truth.MISSING


def value_of(text: str, thing: Fake) -> Held:
    typed, problems = checked(text, SCOPE)
    assert typed is not None, problems
    return value(typed)(thing, ENV)


def number_of(text: str, thing: Fake) -> Amount | None:
    typed, problems = checked(text, SCOPE, "number")
    assert typed is not None, problems
    return amount(typed)(thing, ENV)


def text_of(text: str, thing: Fake) -> Words | None:
    typed, problems = checked(text, SCOPE, "text")
    assert typed is not None, problems
    return words(typed)(thing, ENV)


def truth_of(text: str, thing: Fake) -> Verdict:
    typed, problems = checked(text, SCOPE, "truth")
    assert typed is not None, problems
    return condition(typed)(thing, ENV)


TODAY, THEN = date(2027, 3, 8), date(2027, 9, 1)


def test_it_is_the_day_of_the_thing_that_a_name_stands_for_where_that_has_one() -> None:
    env = Env(TODAY)
    assert env.having("m", Fake(day=THEN)) == Env(THEN, {"m": Fake(day=THEN)})
    assert env.having("m", Fake()) == Env(TODAY, {"m": Fake()})
    named = Env(TODAY, {"p": Fake()})
    assert named.on_day_of(Fake(day=THEN)) == Env(THEN, {"p": Fake()})
    assert named.on_day_of(Fake()) == named


def test_a_house_has_its_word_back_as_it_was_written() -> None:
    number, text, none = Tagged(5.0, 5.0, (), NUMBER), said("red"), None
    for written in (number, text, none):
        assert value_of("head.tag.insured", rig(head=Fake(values={"tag.insured": written}))) == written


def test_a_truth_that_is_read_or_worked_out_has_a_value() -> None:
    assert value_of("mates", rig(mates=Verdict(U))) == Verdict(U)
    assert value_of("mates", rig()) is None
    assert value_of("not mates", rig(mates=Verdict(T))) == Verdict(F)
    assert value_of("carried > 3 kg", rig(carried=about(5))) == Verdict(T)


def test_things_sets_words_and_numbers_have_their_values() -> None:
    thing = rig(head=part("a head"), parts=(part("a lens"),), carried=about(1, 2), note=said("short"))
    assert value_of("head", thing) == part("a head")
    assert value_of("parts", thing) == (part("a lens"),)
    assert value_of("carried", thing) == about(1, 2)
    assert value_of("note", thing) == said("short")
    assert value_of("carried", rig(carried=said("heavy"))) == about(-INF, INF, "rig A: carried as a number")


def test_nothing_is_asked_of_what_is_no_thing() -> None:
    assert number_of("head.rated", rig(head=Verdict(M, ("a head",)))) is None


@pytest.mark.parametrize(
    ("text", "thing", "wanted"),
    [
        ("carried", rig(carried=said("heavy")), "number"),
        ("carried", rig(carried=Tagged(5.0, 5.0, ("weigh it",), NUMBER)), "number"),
    ],
)
def test_a_house_s_word_where_a_number_was_meant_is_not_known(text: str, thing: Fake, wanted: str) -> None:
    missing = ("weigh it",) if isinstance(thing.values["carried"], Tagged) else ("rig A: carried as a number",)
    assert number_of(text, thing) == Amount(-INF, INF, missing)


def test_a_house_s_number_of_the_dimension_that_is_meant_is_that_number() -> None:
    assert number_of("carried", rig(carried=Tagged(5.0, 5.0, (), MASS))) == Tagged(5.0, 5.0, (), MASS)


@pytest.mark.parametrize(
    ("written", "word"),
    [
        (Tagged(4711.0, 4711.0, (), NUMBER), Words("4711")),
        (Tagged(1.0, 2.0, (), NUMBER), Words(None, ("rig A: note as a word",))),
        (Tagged(5.0, 5.0, (), MASS), Words(None, ("rig A: note as a word",))),
        (Tagged(0.0, INF, ("its number",), NUMBER), Words(None, ("its number",))),
        (Words("red"), Words("red")),
        (None, None),
    ],
)
def test_a_serial_number_is_a_word_and_any_other_number_is_not(written: Held, word: Words | None) -> None:
    assert text_of("note", rig(note=written)) == word


def test_a_number_for_a_word_is_named_by_all_its_steps() -> None:
    thing = rig(head=part("a head", kind=about(1)))
    assert text_of("head.kind", thing) == Words(None, ("rig A: head.kind as a word",))


def test_a_fact_that_gives_the_wrong_sort_of_value_is_named() -> None:
    wrong = rig(
        carried=Verdict(T), head=part("a head", rated=Verdict(T), kind=Verdict(T), upright=about(1)), note=Verdict(T)
    )
    with pytest.raises(TypeError, match=r"^the fact head\.rated gave Verdict for a number$"):
        number_of("head.rated", wrong)
    with pytest.raises(TypeError, match=r"^the fact head\.kind gave Verdict for a word$"):
        text_of("head.kind", wrong)
    with pytest.raises(TypeError, match=r"^the fact head\.upright gave Amount for a truth$"):
        truth_of("head.upright", wrong)


def test_a_sum_of_what_is_not_there_is_not_there() -> None:
    assert number_of("sum(c.mass for c in head.chart)", rig()) is None
    assert number_of("sum(c.mass for c in head.chart)", rig(head=part("a head"))) is None


@pytest.mark.parametrize("sign", ["+", "-", "*", "/"])
def test_what_a_number_waits_for_is_named_from_left_to_right(sign: str) -> None:
    thing = rig(carried=about(1, 2, "a mass"), capacity=about(3, 4, "a chart"))
    found = number_of(f"carried {sign} capacity", thing)
    assert found is not None
    assert found.missing == ("a mass", "a chart")


def test_a_sum_names_what_is_missing_in_the_order_met() -> None:
    doubted = part("one", mass=about(0, 2, "its mass"), upright=Verdict(M, ("how it stands",)))
    certain = part("other", mass=about(1, 2, "another mass"), upright=Verdict(T))
    found = number_of("sum(p.mass for p in parts where p.upright)", rig(parts=(doubted, certain)))
    assert found == about(1, 4, "its mass", "how it stands", "another mass")


def test_of_words_compared_only_those_that_are_not_known_are_missing() -> None:
    both = rig(note=said("single", "left from before"), chart_kind=said(None, "the chart"))
    assert truth_of("note = chart_kind", both) == Verdict(M, ("the chart",))


def test_a_reach_of_what_is_not_there_holds_nothing() -> None:
    assert truth_of("cog_up within camera.legs", rig(camera=part("a camera", legs=about(0, 1)))) == Verdict(F)
    assert truth_of("cog_up within camera.legs", rig(cog_up=about(0.5))) == Verdict(F)


@pytest.mark.parametrize(
    ("note", "known", "there"),
    [
        (said("short"), T, T),
        (said(None, "the note"), F, T),
        (said(None), F, F),
        (None, F, F),
    ],
)
def test_a_word_is_there_and_known_or_not(note: Words | None, known: Truth, there: Truth) -> None:
    thing = rig(note=note)
    assert truth_of("note is known", thing).truth is known
    assert truth_of("not (note is known)", thing).truth is (T if known is F and there is T else F)
    assert truth_of("note is there", thing).truth is there
    assert truth_of("not (note is there)", thing).truth is (F if there is T else T)


def test_a_variable_itself_can_be_there() -> None:
    assert truth_of("any p in parts where p is there", rig(parts=(part("a lens"),))).truth is T


def test_a_set_that_may_hold_more_leaves_a_sum_without_bound() -> None:
    thing = rig(parts=Several((part("a lens", mass=about(1)),), ("line 4",)))
    assert number_of("sum(p.mass for p in parts)", thing) == about(-INF, INF, "line 4")
