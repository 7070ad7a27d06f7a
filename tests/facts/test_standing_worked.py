"""Standing, worked out by hand for one rig; and what each figure that is not known leaves of it.

Sticks of 5 kg (600 mm up), a head of 3 kg on the bowl at 1000 mm, a camera of 7 kg with its weight 20 mm forward, the
feet on a circle of 500 mm, so that an edge is 250 mm from the middle. Lengths in m, masses in kg, angles in radians.
"""

from __future__ import annotations

import math

import pytest

from kitproof.facts.values import Amount
from kitproof.words.units import G
from tests.facts.amounts import known_ends
from tests.model.texts import amount, made

PARTS = """
part sticks "legs"
  mass      5 kg
  cog       600 mm up
  legs      800..1200 mm
  feet      400 mm at 800 mm, 600 mm at 1200 mm
  takes     bowl 100 mm

part head "head"
  mass      3 kg
  cog       50 mm up
  height    100 mm
  sits on   bowl 100 mm
  takes     screw 3/8-16
  tilt axis  40 mm below plate
  counterbalance  0 N·m
  drag      0 N·m

part camera "camera"
  mass      7 kg
  cog       20 mm forward, 100 mm up
  size      300 x 200 x 200 mm
  sits on   screw 3/8-16

part ballast "bag"
  mass      10 kg
"""
RIG = """
rig A
  sticks    "legs", legs at 1000 mm
  head      "head"
  camera    "camera"
"""
TILTS = "  tilts     -30° to 0°\n"
SLOPE = "  ground slope  10°\n"
BAG = '  ballast   "bag", hung at 300 mm\n'
EDGE = 0.25
MOMENT_UP = 5 * 0.6 + 3 * 1.05 + 7 * 1.2  # kg·m, the three of them above the ground
ANY_ANGLE = (-math.pi / 2, math.pi / 2)


def of(name: str, lines: str = TILTS, *swaps: tuple[str, str]) -> Amount:
    """A fact of the rig with some lines more, and with some of its text put otherwise."""
    parts, rig = PARTS, RIG + lines
    for old, new in swaps:
        assert old in parts + rig, old
        parts, rig = parts.replace(old, new), rig.replace(old, new)
    return amount(made(rig, parts=parts), name)


def near(value: float) -> object:
    return pytest.approx((value, value), rel=1e-12, abs=1e-12)


def test_level_it_tips_where_its_weight_comes_over_the_edge() -> None:
    tipping = math.atan((EDGE - 7 * 0.02 / 15) / (MOMENT_UP / 15))
    assert known_ends(of("tip_angle_level")) == near(tipping)


def test_a_bag_that_hangs_lowers_the_weight_and_one_on_the_ground_is_none() -> None:
    hung = math.atan((EDGE - 7 * 0.02 / 25) / ((MOMENT_UP + 10 * 0.3) / 25))
    assert known_ends(of("tip_angle_level", TILTS + BAG)) == near(hung)
    on_the_ground = TILTS + '  ballast   "bag", on ground\n'
    assert of("tip_angle_level", on_the_ground) == of("tip_angle_level")
    assert known_ends(of("ballast_hung", on_the_ground)) == (0.0, 0.0)
    assert known_ends(of("ballast_hung", TILTS + BAG + BAG)) == (20.0, 20.0)
    assert known_ends(of("ballast_hung", TILTS + BAG, ("mass      10 kg", "mass      9..11 kg"))) == (9.0, 11.0)


def test_tilted_the_camera_turns_about_the_axis_below_the_plate() -> None:
    """Forward by 30°: what is 20 mm forward and 140 mm above the axis comes to 20 cos 30° + 140 sin 30°."""
    forward = 0.02 * math.cos(math.pi / 6) + 0.14 * math.sin(math.pi / 6)
    up = 1.06 + 0.14 * math.cos(math.pi / 6) - 0.02 * math.sin(math.pi / 6)
    height = (5 * 0.6 + 3 * 1.05 + 7 * up) / 15
    assert known_ends(of("tip_angle_tilted"))[0] == pytest.approx(
        math.atan((EDGE - 7 * forward / 15) / height), rel=1e-9
    )
    assert known_ends(of("lean"))[1] == pytest.approx(7 * forward / 15, rel=1e-9)


