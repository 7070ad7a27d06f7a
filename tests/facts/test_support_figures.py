"""The head's figures as its part gives them: what is counted on beyond them, what is missing of them, and for which
loads that need not be told apart."""

from __future__ import annotations

import math

import pytest
from msgspec.structs import replace

from kitproof.facts import support
from kitproof.facts.boxes import Blends, boxes
from kitproof.facts.hulls import BlurredError, Watch
from kitproof.facts.rig import RigSubject
from kitproof.facts.support import holding_of
from kitproof.mechanics.holding import Figure
from kitproof.words.dimensions import LENGTH, NUMBER
from tests.facts.amounts import ends_of
from tests.facts.test_support import HEAD, STACK
from tests.model.texts import RIG, amount, builds, made, setting, subject

ANYTHING = (0.0, math.inf)
UP = 0.38 / 3
"""The height of the centre of gravity in the rig: 1.102 kg·m over 8.7 kg."""


def test_the_houses_numbers_on_what_a_head_holds() -> None:
    """0.70 up to twice the chart's top, 30 % under a rating up to 6 in and nothing above 12 in, an axis 0 to 120 mm
    below the plate: common practice, no source."""
    assert {each.name: (each.value, each.dimension) for each in support.HOUSE_NUMBERS} == {
        "beyond_chart_share": (0.70, NUMBER),
        "beyond_chart_reach": (2.0, NUMBER),
        "uncharted_share": (0.70, NUMBER),
        "uncharted_height": (pytest.approx(6 * 0.0254), LENGTH),
        "uncharted_top": (pytest.approx(12 * 0.0254), LENGTH),
        "axis_least": (0.0, LENGTH),
        "axis_most": (0.120, LENGTH),
    }


@pytest.mark.parametrize(
    ("figures", "house", "holds"),
    [
        ("rated 12 kg at 100 mm", {}, (0.70 * 12 * 0.1 / UP, 12 * (0.1 + 0.12) / (UP + 0.12))),
        ("rated 12 kg at 100 mm", {"beyond_chart_share": 0.5}, (0.5 * 12 * 0.1 / UP, 12 * 0.22 / (UP + 0.12))),
        ("rated 12 kg at 100 mm", {"beyond_chart_reach": 1.2}, (0, 12 * 0.22 / (UP + 0.12))),
        ("rated 12 kg at 100 mm", {"axis_most": 0.06}, (0.70 * 12 * 0.1 / UP, 12 * 0.16 / (UP + 0.06))),
        ("rated 12 kg at 100 mm", {"axis_least": -0.05}, (0.70 * 12 * 0.05 / (UP - 0.05), 12 * 0.22 / (UP + 0.12))),
        ("rated 12 kg", {}, (0.70 * 12, 12)),
        ("rated 12 kg", {"uncharted_share": 0.5}, (6, 12)),
        ("rated 12 kg", {"uncharted_height": 0.1}, (0.70 * 12 * 0.1 / UP, 12)),
        ("rated 12 kg", {"uncharted_top": 0.12}, (0, 12)),
    ],
)
def test_each_of_them_is_counted_on_for_what_it_says(
    figures: str, house: dict[str, float], holds: tuple[float, float]
) -> None:
    """At 127 mm, above 100 mm and below 6 in. An axis that may lie above the plate shortens the lever."""
    kitlist = made(HEAD.format(figures))
    usual = setting(kitlist)
    found = RigSubject(replace(usual, house={**usual.house, **house}), builds(kitlist)[0]).amount("capacity")
    assert (found.low, found.high) == pytest.approx(holds)


def test_every_figure_of_the_head_counts_the_rated_ones_too() -> None:
    """Of two rated figures without a height the lesser is the limit."""
    written = (
        "chart 12 kg at 100 mm, 6 kg at 300 mm\n  rated 14 kg, 10 kg at 200 mm, 11 kg\n"
        "  tried 9 kg at 250 mm\n  tilt axis 40 mm below plate"
    )
    found = holding_of(subject(made(HEAD.format(written))))
    assert list(found.points) == [((0.1, 0.1), (12, 12)), ((0.2, 0.2), (10, 10)), ((0.3, 0.3), (6, 6))]
    assert found.cap == (11.0, 11.0)
    assert found.tried == (Figure((9, 9), (0.25, 0.25)),)
    assert found.axis == (0.04, 0.04)


def test_a_trial_counts_where_nothing_is_published() -> None:
    kitlist = made(HEAD.format("tried 9 kg at 250 mm"))
    assert ends_of(kitlist, "capacity") == (9, math.inf)
    assert ends_of(kitlist, "safe_share") == pytest.approx((8.7 / 9, 8.7 / 9))


