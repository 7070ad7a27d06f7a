"""What the two implementations differed in once, each kept as a list whose answer can be worked out by hand."""

from __future__ import annotations

import math

import pytest

from kitproof.facts.rig import RigSubject
from kitproof.facts.stages import stages
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


STANDING = """
part sticks "T"
  mass 5 kg
  cog 500 mm up
  legs 1000..1000 mm
  feet 600 mm at 1000 mm
part head "T head"
  mass 4 kg
  cog 50 mm up
  height 100 mm
  tilt axis 0 mm below plate
  counterbalance 10 to 20 N·m, 2 steps
part slide "T slide"
  mass 1 kg
  cog 0 mm up
  height 10 mm
  travel 100 mm back to 100 mm forward
part pan bar "P"
  mass 1 kg
  cog 0 mm up
"""
LEGS_H = '  sticks "S"\n  head "H"\n'
LEGS = '  sticks "T"\n  head "T head"\n'


def test_a_pan_bar_that_tilts_does_not_rest_as_well() -> None:
    """2 kg over the middle and the bar 1 kg 300 mm back, of 12 kg in all: 25 mm out, once."""
    bar = '  pan bar "P", at 300 mm back, on head\n'
    rig = _rig(f'{STANDING}rig A\n{LEGS}{bar}  camera "C"\n  tilts 0° to 0°\n')
    assert _ends(rig, "lean") == pytest.approx((0.025, 0.025))


def test_a_pan_bar_to_one_side_leans_to_it() -> None:
    """1 kg at 300 mm left, of 12 kg."""
    bar = '  pan bar "P", at 300 mm left, on head\n'
    rig = _rig(f'{STANDING}rig A\n{LEGS}{bar}  camera "C"\n  tilts 0° to 0°\n')
    assert _ends(rig, "lean") == pytest.approx((0.025, 0.025))


def test_ballast_on_the_ground_holds_nothing_down() -> None:
    """Without it, 1 kg 600 mm out of 12 kg in all leans 50 mm."""
    far = '  camera "C"\n  monitor "M", at 600 mm forward\n  tilts 0° to 0°\n'
    with_bag = _rig(f'{STANDING}rig A\n{LEGS}{far}  ballast "B", on ground\n')
    without = _rig(f"{STANDING}rig A\n{LEGS}{far}")
    assert _ends(with_bag, "lean") == _ends(without, "lean") == pytest.approx((0.05, 0.05))


def test_a_spreader_counts_where_its_centre_is_written() -> None:
    spreader = 'part spreader "X"\n  mass 2 kg\n  cog 200 mm up\n'
    lines = '  sticks "T"\n  spreader "X"\n  head "T head"\n  camera "C"\n'
    rig = _rig(f"{STANDING}{spreader}rig A\n{lines}")
    height = (5 * 0.5 + 2 * 0.2 + 4 * 1.05 + 2 * 1.1) / 13
    assert _ends(rig, "standing_cog_up") == pytest.approx((height, height))


def test_a_pan_bar_at_no_said_place_is_within_the_outline_of_the_head() -> None:
    """1 kg anywhere from 1.0 to 1.1 m, besides 11 kg whose moment is 5 × 0.5 + 4 × 1.05 + 2 × 1.1."""
    rig = _rig(f'{STANDING}rig A\n{LEGS}  pan bar "P"\n  camera "C"\n')
    low, high = ((5 * 0.5 + 4 * 1.05 + 2 * 1.1 + at) / 12 for at in (1.0, 1.1))
    assert _ends(rig, "standing_cog_up") == pytest.approx((low, high))


def test_the_wind_meets_a_part_at_the_middle_of_its_outline() -> None:
    """A side of 0.4 × 0.2 m, its middle 100 mm above the plate or, hung, below it; 11 kg on an edge at 300 mm."""
    box = 'part camera "K"\n  mass 2 kg\n  cog 0 mm up\n  size 400 x 100 x 200 mm\n'
    for hangs, height in (("", 1.2), ("  underslung\n", 1.0)):
        rig = _rig(f'{STANDING}{box}rig A\n{LEGS}  camera "K"\n  wind 10 m/s\n  tilts 0° to 0°\n{hangs}')
        moment = 1.28 * 1.225 / 2 * 100 * 0.08 * height
        share = moment / (11 * 9.80665 * 0.3)
        assert _ends(rig, "overturn_share") == pytest.approx((share, share))


def test_a_side_in_doubt_gives_an_area_in_doubt() -> None:
    box = 'part camera "K"\n  mass 2 kg\n  cog 0 mm up\n  size 200..400 mm x 100 mm x 200 mm\n'
    rig = _rig(f'{STANDING}{box}rig A\n{LEGS}  camera "K"\n  wind 10 m/s\n  tilts 0° to 0°\n')
    low, high = (1.28 * 1.225 / 2 * 100 * area * 1.2 / (11 * 9.80665 * 0.3) for area in (0.04, 0.08))
    assert _ends(rig, "overturn_share") == pytest.approx((low, high))