def test_the_ballast_needed_is_that_which_brings_the_safety_factor_back() -> None:
    """By hand: with it hung, restoring is 1.5 times overturning about the edge down the slope."""
    lines = "  tilts     0°\n" + SLOPE.replace("10°", "9.4°") + BAG
    needed, _ = known_ends(of("ballast_needed", lines))
    slope = math.radians(9.4)
    overturning = G * (7 * 0.02 * math.cos(slope) + (MOMENT_UP + needed * 0.3) * math.sin(slope))
    assert 0 < needed < math.inf
    assert G * (15 + needed) * EDGE * math.cos(slope) == pytest.approx(1.5 * overturning, rel=1e-9)
    at_the_bowl, _ = known_ends(of("ballast_needed", lines.replace(BAG, "")))
    assert needed < at_the_bowl < math.inf
    overturning = G * (7 * 0.02 * math.cos(slope) + (MOMENT_UP + at_the_bowl * 1.0) * math.sin(slope))
    assert G * (15 + at_the_bowl) * EDGE * math.cos(slope) == pytest.approx(1.5 * overturning, rel=1e-9)
    unsaid = of("ballast_needed", lines, (", hung at 300 mm", ""))
    assert (unsaid.low, unsaid.high) == near(at_the_bowl)


def test_what_else_hangs_on_the_sticks_keeps_them_down_with_or_without_ballast() -> None:
    lines = "  tilts     0°\n" + SLOPE.replace("10°", "9.4°")
    hung = lines + '  tie-down  "weight", at 300 mm up, on sticks\n'
    weight = ("part ballast", 'part tie-down "weight"\n  mass      10 kg\n  cog       0 mm up\n\npart ballast')
    assert of("ballast_needed", hung, weight).high < of("ballast_needed", lines).low
    assert of("overturn_share", hung, weight).high < of("overturn_share", lines).low


def test_a_push_at_the_plate_counts_with_the_weight() -> None:
    lines = "  tilts     0°\n  push      30 N\n" + SLOPE
    slope = math.radians(10)
    overturning = G * (7 * 0.02 * math.cos(slope) + MOMENT_UP * math.sin(slope)) + 30 * 1.1
    assert known_ends(of("overturn_share", lines)) == near(overturning / (G * 15 * EDGE * math.cos(slope)))


def test_a_camera_that_falls_brings_its_height_about_the_axis() -> None:
    """Against what lifting everything over the edge takes; facts.md, as energy."""
    falls = G * 7 * (0.14 * (1 - math.cos(math.pi / 6)) + 0.02 * math.sin(math.pi / 6))
    distance, height = EDGE - 7 * 0.02 / 15, MOMENT_UP / 15
    takes = G * 15 * (math.hypot(distance, height) - height)
    low, high = known_ends(of("fall_share"))
    assert high >= 7 * G * 0.14 * (1 - math.cos(math.pi / 6)) / takes * (1 - 1e-9)
    assert high <= falls / takes * (1 + 1e-9)
    assert low <= min(high, 1.0)


def test_a_bag_that_hangs_holds_against_a_camera_that_falls() -> None:
    assert of("fall_share", TILTS + BAG).high < of("fall_share").low


def test_more_than_it_takes_is_doubt_and_never_certain() -> None:
    low, high = known_ends(of("fall_share", TILTS, ("400 mm at 800 mm, 600 mm at 1200 mm", "100 mm at 1000 mm")))
    assert (low, high > 1.5) == (1.0, True)


