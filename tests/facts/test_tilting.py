"""Counterbalance, slide and drag: what the build asks of them, what is left, and what is missing to know it.

All that tilts: slide 0.7 kg at 10 mm, base 1 kg at 45 mm, camera 4 kg and lens 3 kg at 150 mm above the plate, the tilt
axis 40 mm below that: 1.102 + 8.7 × 0.04 = 1.45 kg·m. Fore and aft, with the slide at its mark, the camera's 4 kg at
20 mm back and the lens's 3 kg at 160 mm forward: 0.4 kg·m, and 8 kg of it moves with the slide.
"""

from __future__ import annotations

import math

import pytest

from kitproof.facts.tilting import slide_of, spring_left, weights
from kitproof.mechanics.torques import NO_SLIDE, Slide, Weight
from kitproof.model.kitlist import KitList
from kitproof.model.quantities import ANYWHERE
from tests.facts.amounts import ends_of
from tests.model.texts import PARTS, RIG, amount, made, subject

G = 9.80665
NEEDED = G * 1.45
ANY = (0.0, math.inf)
SPRING = "4 to 24 N·m, 5 steps"
"""14 N·m, the third step, is the nearest to the 14.22 N·m that are needed."""
LEFT = 14 - NEEDED
AXIS = "  tilt axis  40 mm below plate\n"
TRAVEL = "travel    80 mm back to 80 mm forward"


def built(spring: str = SPRING, *, rig: str = RIG, says: str = "tilts -30° to 30°", parts: str = PARTS) -> KitList:
    """The rig on a head with some counterbalance (and more that its part says), and what the rig says beside."""
    head = f"{AXIS}  counterbalance {spring}\n" if spring else AXIS
    return made(f"{rig}  {says}\n" if says else rig, parts=parts.replace(AXIS, head))


def set_at(place: str) -> str:
    return RIG.replace('"wide slide"', f'"wide slide", at {place}')


@pytest.mark.parametrize(
    ("spring", "share", "short", "over", "step"),
    [
        (SPRING, NEEDED / 24, 0, 0, 3),
        ("2 to 12 N·m, 6 steps", NEEDED / 12, NEEDED - 12, 0, 6),
        ("20 to 30 N·m, 6 steps", NEEDED / 30, 0, 20 - NEEDED, 1),
        ("2 to 12 kg at 160 mm, 6 steps", 7.25 / 12, 0, 0, 4),
        ("10 to 12 kg at 160 mm, 2 steps", 7.25 / 12, 0, (10 - 7.25) * G * 0.2, 1),
    ],
)
def test_what_the_build_asks_of_the_counterbalance(
    spring: str, share: float, short: float, over: float, step: float
) -> None:
    """160 mm above the plate is 0.2 m above the axis, where 7.25 kg weigh as much on it."""
    kitlist = built(spring)
    expected = {"needed": NEEDED, "share": share, "short": short, "over": over, "step": step}
    for name, value in expected.items():
        assert ends_of(kitlist, f"counterbalance_{name}") == pytest.approx((value, value)), name
        assert amount(kitlist, f"counterbalance_{name}").missing == (), name


def test_doubt_in_what_is_needed_is_doubt_in_the_step() -> None:
    """4 kg of camera 40 mm lower and higher: 1.29 and 1.61 kg·m, 12.7 and 15.8 N·m, in steps of 1 N·m from 4."""
    high_and_low = PARTS.replace("cog       20 mm back, 80 mm up", "cog 20 mm back, 40..120 mm up")
    assert ends_of(built("4 to 24 N·m, 21 steps", parts=high_and_low), "counterbalance_step") == (10, 13)


@pytest.mark.parametrize("spring", ["2 to 12 kg at 160 mm, stepless", "4 to 24 N·m"])
def test_a_counterbalance_without_steps_or_whose_steps_are_not_said_is_at_no_known_step(spring: str) -> None:
    assert ends_of(built(spring), "counterbalance_step") == ANY
    missing = amount(built(spring), "counterbalance_step").missing
    assert missing == ('head "small head": counterbalance, its steps',)
    assert amount(built(spring), "counterbalance_share").missing == ()


