"""What the two implementations differed in once, each kept as a list whose answer can be worked out by hand."""

from __future__ import annotations

import pytest

from kitproof.facts.rig import RigSubject
from kitproof.facts.values import Amount
from kitproof.model.making import make_list
from kitproof.model.sources import Fetched, gather
from tests.second import ours

PARTS = """
part sticks "S"
  mass 5 kg
  cog 500 mm up
  legs 1000..1000 mm
part riser "R"
  mass 1 kg
  cog 50 mm up
  height 100 mm
  rated 10 kg
part head "H"
  mass 4 kg
  cog 50 mm up
  height 100 mm
part camera "C"
  mass 2 kg
  cog 0 mm up
part ballast "B"
  mass 10 kg
  cog 0 mm up
part monitor "M"
  mass 1 kg
  cog 0 mm up
"""


def _rig(text: str) -> RigSubject:
    def nothing(using: str, wanted: str) -> Fetched:
        return Fetched(wanted, wanted, problem="missing")

    kitlist = make_list(gather("l", "l", (PARTS + text).encode(), nothing))
    assert kitlist.slips == ()
    (subject,) = ours.rigs(ours.setting_of(kitlist))["A"]
    return subject


def _ends(rig: RigSubject, fact: str) -> tuple[float, float]:
    value = rig.value(fact)
    assert isinstance(value, Amount)
    return (value.low, value.high)


def test_the_third_side_of_a_lens_is_how_high_it_is() -> None:
    """Middle half of 100 mm, centred on the lens's axis: 25 mm either way."""
    lens = 'part lens "L"\n  mass 2 kg\n  size 400 x 200 x 100 mm\n'
    rig = _rig(lens + 'rig A\n  head "H"\n  camera "C"\n  lens "L", at 0 mm up\n')
    assert _ends(rig, "cog_up") == pytest.approx((-0.0125, 0.0125))
    assert _ends(rig, "cog_left") == pytest.approx((-0.025, 0.025))


def test_the_middle_half_of_a_side_in_doubt_begins_at_a_quarter_of_its_least() -> None:
    lens = 'part lens "L"\n  mass 2 kg\n  size 200..400 mm x 200 mm x 100 mm\n'
    rig = _rig(lens + 'rig A\n  head "H"\n  camera "C"\n  lens "L", at 0 mm up\n')
    assert _ends(rig, "cog_forward") == pytest.approx((0.025, 0.15))


@pytest.mark.parametrize("where", ["hung at 300 mm", "on ground"])
def test_a_riser_does_not_bear_the_ballast(where: str) -> None:
    """Head and camera, 6 kg, on a riser good for 10 kg."""
    rig = _rig(f'rig A\n  sticks "S"\n  riser "R"\n  head "H"\n  camera "C"\n  ballast "B", {where}\n')
    assert _ends(rig, "stack_share") == pytest.approx((0.6, 0.6))


@pytest.mark.parametrize(("owner", "seat"), [("head", 1.1), ("riser", 1.0), ("sticks", 0.0)])
def test_what_hangs_above_the_plate_is_counted_there(owner: str, seat: float) -> None:
    """5 kg at 0.5 m, 1 kg at 1.05 m, 4 kg at 1.15 m, 2 kg at 1.2 m, and 1 kg at 1.5 m above what it is on."""
    rig = _rig(
        f'rig A\n  sticks "S"\n  riser "R"\n  head "H"\n  camera "C"\n  monitor "M", at 1500 mm up, on {owner}\n'
    )
    height = (5 * 0.5 + 1.05 + 4 * 1.15 + 2 * 1.2 + seat + 1.5) / 13
    low, high = _ends(rig, "standing_cog_up")
    assert low <= height + 1e-12
    assert high >= height - 1e-12
    assert (low, high) == pytest.approx((height, height))


def test_an_axis_that_may_be_above_the_last_point_leaves_all_that_was_published() -> None:
    """One figure at 50 mm, an axis 40 to 60 mm above the plate: above 50 mm it says nothing about torque."""
    head = 'part head "K"\n  mass 4 kg\n  height 100 mm\n  chart 20 kg at 50 mm\n  tilt axis 40..60 mm above plate\n'
    rig = _rig(head + 'rig A\n  sticks "S"\n  head "K"\n  camera "C", at 0 mm up\n  monitor "M", at 300 mm up\n')
    assert _ends(rig, "capacity") == pytest.approx((0.0, 20.0))