@pytest.mark.parametrize("legs", ["500 mm", "900 mm", "1100 mm", "1300 mm", "2000 mm"])
@pytest.mark.parametrize("camera", ["6 kg", "6.5 kg", "8 kg"])
@pytest.mark.parametrize("sticks", ["2 kg", "9 kg"])
@pytest.mark.parametrize(
    "feet",
    [
        "440 mm at 500 mm, 860 mm at 2000 mm",
        "600..640 mm at 500 mm, 420..460 mm at 2000 mm",
        "700..760 mm at 500 mm, 1100..1180 mm at 2000 mm",  # worst in between, at some 1300 mm
    ],
)
def test_what_is_known_about_only_is_never_better_than_a_figure_in_it(
    legs: str, camera: str, sticks: str, feet: str
) -> None:
    chart = ("400 mm at 800 mm, 600 mm at 1200 mm", feet)

    def fall(legs: str, camera: str, sticks: str) -> Amount:
        swaps = (("mass      7 kg", f"mass      {camera}"), ("mass      5 kg", f"mass      {sticks}"))
        return of("fall_share", TILTS, ("legs at 1000 mm", f"legs at {legs}"), *swaps, chart)

    one = fall(legs, camera, sticks)
    for about in (camera, "6..8 kg"):
        assert one.high <= fall("500..2000 mm", about, "2..9 kg").high * (1 + 1e-9)


def test_a_spring_that_is_asked_about_leaves_a_fall_open() -> None:
    found = of("fall_share", TILTS, ("counterbalance  0 N·m", "counterbalance  ?"))
    assert (found.low, found.high) == (0.0, math.inf)
    assert [each.rpartition(": ")[2] for each in found.missing] == ["counterbalance"]
    both = of("fall_share", "", ("counterbalance  0 N·m", "counterbalance  ?"))
    assert [each.rpartition(": ")[2] for each in both.missing] == ["counterbalance", "tilts"]


def test_a_mass_that_is_asked_about_leaves_a_fall_open() -> None:
    camera = of("fall_share", TILTS, ("mass      7 kg", "mass      ?"))
    assert (camera.low, camera.high) == (0.0, math.inf)
    sticks = of("fall_share", TILTS, ("mass      5 kg", "mass      ?"))
    assert (sticks.low, sticks.high) == (0.0, of("fall_share", TILTS, ("mass      5 kg", "mass      0 kg")).high)


def test_no_camera_stands_as_a_head_on_sticks() -> None:
    bare = amount(made(RIG.replace('  camera    "camera"\n', "") + TILTS, parts=PARTS), "tip_angle_level")
    assert (bare.low, bare.high) == near(math.atan(EDGE / ((5 * 0.6 + 3 * 1.05) / 8)))


def test_less_than_a_kilogram_leans_as_far_as_its_weight_says() -> None:
    light = of("lean", "  tilts     0°\n", ("mass      7 kg", "mass      0.5 kg"))
    assert (light.low, light.high) == near(0.5 * 0.02 / 8.5)


LENS = '  accessory "lens", at 100 mm forward\n'
HEAVIER = ("part ballast", 'part accessory "lens"\n  mass      1..5 kg\n  cog       0 mm up\n\npart ballast')


@pytest.mark.parametrize(("camera", "lens"), [("2 kg", "5 kg"), ("10 kg", "1 kg"), ("4 kg", "3 kg")])
def test_doubt_about_two_masses_holds_the_lean_of_any_two_in_it(camera: str, lens: str) -> None:
    """The camera in the middle, the lens forward of it: they lean most with the lighter camera and the heavier lens."""
    level = "  tilts     0°\n" + LENS
    middle = ("20 mm forward, 100 mm up", "100 mm up")
    about = of("lean", level, middle, ("mass      7 kg", "mass      2..10 kg"), HEAVIER)
    weight, forward = (float(each.removesuffix(" kg")) for each in (camera, lens))
    sharp = (HEAVIER[0], HEAVIER[1].replace("1..5 kg", lens))
    one = of("lean", level, middle, ("mass      7 kg", f"mass      {camera}"), sharp)
    assert known_ends(one) == near(forward * 0.1 / (8 + weight + forward))
    assert about.low <= one.low * (1 + 1e-9)
    assert one.high <= about.high * (1 + 1e-9)