def test_what_a_head_holds_is_least_with_the_load_highest_and_how_high_it_may_be_least_with_the_most() -> None:
    """The camera's 4 kg at 130 to 170 mm; then its mass 3 to 5 kg."""
    own = RIG.replace("big camera", "c") + 'part camera "c"\n  height 160 mm\n  sits on screw 3/8-16\n'
    own += "  takes lens PL at 60 mm forward, 80 mm up\n"
    low, high = ((1.102 + 4 * step) / 8.7 for step in (-0.02, 0.02))
    high_and_low = made(own + "  mass 4 kg\n  cog 60..100 mm up\n")
    assert ends_of(high_and_low, "capacity") == pytest.approx((12 - 30 * (high - 0.1), 12 - 30 * (low - 0.1)))
    heavy_and_light = made(own + "  mass 3..5 kg\n  cog 80 mm up\n")
    assert ends_of(heavy_and_light, "height_limit") == pytest.approx((0.1 + (12 - 9.7) / 30, 0.1 + (12 - 7.7) / 30))


AXIS, CHART, RATED = 'head "h": tilt axis', 'head "h": chart', 'head "h": rated'


@pytest.mark.parametrize(
    ("figures", "missing"),
    [
        ("rated 12 kg at 100 mm", ()),
        ("rated 12 kg at 100 mm\n  tilt axis 40 mm below plate", ()),
        ("rated ?", (RATED,)),
        ("chart ?\n  rated 12 kg", (CHART,)),
        ("chart 12 kg at 100 mm, 6 kg at 300 mm\n  rated ?", (RATED,)),
        ("tilt axis 40 mm below plate", (CHART,)),
        ("chart 12 kg at 100 mm, 6 kg at ?", (CHART,)),
        ("chart 12 kg at 100 mm, ? at 300 mm", (CHART,)),
        ("chart 12 kg at 100 mm\n  rated ? at 200 mm", (RATED,)),
        ("rated 12 kg at ?", (RATED,)),
        ("rated 12 kg at 100 mm\n  tilt axis ?", (AXIS,)),
        ("rated 12 kg at ?\n  tilt axis ?", (AXIS, RATED)),
    ],
)
def test_the_figure_that_is_not_known_is_the_one_asked_for(figures: str, missing: tuple[str, ...]) -> None:
    kitlist = made(HEAD.format(figures))
    for name in ("capacity", "load_share", "height_limit"):
        assert amount(kitlist, name).missing == missing, name


@pytest.mark.parametrize("figures", ["rated ?", "chart 12 kg at 100 mm, 6 kg at 300 mm\n  rated ?"])
def test_a_rating_that_is_not_known_leaves_all_open_also_beside_a_chart(figures: str) -> None:
    """It may be less than the chart says."""
    assert ends_of(made(HEAD.format(figures)), "capacity") == ANYTHING


def test_a_rated_load_is_the_most_that_is_held_at_any_height() -> None:
    """Also where the chart says more, and the rating is given for a greater height."""
    assert ends_of(made(HEAD.format("chart 12 kg at 100 mm\n  rated 6 kg at 300 mm")), "capacity") == (6, 6)


def test_what_is_carried_is_asked_for_before_the_head() -> None:
    lens = 'part lens "l"\n  cog 100 mm forward\n  sits on lens PL\n'
    kitlist = made(lens + HEAD.format("rated ?").replace("long lens", "l"))
    for name in ("capacity", "load_share", "safe_share", "height_limit"):
        assert amount(kitlist, name).missing == ('lens "l": mass', RATED), name


@pytest.mark.parametrize(
    ("figures", "top", "missing"),
    [
        ("chart 12 kg at 100 mm, 6 kg at 300 mm", (0.3, 0.3), ()),
        ("chart 12 kg at 100 mm, ? at 300 mm\n  tilt axis ?", (0.3, 0.3), ()),
        ("rated 12 kg at 80..120 mm", (0.08, 0.12), ()),
        ("chart 12 kg at 100 mm, 6 kg at ?", (0.1, math.inf), (CHART,)),
        ("chart 12 kg at 100 mm\n  rated 12 kg at ?", (0.1, math.inf), (RATED,)),
        ("rated 12 kg", (-math.inf, math.inf), (CHART,)),
        ("rated 12 kg\n  tilt axis ?", (-math.inf, math.inf), (CHART,)),
        ("rated ?", (-math.inf, math.inf), (RATED,)),
        ("tilt axis ?", (-math.inf, math.inf), (CHART,)),
    ],
)
def test_the_top_of_the_chart_asks_for_heights_and_nothing_else(
    figures: str, top: tuple[float, float], missing: tuple[str, ...]
) -> None:
    kitlist = made(HEAD.format(figures))
    assert ends_of(kitlist, "chart_top") == top
    assert amount(kitlist, "chart_top").missing == missing


def test_without_a_head_there_is_no_top_and_any_load_is_held() -> None:
    bare = made('rig A\n  camera "big camera"\n')
    assert ends_of(bare, "chart_top") == (-math.inf, math.inf)
    assert amount(bare, "chart_top").missing == ("rig A: a head",)
    assert ends_of(bare, "capacity") == ANYTHING
    assert ends_of(bare, "legs_share") == ANYTHING


