"""Figures that can be read and cannot be so: said at the word, not relied on, and the rest is proofed."""

from __future__ import annotations

import pytest

from kitproof.facts.cases import cases
from kitproof.facts.packing import packed_things
from kitproof.model.kitlist import KitList
from tests.model.texts import amount, made, setting, slips

BATTERY = 'part battery "small battery"\n  mass 1 kg\n  {}\n'
RIG = 'rig A\n  camera "big camera"\n  battery "big battery"\n'


def said(kitlist: KitList) -> list[tuple[str, str]]:
    """What is said to contradict itself, and the words at its place."""
    found = []
    for each in kitlist.slips:
        if each.slip.kind == "figures-contradict":
            line = kitlist.documents[0].lines[each.where.line - 1]
            found.append((each.slip.said, line[each.where.column - 1 : each.where.to_column - 1]))
    return found


@pytest.mark.parametrize(
    ("field", "found"),
    [
        ("energy 0 Wh", ("energy 0", "0 Wh")),
        ("energy 0 Ah", ("energy 0", "0 Ah")),
        ("voltage 0 V", ("voltage 0", "0 V")),
        ("delivers 0 W", ("delivers 0", "0 W")),
    ],
)
def test_a_battery_of_nothing(field: str, found: tuple[str, str]) -> None:
    kitlist = made(BATTERY.format(field))
    assert said(kitlist) == [found]
    part = kitlist.parts["small battery"]
    value = getattr(part, field.split()[0])
    assert (value.known, value.low, value.high) == (False, 0, float("inf"))
    assert part.mass is not None
    assert part.mass.known


@pytest.mark.parametrize("field", ["energy 0.1 Wh", "energy 0 to 98 Wh", "energy ?", "energy 98 Wh", "voltage 14.4 V"])
def test_a_battery_of_something(field: str) -> None:
    assert said(made(BATTERY.format(field))) == []


@pytest.mark.parametrize(
    ("day", "wrong"), [("30 h", "day 30 h"), ("2 days", "day 48 h"), ("0 h", "day 0 h"), ("25..26 h", "day 25 h")]
)
@pytest.mark.parametrize("text", ['list "L"\n  day {}\n' + RIG, RIG + "  day {}\n"])
def test_a_day_that_is_none(text: str, day: str, wrong: str) -> None:
    kitlist = made(text.format(day))
    assert said(kitlist) == [(wrong, day)]
    (lacks,) = amount(kitlist, "day").missing
    assert lacks in ("the list: day", "rig A: day")
    assert amount(kitlist, "carried").missing == ()


@pytest.mark.parametrize("day", ["11 h", "24 h", "20..30 h", "?"])
def test_a_day_that_can_be(day: str) -> None:
    assert said(made(f'list "L"\n  day {day}\n{RIG}')) == []


def test_a_battery_is_no_fuller_than_full() -> None:
    kitlist = made('case "k"\n  holds "big battery", spare, charge 130 %\n')
    assert said(kitlist) == [("charge 130 %", "charge 130 %")]
    (held,) = packed_things(setting(kitlist))
    assert held.amount("charge").missing
    assert said(made('case "k"\n  holds "big battery", spare, charge 100 %\n')) == []


@pytest.mark.parametrize(
    "text", ['case "k"\n  inside 0 x 300 x 200 mm\n', 'part case "k"\n  inside 0 x 300 x 200 mm\n']
)
def test_a_case_has_room(text: str) -> None:
    assert said(made(text)) == [("inside 0", "0 x 300 x 200 mm")]


@pytest.mark.parametrize(
    "states",
    [
        "tilt locked, tilt free",
        "tilt free, tilt locked, tilt free",
        "slide on, slide off",
        "level, tilted down 20°",
        "tilted down 20°, tilted down 30°",
        "counterbalance 3, counterbalance off",
        "pan bar off, pan bar loose",
        "on sticks, in own case",
    ],
)
def test_neither_of_two_states_that_contradict_each_other_counts(states: str) -> None:
    kitlist = made(f'case "k"\n  holds "small head", {states}, camera on\n')
    assert slips(kitlist)
    assert {kind for kind, _ in slips(kitlist)} == {"figures-contradict"}
    (held,) = packed_things(setting(kitlist))
    assert held.packed.states == {"camera on"}


def test_what_is_said_twice_alike_counts_once_and_is_said() -> None:
    kitlist = made('case "k"\n  holds "small head", tilt locked, tilt locked\n')
    assert slips(kitlist) == [("figures-contradict", "tilt locked")]
    (held,) = packed_things(setting(kitlist))
    assert held.packed.states == {"tilt locked"}


def test_a_case_in_itself_is_said_and_weighed_once() -> None:
    kitlist = made('case "k"\n  mass 5 kg\n  holds case "k"\n  holds "big battery"\n')
    assert slips(kitlist) == [("figures-contradict", 'case "k"')]
    (case,) = cases(setting(kitlist))
    assert case.amount("case_mass").low == case.amount("case_mass").high == 6