def test_one_figure_of_the_feet_holds_at_every_height() -> None:
    """A point of a chart that says no height cannot be used; the feet are then not known."""
    assert known_ends(of("foot_radius")) == (0.5, 0.5)
    assert known_ends(of("feet_friction")) == near(0.5)
    reach = of("foot_radius", TILTS, ("legs at 1000 mm", "legs at 850..1100 mm"))
    assert known_ends(reach) == pytest.approx((0.425, 0.55))
    with_another = of("foot_radius", TILTS, ("400 mm at 800 mm, 600 mm at 1200 mm", "300 mm, 500 mm at 1000 mm"))
    assert known_ends(with_another) == (0.5, 0.5)


@pytest.mark.parametrize(
    ("said", "steepest"),
    [("10°", 10.0), ("up to 8°", 8.0), ("3° to 12°", 12.0)],
)
def test_the_slope_is_the_steepest_that_is_said(said: str, steepest: float) -> None:
    assert known_ends(of("slope", f"  ground slope  {said}\n")) == near(math.radians(steepest))


def test_nothing_said_of_the_ground_is_level_ground() -> None:
    assert known_ends(of("slope")) == (0.0, 0.0)


SLOPE_ASKED = "  ground slope  ?\n"
NO_LEGS = ((", legs at 1000 mm", ""), ("  legs      800..1200 mm\n", ""))
NO_FEET = (("  feet      400 mm at 800 mm, 600 mm at 1200 mm\n", ""),)
TOO_HIGH = (("legs at 1000 mm", "legs at 3000 mm"),)
OF_ALL = {
    "tip_angle_level": ANY_ANGLE,
    "tip_angle_tilted": ANY_ANGLE,
    "lean": (0.0, math.inf),
    "levelled_share": (0.0, math.inf),
    "overturn_share": (0.0, math.inf),
    "ballast_needed": (0.0, math.inf),
    "feet_friction": (0.0, math.inf),
    "fall_share": (0.0, math.inf),
}
"""What may be of each fact where nothing of the feet is known."""


@pytest.mark.parametrize("name", OF_ALL)
@pytest.mark.parametrize(
    ("swaps", "lacks"),
    [
        (NO_LEGS, 'sticks "legs": legs'),
        (((", legs at 1000 mm", ""), ("800..1200 mm\n", "?\n")), 'sticks "legs": legs'),
        (NO_FEET, 'sticks "legs": feet'),
        (((NO_FEET[0][0], "  feet      ?\n"),), 'sticks "legs": feet'),
        (TOO_HIGH, 'sticks "legs": feet, at this leg height'),
        ((('  sticks    "legs", legs at 1000 mm\n', ""),), "rig A: sticks"),
    ],
    ids=["no legs", "legs asked about", "no feet", "feet asked about", "beyond the feet's chart", "no sticks"],
)
def test_without_legs_or_feet_it_may_stand_in_any_way(
    name: str, swaps: tuple[tuple[str, str], ...], lacks: str
) -> None:
    found = of(name, TILTS, *swaps)
    assert (found.low, found.high) == OF_ALL[name]
    assert found.missing == (lacks,)


@pytest.mark.parametrize(("swaps", "lacks"), [(NO_FEET, 'sticks "legs": feet'), (NO_LEGS, 'sticks "legs": legs')])
def test_a_foot_circle_that_is_not_known_may_be_any(swaps: tuple[tuple[str, str], ...], lacks: str) -> None:
    assert of("foot_radius", TILTS, *swaps) == Amount(0.0, math.inf, (lacks,))


def test_the_height_of_the_legs_is_as_said_or_asked_for() -> None:
    assert known_ends(of("legs_at", TILTS, ("legs at 1000 mm", "legs at 900..1100 mm"))) == pytest.approx((0.9, 1.1))
    assert of("legs_at", TILTS, *NO_LEGS) == Amount(0.0, math.inf, ('sticks "legs": legs',))
    assert of("legs_at", TILTS, ("legs at 1000 mm", "legs at ?")) == Amount(0.0, math.inf, ('sticks "legs": legs',))