def test_all_sail_areas_that_are_said_meet_the_wind() -> None:
    box = 'part {} "{}"\n  mass 1 kg\n  cog 0 mm up\n  size 100 x 100 x 200 mm\n  sail area 0.1 m²\n'
    parts = box.format("camera", "K") + box.format("monitor", "L")
    lines = '  camera "K"\n  monitor "L", at 0 mm up\n  wind 10 m/s\n  tilts 0° to 0°\n'
    rig = _rig(f"{STANDING}{parts}rig A\n{LEGS}{lines}")
    share = 1.28 * 1.225 / 2 * 100 * 0.2 * 1.2 / (11 * 9.80665 * 0.3)
    assert _ends(rig, "overturn_share") == pytest.approx((share, share))


def test_tilts_that_are_not_known_may_be_none() -> None:
    """Level leaves nothing where the slide balances it. Above the axis stand 2 kg at 10 mm and 1 kg at 1500 mm: of what
    they want the nearest step takes 10 N·m, and the rest is left when tilted."""
    lines = '  slide "T slide"\n  camera "C"\n  monitor "M", at 1490 mm up\n'
    rig = _rig(f"{STANDING}rig A\n{LEGS}{lines}")
    needed = 9.80665 * (2 * 0.01 + 1.5)
    assert _ends(rig, "torque_left") == pytest.approx((0.0, needed - 10))


def test_what_is_new_at_a_stage_is_what_was_put_on() -> None:
    """The bar 1 kg 300 mm back is there from the start: the slide stands 150 mm forward, held to 100. What is left over
    then is of the bar and the camera, −0.1 kg·m, and of the monitor put on, 1 kg at 100 + 100 mm."""
    lines = '  slide "T slide"\n  camera "C"\n  monitor "M", at 100 mm forward\n'
    rig = _rig(f'{STANDING}rig A\n{LEGS}  pan bar "P", at 300 mm back, on head\n{lines}')
    left = [stage.value("left_over") for stage in stages(rig)]
    assert [(each.low, each.high) for each in left if isinstance(each, Amount)] == [
        (0.0, 0.0),
        pytest.approx((9.80665 * 0.1, 9.80665 * 0.1)),
    ]


LENS = """
part camera "D"
  mass 2 kg
  cog 0 mm up
  takes lens PL at 40..80 mm forward
  takes rods 15/60 at 10..30 mm forward
  takes shoe at 0 mm up
part lens "L"
  mass 2 kg
  cog 100 mm forward
  sits on lens PL
part rods "Q"
  mass 0 kg
  cog 0 mm up
  length 300 mm
  diameter 15 mm
  wall 1 mm
  made of aluminium
  sits on rods 15/60
part arm "E"
  mass 1 kg
  cog 0 mm up
part lens support "F"
  mass 0.5 kg
  cog 0 mm up
"""


def test_what_is_on_what_hangs_on_the_lens_hangs_on_it_too() -> None:
    """2 kg at 100 mm, the arm 1 kg at 50 mm, and on it the monitor 1 kg at 50 + 150 mm. Where the mount itself is in
    doubt makes no difference."""
    lines = '  camera "D"\n  lens "L"\n  arm "E", at 50 mm forward, on lens\n  monitor "M", at 150 mm forward, on arm\n'
    rig = _rig(f"{LENS}rig A\n{LEGS_H}{lines}")
    torque = 9.80665 * (2 * 0.1 + 0.05 + 0.2)
    assert _ends(rig, "lens_torque") == pytest.approx((torque, torque))


def test_what_sits_on_the_rods_does_so_whatever_is_in_doubt_of_the_rods_place() -> None:
    """0.5 kg of the support itself at 200 mm of 300: no lens, and it bends them all the same."""
    lines = '  camera "D"\n  rods "Q"\n  lens support "F", at 200 mm forward, on rods\n'
    rig = _rig(f"{LENS}rig A\n{LEGS_H}{lines}")
    second_moment = math.pi / 64 * (0.015**4 - 0.013**4)
    sag = 0.25 * 9.80665 * 0.2**2 * (0.9 - 0.2) / (6 * 70e9 * second_moment)
    assert _ends(rig, "rod_sag") == pytest.approx((sag, sag))


def test_a_camera_may_fall_worst_with_the_legs_between_their_ends() -> None:
    """As the legs go up, the feet go out and the centre rises: what it takes to tip it is least on the way, here with
    the legs at about 900 mm."""
    legs = "  legs 600..1800 mm\n  feet 600 mm at 600 mm, 852 mm at 1800 mm\n"
    wide = STANDING.replace("  legs 1000..1000 mm\n  feet 600 mm at 1000 mm\n", legs)

    def share(height: str) -> float:
        lines = f'  sticks "T", legs at {height}\n  head "T head"\n  camera "C"\n  monitor "M", at 1400 mm up\n'
        return _ends(_rig(f"{wide}rig A\n{lines}  tilts -60° to 0°\n"), "fall_share")[1]

    assert share("900 mm") > max(share("600 mm"), share("1800 mm"))
    assert share("900 mm") <= share("600..1800 mm") < 1.001 * share("900 mm")


def test_where_nothing_holds_it_up_a_fall_has_a_share_of_no_end_but_none_below_nothing() -> None:
    """The centre of gravity is beyond the feet already: it takes nothing to tip it, so that the share has no value."""
    lines = '  sticks "T"\n  head "T head"\n  camera "C"\n  monitor "M", at 9000 mm forward, 1400 mm up\n'
    assert _ends(_rig(f"{STANDING}rig A\n{lines}  tilts -60° to 0°\n"), "fall_share") == (0.0, math.inf)
