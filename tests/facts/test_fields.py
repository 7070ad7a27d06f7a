"""Fields of parts as facts."""

from __future__ import annotations

import math

import pytest

from kitproof.facts.fields import amount, kind_fields, knows, part_fields
from kitproof.facts.part import PartSubject
from kitproof.facts.registry import FACTS
from kitproof.facts.subject import Subject
from kitproof.facts.values import TRUTH, Amount, Truth, Verdict, Words, number, reach, set_of, text, thing
from kitproof.words.dimensions import LENGTH, MASS, NUMBER, POWER
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


def test_a_field_is_a_fact_of_the_type_that_its_shape_promises() -> None:
    """Worked out anew, and the same that the registry holds. Lengths are lengths, counts are plain numbers."""
    facts = part_fields()
    told = {name: FACTS["part"][name] for name in facts}
    assert {name: (each.about, each.type, each.says) for name, each in facts.items()} == {
        name: (each.about, each.type, each.says) for name, each in told.items()
    }
    types = {
        "mass": number(MASS),
        "have": number(NUMBER),
        "draws": number(POWER),
        "rated": number(MASS),
        "tilt_axis": number(LENGTH),
        "travel": reach(LENGTH),
        "front": reach(LENGTH),
        "quick_release": text("self-locking", "manual lock", "safety catch"),
        "needs_support": TRUTH,
        "takes": text(),
        "sits_on": text(),
        "pan_bar": thing("part", "pan bar"),
        "own_case": thing("part", "case"),
        "chart": set_of("point"),
        "tried": set_of("point"),
        "feet": set_of("point"),
    }
    assert {name: facts[name].type for name in types} == types
    assert facts.keys().isdisjoint({"size", "goes_with", "note", "tag"})
    assert facts["mass"].about == "part"
    assert facts["mass"].says == next(word.says for word in COMMON if word.name == "mass")


def test_facts_of_fields_read_what_is_written() -> None:
    facts = part_fields()
    head = part('head "h"\n  mass 3 kg\n  chart 5 kg at 400 mm\n  pan bar "long bar"')
    points, bar = facts["chart"].compute(head), facts["pan_bar"].compute(head)
    assert isinstance(points, tuple)
    assert [each.value("mass") for each in points] == [Amount(5, 5)]
    assert isinstance(bar, Subject)
    assert bar.amount("mass") == Amount(0.4, 0.4)
    assert facts["mass"].compute(head) == Amount(3, 3)


def test_a_front_alone_is_of_another_type_for_one_kind() -> None:
    found = kind_fields()
    assert list(found) == ["part lens"]
    (front,) = found["part lens"].values()
    assert (front.name, front.about, front.type) == ("front", "part", number(LENGTH))
    assert front.says == next(word.says for word in KINDS["lens"].fields if word.name == "front")
    assert front.compute(part('lens "l"\n  front 114 mm')) == Amount(0.114, 0.114)


@pytest.mark.parametrize(
    ("kind", "name", "known"),
    [
        ("head", "chart", True),
        ("head", "mass", True),
        ("camera", "chart", False),
        ("lens", "needs_support", True),
        ("head", "needs_support", False),
        ("", "chart", True),
        ("no such kind", "chart", True),
        ("head", "no_such_field", True),
    ],
)
def test_a_kind_has_its_own_fields_and_those_of_all_parts(kind: str, name: str, known: bool) -> None:
    """What is no field at all may be another fact."""
    assert knows(kind, name) is known


@pytest.mark.parametrize(
    ("text", "name", "low", "high", "missing"),
    [
        ('battery "b"\n  energy 4.4 Ah\n  voltage ?', "energy", 0, math.inf, 'battery "b": voltage'),
        ('battery "b"\n  energy ?', "energy", 0, math.inf, 'battery "b": energy'),
        ('head "h"\n  drag ?', "drag", 0, math.inf, 'head "h": drag'),
        ('head "h"\n  tilt axis ?', "tilt_axis", -math.inf, math.inf, 'head "h": tilt axis'),
        ('head "h"', "rated", 0, math.inf, 'head "h": rated'),
        ('monitor "m"\n  draws 12 W, 20 W at most', "draws", 12, 12, None),
    ],
)
def test_a_question_mark_is_not_known_and_a_draw_is_the_usual_one(
    text: str, name: str, low: float, high: float, missing: str | None
) -> None:
    assert part(text).amount(name) == Amount(low, high, (missing,) if missing else ())


def test_a_number_that_may_be_negative_is_told_from_one_that_may_not() -> None:
    """Unless it is said otherwise, a quantity is not negative."""
    assert amount(None, ("x",)) == Amount(0, math.inf, ("x",))
    assert amount((), ("x",), positive=False) == Amount(-math.inf, math.inf, ("x",))


def test_interfaces_are_named_in_the_order_written() -> None:
    head = part('head "h"\n  takes screw 3/8-16\n  takes bowl 100 mm')
    assert head.value("takes") == Words("screw 3/8-16, bowl 100 mm")


def test_a_number_that_cannot_be_read_may_be_any() -> None:
    drag = part('head "h"\n  drag a lot').amount("drag")
    assert (drag.low, drag.high) == (0, math.inf)
    assert [each.partition(" (")[0] for each in drag.missing] == ['head "h": drag']