TILT_LACKS = "rig A: tilts"
SLOPE_LACKS = 'list "?": ground slope'


@pytest.mark.parametrize("lines", ["", "  tilts     ?\n"], ids=["not said", "asked about"])
def test_tilts_that_are_not_known_leave_the_worse_end_open(lines: str) -> None:
    """Level is one of them for certain, so that the other end is known."""
    level = "  tilts     0°\n"
    assert of("tip_angle_tilted", lines) == Amount(-math.pi / 2, of("tip_angle_tilted", level).high, (TILT_LACKS,))
    for name in ("lean", "overturn_share", "ballast_needed"):
        assert of(name, lines) == Amount(of(name, level).low, math.inf, (TILT_LACKS,)), name
    found = of("fall_share", lines)
    assert (found.low, found.high, found.missing) == (0.0, math.inf, (TILT_LACKS,))


@pytest.mark.parametrize("name", ["levelled_share", "overturn_share", "ballast_needed"])
def test_a_slope_that_is_asked_about_leaves_the_worse_end_open(name: str) -> None:
    level = "  tilts     0°\n"
    found = of(name, level + SLOPE_ASKED)
    assert (found.low, found.high) == (of(name, level).low, math.inf)
    assert len(found.missing) == 1
    assert found.missing[0].endswith("ground slope")
    slope = of("slope", SLOPE_ASKED)
    assert (slope.low, slope.high, slope.missing) == (0.0, math.pi / 2, found.missing)


@pytest.mark.parametrize("name", ["overturn_share", "ballast_needed"])
def test_a_push_that_is_asked_about_is_said(name: str) -> None:
    found = of(name, "  tilts     0°\n  push      ?\n")
    assert found.missing == ("rig A: push",)
    assert found.high == math.inf


SIDE = ["ground slope", "tilts", "push"]


@pytest.mark.parametrize(
    ("name", "names"),
    [
        ("overturn_share", SIDE),
        ("ballast_needed", SIDE),
        ("levelled_share", SIDE[:1]),
        ("lean", SIDE[1:2]),
        ("tip_angle_tilted", SIDE[1:2]),
    ],
)
def test_what_is_missing_is_named_from_the_ground_up_then_what_it_stands_in(name: str, names: list[str]) -> None:
    swaps = (
        ("mass      5 kg", "mass      ?"),
        ("mass      7 kg", "mass      ?"),
        ("cog       20 mm forward, 100 mm up", "cog       ?"),
    )
    found = of(name, "  tilts     ?\n  push      ?\n" + SLOPE_ASKED, *swaps)
    assert found.missing[0] == 'sticks "legs": mass'
    assert [each.rpartition(": ")[2] for each in found.missing] == ["mass", "mass", "cog", *names]


@pytest.mark.parametrize(
    ("axis", "missing"),
    [
        ("  tilt axis  ?\n", ('head "head": tilt axis',)),
        ("  tilt axis  ; 40 mm\n", ('head "head": tilt axis (line 15 could not be read)',)),
        ("", ()),
    ],
    ids=["asked about", "not read", "left out"],
)
def test_level_the_depth_of_the_axis_makes_no_difference(axis: str, missing: tuple[str, ...]) -> None:
    written = "  tilt axis  40 mm below plate\n"
    assert of("tip_angle_level", TILTS, (written, axis)) == of("tip_angle_level")
    tilted = of("tip_angle_tilted", TILTS, (written, axis))
    assert tilted.missing == missing
    assert tilted.low < of("tip_angle_tilted").low


def test_a_head_of_which_nothing_is_written_takes_no_stand_in_for_its_axis() -> None:
    unknown = made((RIG + TILTS).replace('"head"', '"no such head"'), parts=PARTS)
    assert any("no such head" in name for name in amount(unknown, "tip_angle_tilted").missing)
    no_head = made((RIG + TILTS).replace('  head      "head"\n', ""), parts=PARTS)
    assert any("head" in name for name in amount(no_head, "tip_angle_tilted").missing)