CAMERA = 'part camera "{}"\n  mass {} kg\n  cog {} mm up\n  height 160 mm\n  sits on screw 3/8-16\n'
CAMERAS = {3}
"""The line of the rig below that has a choice."""


def of_two_cameras(figures: str, light: str = "0.5") -> RigSubject:
    """A rig that takes one of two cameras, which are looked at as one."""
    rig = 'rig A\n  sticks "tall sticks", legs at 1400 mm\n  riser "r"\n  head "h"\n  camera "light" or "heavy"\n'
    parts = 'part riser "r"\n  mass 2 kg\n  rated 20 kg\n'
    parts += f'part head "h"\n  mass 3 kg\n  sits on bowl 100 mm\n  takes screw 3/8-16\n  {figures}\n'
    kitlist = made(parts + CAMERA.format("light", light, 60) + CAMERA.format("heavy", 9, 80) + rig)
    watch = Watch()
    (box,) = boxes(kitlist.rigs[0])
    return RigSubject(replace(setting(kitlist), watch=watch), Blends(kitlist.rigs[0], watch).build(box))


def told_apart(rig: RigSubject, name: str) -> set[int]:
    """The lines whose choice counts in a fact."""
    rig.value(name)
    watch = rig.setting.watch
    assert watch is not None
    return watch.blurred


@pytest.mark.parametrize("name", ["capacity", "load_share", "safe_share"])
class TestOneOfTwoCameras:
    """A head on which nothing says what it holds may hold anything: it is asked for whichever camera it carries."""

    def test_none_counts_on_a_head_without_figures(self, name: str) -> None:
        assert told_apart(of_two_cameras("drag 1..2 N·m"), name) == set()

    @pytest.mark.parametrize("figures", ["chart 12 kg at 10 mm, 6 kg at 300 mm", "tried 7 kg at 200 mm"])
    def test_each_counts_by_itself_where_a_figure_or_a_trial_says_what_is_held(self, name: str, figures: str) -> None:
        assert told_apart(of_two_cameras(figures), name) == CAMERAS

    def test_one_that_may_weigh_nothing_counts_as_nothing_is_then_held(self, name: str) -> None:
        counts = set() if name == "capacity" else CAMERAS
        assert told_apart(of_two_cameras("drag 1..2 N·m", light="0..1"), name) == counts


def test_the_weakest_of_a_stack_is_not_picked_while_it_is_open_what_it_bears() -> None:
    with pytest.raises(BlurredError):
        of_two_cameras("rated 12 kg").value("stack_weakest")


def test_what_may_have_no_rating_is_asked_for_and_head_and_camera_are_no_part_of_the_stack() -> None:
    riser = made(RIG.replace("  head ", '  riser "not there"\n  head '))
    assert ends_of(riser, "stack_share") == ANYTHING
    assert amount(riser, "stack_share").missing == ('riser "not there": in no parts book',)
    for name in ("tall sticks", "small head", "big camera"):
        other = made(RIG.replace(name, "not there"))
        assert ends_of(other, "stack_share") == (0, 0), name
        assert amount(other, "stack_share").missing == (), name
    assert ends_of(made(HEAD.format("rated 5 kg")), "stack_share") == (0, 0)


RISER = STACK.replace("  head ", '  riser "r"\n  head ')


def test_what_is_on_nothing_known_may_rest_on_the_stack_and_what_is_on_the_ground_does_not() -> None:
    """Head 3 kg and 8.7 kg above it; then 2 kg on a shelf that is not in the rig."""
    adrift = made(RISER.format("20 kg") + '  accessory "tin", 2 kg, on "shelf"\n')
    assert ends_of(adrift, "stack_share") == pytest.approx((11.7 / 20, 13.7 / 20))
    assert amount(adrift, "stack_share").missing == ('accessory "tin": what it is on',)
    ground = made(RISER.format("20 kg") + '  accessory "bag", 2 kg, on ground\n  ballast 5 kg, on ground\n')
    assert ends_of(ground, "stack_share") == pytest.approx((11.7 / 20, 11.7 / 20))
    assert amount(ground, "stack_share").missing == ()


def test_what_is_borne_is_asked_for_before_what_bears_it() -> None:
    text = RISER.format("?").replace("long lens", "l") + '  accessory "tin", on "shelf"\npart lens "l"\n'
    parts = 'part accessory "tin"\n  note "a tin"\npart sticks "s"\n  mass 5 kg\n  takes bowl 100 mm\n'
    kitlist = made(parts + text.replace("tall sticks", "s"))
    tin = ('accessory "tin": mass', 'accessory "tin": what it is on')
    assert amount(kitlist, "stack_share").missing == ('lens "l": mass', *tin, 'riser "r": rated')
    assert amount(kitlist, "legs_share").missing == ('lens "l": mass', 'accessory "tin": mass', 'sticks "s": rated')