@pytest.mark.parametrize(
    "spring", ["", "?", "4 to 24 kg at ?, 5 steps", "4 to, 5 steps", f"{SPRING}\n  counterbalanc 30 N·m"]
)
def test_a_counterbalance_that_is_not_known_leaves_all_open_and_is_asked_for(spring: str) -> None:
    """Also where a line beside it, which looks like another, could not be read."""
    kitlist = built(spring)
    assert ends_of(kitlist, "counterbalance_share") == (-math.inf, math.inf)
    for name in ("counterbalance_short", "counterbalance_over", "counterbalance_step", "torque_left"):
        assert ends_of(kitlist, name) == ANY, name
    left, missing = spring_left(subject(kitlist))
    assert left == ANYWHERE
    for lacks in (missing, *(amount(kitlist, name).missing for name in ("counterbalance_share", "torque_left"))):
        assert len(lacks) == 1
        assert lacks[0].startswith('head "small head": counterbalance')
    assert amount(kitlist, "counterbalance_needed").missing == ()


def test_a_depth_of_the_axis_that_is_asked_about_leaves_the_torque_open() -> None:
    kitlist = built(parts=PARTS.replace("40 mm below plate", "?"), spring="")
    assert ends_of(kitlist, "counterbalance_needed") == (-math.inf, math.inf)
    assert amount(kitlist, "counterbalance_needed").missing == ('head "small head": tilt axis',)


def test_without_a_head_it_is_asked_for() -> None:
    bare = made('rig A\n  camera "big camera"\n  tilts 0° to 30°\n')
    for name in ("counterbalance_needed", "counterbalance_share", "counterbalance_short", "torque_left", "drag_hold"):
        assert amount(bare, name).missing == ("rig A: a head",), name
    assert ends_of(bare, "counterbalance_needed") == (-math.inf, math.inf)
    assert ends_of(bare, "torque_left") == ends_of(bare, "drag_hold") == ANY


ILL_KNOWN = """
part lens "l"
  cog  100 mm forward
  sits on  lens PL
part base "b"
  mass  1 kg
  cog  25 mm up
  weighed  ?
  sits on  slide wide
  takes  screw 3/8-16
part head "h"
  mass  3 kg
  height  130 mm
part slide "s"
  mass  0.7 kg
  cog  10 mm up
  height  20 mm
"""


def test_what_is_missing_is_named_in_order_masses_and_places_then_axis_spring_slide_and_tilts() -> None:
    """Of the base neither the height is known, on which all above it stands, nor how far forward its own centre is."""
    rig = RIG.replace("long lens", "l").replace("small head", "h").replace("studio base", "b")
    kitlist = made(rig.replace("wide slide", "s"), parts=PARTS + ILL_KNOWN)
    upward = ('lens "l": mass', 'base "b": height')
    axis, spring = 'head "h": tilt axis', 'head "h": counterbalance'
    assert amount(kitlist, "counterbalance_needed").missing == (*upward, axis)
    for name in ("share", "short", "over", "step"):
        assert amount(kitlist, f"counterbalance_{name}").missing == (*upward, axis, spring), name
    assert spring_left(subject(kitlist))[1] == (*upward, axis, spring)
    said = made(
        rig.replace("wide slide", "s"), parts=PARTS + ILL_KNOWN.replace("height  130 mm", "counterbalance 4 N·m")
    )
    assert amount(said, "counterbalance_step").missing == (*upward, axis, f"{spring}, its steps")
    left = (*upward, 'base "b": cog', axis, spring, 'slide "s": travel', "rig A: tilts")
    assert amount(kitlist, "torque_left").missing == left
    assert amount(kitlist, "drag_hold").missing == (*left, 'head "h": drag')


TWO = ("rig A: which of its slides is set, and where the other stands",)
PLACE, ITS_TRAVEL = ('slide "wide slide": its place on its travel',), ('slide "wide slide": travel',)


