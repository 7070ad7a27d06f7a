"""Figures of one part that cannot all be so."""

from __future__ import annotations

import pytest

from tests.proofing.lists import proofed_text

STICKS = 'part sticks "S"\n  mass 5 kg\n  rated 60 kg\n  legs 300..1600 mm\n  takes bowl 100 mm\n'
HEAD = 'part head "H"\n  mass 4 kg\n  height 120 mm\n  sits on bowl 100 mm\n  takes flat\n  chart 9 kg at 125 mm\n'


def contradictions(text: str) -> list[tuple[int, str]]:
    found = [each for each in proofed_text(text).findings if each.rule == "figures-contradict"]
    return [(each.where.line, each.says) for each in found]


@pytest.mark.parametrize(
    "feet",
    ["420 mm at 800 mm, 610 mm at 1500 mm", "900 mm at 300 mm, 610 mm at 1500 mm", "500 mm at 500 mm", "? at 500 mm"],
)
def test_feet_that_legs_can_reach_are_taken(feet: str) -> None:
    assert contradictions(f"{STICKS}  feet {feet}\n") == []


@pytest.mark.parametrize("feet", ["3000 mm at 700 mm, 610 mm at 1500 mm", "420 mm at 800 mm, 6100 mm at 1500 mm"])
def test_feet_wider_than_the_legs_are_long_cannot_be(feet: str) -> None:
    ((line, says),) = contradictions(f"{STICKS}  feet {feet}\n")
    assert line == 6
    assert "no further out than its leg is long" in says


@pytest.mark.parametrize(
    ("tilt", "taken"), [("-60° to 80°", True), ("0° to 80°", True), ("20° to 60°", False), ("?", True)]
)
def test_a_tilt_takes_in_level(tilt: str, taken: bool) -> None:
    assert (contradictions(f"{HEAD}  tilt {tilt}\n") == []) is taken


@pytest.mark.parametrize(
    "on", ['accessory "X", 1 kg, on "X"', 'accessory "X", 1 kg, on "Y"\n  accessory "Y", 1 kg, on "X"']
)
def test_nothing_stands_on_itself(on: str) -> None:
    found = contradictions(f'{HEAD}\nrig A\n  head "H"\n  {on}\n')
    assert found
    assert all("stands on it in turn" in says for _, says in found)


def test_two_things_on_one_are_no_ring() -> None:
    rig = 'rig A\n  head "H"\n  arm "Z", 1 kg, on head\n  accessory "X", 1 kg, on arm\n  accessory "Y", 1 kg, on arm\n'
    assert contradictions(f"{HEAD}\n{rig}") == []
