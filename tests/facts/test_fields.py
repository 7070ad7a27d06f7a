"""Fields of parts as facts."""

from __future__ import annotations

import math

import pytest

from kitproof.facts.part import PartSubject
from kitproof.facts.registry import FACTS
from kitproof.facts.subject import Subject
from kitproof.facts.values import Amount, Truth, Verdict, Words
from kitproof.words.kinds import COMMON, KINDS
from kitproof.words.shapes import Shape
from tests.model.texts import made, setting


def part(text: str) -> PartSubject:
    kitlist = made(f"part {text}\n")
    return PartSubject(setting(kitlist), kitlist.own_parts[-1])


SILENT = {Shape.SIZE, Shape.COUNTED, Shape.TEXT, Shape.TAG, Shape.PLACE, Shape.WEIGHED, Shape.STEPS}
"""What rules reach by other facts."""


def test_every_field_that_is_a_number_a_word_or_a_truth_is_a_fact() -> None:
    words = [*COMMON, *(field for kind in KINDS.values() for field in kind.fields)]
    assert {word.name for word in words if word.shape not in SILENT} <= set(FACTS["part"])


def test_a_battery_said_in_ampere_hours_has_its_energy_by_its_voltage() -> None:
    """11.1 V × 4.4 Ah = 48.84 Wh. Source: 49 CFR 171.8, watt-hours are ampere-hours × nominal voltage."""
    found = part('battery "b"\n  energy 4.4 Ah\n  voltage 11.1 V').amount("energy")
    assert (found.low / 3600, found.high / 3600) == (pytest.approx(48.84), pytest.approx(48.84))
    wide = part('battery "b"\n  energy 4..5 Ah\n  voltage 10..12 V').amount("energy")
    assert (wide.low / 3600, wide.high / 3600) == (pytest.approx(40), pytest.approx(60))
    assert part('battery "b"\n  energy 98 Wh').amount("energy").low == pytest.approx(98 * 3600)


def test_ampere_hours_without_a_voltage_are_not_an_energy() -> None:
    found = part('battery "b"\n  energy 4.4 Ah').amount("energy")
    assert found == Amount(0, math.inf, ('battery "b": voltage',))


@pytest.mark.parametrize(
    ("text", "name", "truth"),
    [
        ('lens "l"\n  needs support', "needs_support", Truth.TRUE),
        ('lens "l"', "needs_support", Truth.FALSE),
        ('lens "l"\n  needs support, they say', "needs_support", Truth.MISSING),
        ('slide "s"\n  slides itslef', "slides_itself", Truth.MISSING),
    ],
)
def test_a_mark_is_there_or_not_or_could_not_be_read(text: str, name: str, truth: Truth) -> None:
    found = part(text).value(name)
    assert isinstance(found, Verdict)
    assert found.truth is truth


def test_numbers_words_and_what_is_not_written() -> None:
    head = part(
        'head "h"\n  rated 18 kg at 150 mm\n  drag 0.4 to 3 N·m\n  quick release manual lock, safety catch\n  have 3'
    )
    assert head.amount("rated") == Amount(18, 18)
    assert head.amount("drag") == Amount(0.4, 3)
    assert head.amount("have") == Amount(3, 3)
    assert head.value("quick_release") == Words("manual lock, safety catch")
    assert head.amount("mass") == Amount(0, math.inf, ('head "h": mass',))
    assert head.amount("tilt_axis").low == -math.inf
    assert head.value("takes") == Words(None, ('head "h": takes',))


def test_a_part_that_names_another_leads_to_it() -> None:
    bar = part('head "h"\n  pan bar "long bar"').value("pan_bar")
    assert isinstance(bar, Subject)
    assert bar.amount("mass") == Amount(0.4, 0.4)
    lost = part('head "h"\n  own case "nowhere"').value("own_case")
    assert isinstance(lost, Subject)
    assert lost.value("kind") == Words("case")
    assert lost.amount("mass").missing == ('case "nowhere": in no parts book',)
    assert part('head "h"').value("pan_bar") is None


def test_points_stand_by_rising_height() -> None:
    found = part('head "h"\n  chart 5 kg at 400 mm, 18 kg at 150 mm, 12 kg at 220 mm').value("chart")
    assert isinstance(found, tuple)
    heights = [each.value("height") for each in found]
    below = [each.value("mass_below") for each in found]
    assert heights == [Amount(0.15, 0.15), Amount(0.22, 0.22), Amount(0.4, 0.4)]
    assert below == [Amount(math.inf, math.inf), Amount(18, 18), Amount(12, 12)]


def test_a_front_is_one_diameter_for_a_lens_and_a_reach_for_what_clamps_it() -> None:
    assert FACTS["part"]["front"].type.sort == "reach"
    assert {kind: list(facts) for kind, facts in FACTS.items() if " " in kind} == {"part lens": ["front"]}
    assert FACTS["part lens"]["front"].type.sort == "number"
    lens, clamp = part('lens "l"\n  front 113..115 mm'), part('matte box "m"\n  front 95..136 mm')
    assert (lens.amount("front").low, lens.amount("front").high) == (pytest.approx(0.113), pytest.approx(0.115))
    assert (clamp.amount("front").low, clamp.amount("front").high) == (pytest.approx(0.095), pytest.approx(0.136))
