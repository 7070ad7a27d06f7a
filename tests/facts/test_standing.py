"""Standing of a rig as facts: what is taken for a depth of the tilt axis that no book gives."""

from __future__ import annotations

import pytest

from kitproof.facts.values import Amount
from tests.model.texts import PARTS, RIG, amount, made

FEET = "  feet      380 mm at 700 mm, 640 mm at 1600 mm\n"
WITH_FEET = PARTS.replace("  legs      700..1600 mm\n", f"  legs      700..1600 mm\n{FEET}")
AXIS = "  tilt axis  40 mm below plate\n"


def tilted(axis: str, name: str = "tip_angle_tilted") -> Amount:
    return amount(made(f"{RIG}  tilts -30° to 30°\n", parts=WITH_FEET.replace(AXIS, axis)), name)


@pytest.mark.parametrize("depth", [0, 40, 120])
def test_a_depth_left_out_holds_any_that_the_house_has_for_it(depth: int) -> None:
    sharp, left_out = tilted(f"  tilt axis  {depth} mm below plate\n"), tilted("")
    assert sharp.missing == left_out.missing == ()
    assert left_out.low <= sharp.low
    assert sharp.high <= left_out.high


def test_a_depth_asked_about_takes_no_stand_in() -> None:
    found = tilted("  tilt axis  ?\n")
    assert found.missing == ('head "small head": tilt axis',)
    assert found.low < tilted("").low


def test_torque_takes_no_stand_in_either_way() -> None:
    assert 'head "small head": tilt axis' in tilted("", "torque_left").missing