@pytest.mark.parametrize(
    ("rig", "travel", "stands", "missing"),
    [
        (RIG, TRAVEL, Slide(-0.080, 0.080, balances=True), ()),
        (set_at("30 mm forward"), TRAVEL, Slide(0.030, 0.030), ()),
        (set_at("20..40 mm forward"), "travel ?", Slide(0.020, 0.040), ()),
        (set_at("?"), TRAVEL, Slide(-0.080, 0.080), PLACE),
        (set_at("?"), "travel ?", Slide(-math.inf, math.inf), PLACE),
        (RIG, "travel ?", Slide(-math.inf, math.inf), ITS_TRAVEL),
        (RIG, 'note "no travel said"', Slide(-math.inf, math.inf), ITS_TRAVEL),
        (RIG.replace("  base ", '  slide "wide slide"\n  base '), TRAVEL, Slide(-math.inf, math.inf), TWO),
        (RIG.replace('  slide     "wide slide"\n', ""), TRAVEL, NO_SLIDE, ()),
    ],
)
def test_a_slide_stands_where_it_is_said_else_where_the_build_balances(
    rig: str, travel: str, stands: Slide, missing: tuple[str, ...]
) -> None:
    """A place asked about is not one where it balances: it may be set anywhere on its travel."""
    assert slide_of(subject(built(rig=rig, parts=PARTS.replace(TRAVEL, travel)))) == (stands, missing)


class TestWhatIsLeft:
    """T(θ) = F cos θ + V sin θ: V = 14 − 14.22 N·m of the spring; F = g × (0.4 + 8 × place of the slide) N·m."""

    def test_of_the_spring(self) -> None:
        (low, high), missing = spring_left(subject(built()))
        assert (low, high) == pytest.approx((LEFT, LEFT))
        assert missing == ()

    def test_a_slide_that_balances_leaves_the_springs_own(self) -> None:
        assert ends_of(built(), "torque_left") == pytest.approx((-LEFT * math.sin(math.pi / 6),) * 2)

    def test_a_slide_that_is_set_leaves_more(self) -> None:
        whole = math.hypot(G * 0.64, LEFT)
        assert ends_of(built(rig=set_at("30 mm forward")), "torque_left") == pytest.approx((whole, whole))

    def test_a_slide_whose_place_is_asked_about_leaves_anything_that_its_travel_allows(self) -> None:
        """Right forward, at 80 mm, 1.04 kg·m are left ahead."""
        least, most = -LEFT * math.sin(math.pi / 6), math.hypot(G * 1.04, LEFT)
        assert ends_of(built(rig=set_at("?")), "torque_left") == pytest.approx((least, most))

    @pytest.mark.parametrize("says", ["", "tilts ?"])
    def test_tilts_that_are_not_known_take_in_level_and_may_be_any(self, says: str) -> None:
        kitlist = built("20 to 30 N·m, 6 steps", rig=set_at("30 mm forward"), says=says)
        assert ends_of(kitlist, "torque_left") == pytest.approx((G * 0.64, math.hypot(G * 0.64, 20 - NEEDED)))
        assert amount(kitlist, "torque_left").missing == ("rig A: tilts",)

    def test_drag_slows_up_to_its_most(self) -> None:
        kitlist = built(SPRING + "\n  drag 0.4 to 3 N·m")
        assert ends_of(kitlist, "drag_hold") == pytest.approx((-LEFT / 2 / 3,) * 2)
        assert amount(kitlist, "drag_hold").missing == ()

    @pytest.mark.parametrize("drag", ["", "\n  drag ?"])
    def test_drag_that_is_not_known_is_asked_for(self, drag: str) -> None:
        kitlist = built(SPRING + drag)
        assert ends_of(kitlist, "drag_hold") == ANY
        assert amount(kitlist, "drag_hold").missing == ('head "small head": drag',)


def test_hung_below_the_head_what_is_carried_pulls_down_and_the_pan_bar_stays_where_it_is() -> None:
    """The bar's 0.5 kg on the side of the head, 100 mm below the plate: 60 mm below the axis."""
    bar = 'part pan bar "bar"\n  mass 0.5 kg\n  cog 0 mm up\n'
    rig = RIG + '  pan bar "bar", on head, at 30 mm up\n'
    upright, hung = built(rig=rig, parts=PARTS + bar), built(rig=rig, says="underslung", parts=PARTS + bar)
    assert ends_of(upright, "counterbalance_needed") == pytest.approx((G * (1.45 - 0.03),) * 2)
    assert ends_of(hung, "counterbalance_needed") == pytest.approx((G * (0.348 - 1.102 - 0.03),) * 2)


def test_a_line_that_cannot_be_read_may_be_one_more_weight_anywhere() -> None:
    kitlist = built(rig=RIG + "  7 8 9\n")
    *known, more = weights(subject(kitlist))
    assert known == weights(subject(built()))
    assert more == Weight((0.0, math.inf), ANYWHERE, ANYWHERE)
    assert ends_of(kitlist, "counterbalance_needed") == (-math.inf, math.inf)
