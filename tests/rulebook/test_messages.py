"""Printed numbers still show the comparison; what is not known, unbounded or not there is said so."""

from __future__ import annotations

import math
import re

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from kitproof.facts.values import Amount, Held, Truth, Verdict
from kitproof.rulebook.messages import Units, amount_text, message, number_text
from kitproof.words.dimensions import LENGTH, MASS
from kitproof.words.units import UNITS
from tests.rulebook.fakes import ENV, about, part, rig, rule, words

KG = (UNITS["kg"],)
BOTH = {MASS: ("kg", "lb")}
HEAD = part('"Fenner 12 head"', rated=about(12))


def said(text: str, fails: str = "carried > capacity", **values: Held) -> str:
    return message(rule(fails, says=f'"{text}"').says, rig(**values), ENV)


@pytest.mark.parametrize(
    ("number", "digits", "text"),
    [
        (21.6, 3, "21.6"),
        (24.0, 3, "24"),
        (24.0004, 3, "24.0"),
        (0.0, 3, "0"),
        (174.2, 3, "174"),
        (1234.4, 3, "1234"),
        (0.001234, 3, "0.00123"),
        (-30.0, 3, "-30"),
        (15.04, 4, "15.04"),
        (150.00000000000003, 3, "150"),
        (-1e-17, 3, "0"),
        (99.96, 3, "100.0"),
    ],
)
def test_three_significant_digits_at_least_and_no_zeros_for_show(number: float, digits: int, text: str) -> None:
    assert number_text(number, digits) == text


@pytest.mark.parametrize(
    ("amount", "text"),
    [
        (about(15.1), "15.1 kg"),
        (about(15.08, 15.12), "15.1 kg"),
        (about(14.9, 15.3), "14.9 to 15.3 kg"),
        (about(0, math.inf, "mass"), "an amount not known"),
        (about(-math.inf, math.inf, "mass"), "an amount not known"),
        (about(14.9, math.inf, "mass"), "at least 14.9 kg"),
        (about(-math.inf, 5), "up to 5 kg"),
        (about(0, 5, "mass"), "up to 5 kg"),
        (about(0, 5), "0 to 5 kg"),
        (about(math.inf), "beyond any figure"),
    ],
)
def test_an_interval_says_what_is_known_of_it(amount: Amount, text: str) -> None:
    assert amount_text(amount, KG) == text


@pytest.mark.parametrize(
    ("number", "unit", "text"),
    [
        (1, "days", "1 day"),
        (2, "day", "2 days"),
        (0.5, "weeks", "0.5 weeks"),
        (1, "week", "1 week"),
        (1, "times an hour", "1 time an hour"),
        (20, "times an hour", "20 times an hour"),
        (1, "kg", "1 kg"),
    ],
)
def test_units_that_are_words_go_by_how_many_there_are(number: float, unit: str, text: str) -> None:
    assert amount_text(about(UNITS[unit].to_si(number)), (UNITS[unit],)) == text


def test_what_no_amount_is_enough_for_is_said_so() -> None:
    assert amount_text(about(math.inf), KG, endless="no amount is enough") == "no amount is enough"


def test_units_are_the_lists_then_the_usual_ones() -> None:
    template = rule(says='"{carried}, {cog_up}"').says
    thing = rig(carried=about(15.1), cog_up=about(0.174), capacity=about(3))
    assert message(template, thing, ENV) == "15.1 kg, 174 mm"
    assert message(template, thing, ENV, BOTH) == "15.1 kg (33.3 lb), 174 mm"
    assert message(template, thing, ENV, {LENGTH: ("in",)}) == "15.1 kg, 6.85 in"


def test_a_hole_may_ask_for_its_unit() -> None:
    assert said("{runtime in h}", runtime=about(5400)) == "1.5 h"
    assert said("{runtime in min}", runtime=about(5400)) == "90 min"
    assert said("{cog_up in in}", cog_up=about(0.0254)) == "1 in"


def test_a_number_compared_with_a_share_prints_as_one() -> None:
    assert said("{ratio}", "ratio > 90 %", ratio=about(1.2)) == "120 %"
    assert said("{ratio}", "ratio > 0.9", ratio=about(1.2)) == "1.2"
    assert said("{load_share}", load_share=about(1.2)) == "120 %"
    assert said("{count(parts)}", "ratio > 90 % and count(parts) > 1", parts=(HEAD, HEAD)) == "2"


def test_temperatures_and_angles() -> None:
    assert said("{cold}", "cold < -5 °C", cold=about(263.15)) == "-10 °C"


def test_parts_words_and_truths() -> None:
    assert said("{head} and {note}", head=HEAD, note=words("dry")) == '"Fenner 12 head" and dry'
    assert said("{head.rated}", head=HEAD) == "12 kg"
    assert said("{mates}", mates=Verdict(Truth.TRUE)) == "yes"
    assert said("{mates}", mates=Verdict(Truth.MISSING, ("seat",))) == "not known"
    assert said("{note}", note=words(None, "note")) == "a word not known"
    assert said("{parts}", parts=(HEAD, HEAD)) == '"Fenner 12 head", "Fenner 12 head"'


def test_a_reach_prints_both_ends_or_that_it_is_not_known() -> None:
    assert said("{legs_at}", legs_at=about(0.6, 1.6)) == "600 to 1600 mm"
    assert said("{legs_at}", legs_at=about(0, math.inf, "legs")) == "a reach not known"


def test_what_is_not_there_prints_as_none() -> None:
    assert said("{head}, {head.rated}, {note}") == "none, none, none"


def test_an_expression_in_a_hole() -> None:
    assert said("{carried - capacity} over", carried=about(15), capacity=about(12)) == "3 kg over"


def test_the_limit_counts_though_it_is_not_printed() -> None:
    assert said("{load_share}", "load_share > 100 %", load_share=about(1.0004)) == "100.04 %"


def test_two_numbers_that_differ_do_not_print_alike() -> None:
    assert said("{carried} on {capacity}", carried=about(15.04), capacity=about(15.0)) == "15.04 kg on 15 kg"


@given(
    base=st.floats(0.01, 1e4),
    apart=st.one_of(st.floats(1e-6, 0.5), st.floats(1e-6, 1e-3)),
    units=st.sampled_from([{MASS: ("kg",)}, {MASS: ("lb",)}, {MASS: ("g",)}]),
)
def test_printed_numbers_show_the_comparison(base: float, apart: float, units: Units) -> None:
    """The digits law: a load that is more than the head holds prints as more."""
    thing = rig(carried=about(base * (1 + apart)), capacity=about(base))
    failing = rule(says='"{carried} on {capacity}"')
    assume(failing.applies_and_fails(thing, ENV).truth is Truth.TRUE)
    text = message(failing.says, thing, ENV, units)
    carried, capacity = (float(each) for each in re.findall(r"[\d.]+", text))
    assert carried > capacity


@given(low=st.floats(0.01, 1e4), wide=st.floats(0, 1), capacity=st.floats(0.01, 1e4))
def test_the_end_of_an_interval_that_decides_prints_on_its_side(low: float, wide: float, capacity: float) -> None:
    amount = about(low, low * (1 + wide))
    thing = rig(carried=amount, capacity=about(capacity))
    failing = rule(says='"{carried} on {capacity}"')
    assume(abs(low - capacity) > 1e-6 * capacity)
    text = message(failing.says, thing, ENV)
    ends = [float(each) for each in re.findall(r"[\d.]+", text)]
    if failing.applies_and_fails(thing, ENV).truth is Truth.TRUE:
        assert ends[0] > ends[-1]
    else:
        assert ends[0] < ends[-1]
