"""The head's figures as facts: charted, single, without a height, not known; and what the stack bears."""

from __future__ import annotations

import math

import pytest

from kitproof.facts.values import Words
from tests.model.texts import RIG, amount, made, subject

HEAD = 'part head "h"\n  mass 3 kg\n  sits on bowl 100 mm\n  {}\n' + RIG.replace("small head", "h")


@pytest.mark.parametrize(
    ("figures", "kind"),
    [
        ("chart 12 kg at 100 mm, 6 kg at 300 mm", "chart"),
        ("chart 12 kg at 100 mm\n  rated 12 kg", "single"),
        ("rated 12 kg at 150 mm", "single"),
        ("rated 12 kg", "none"),
        ("rated 12 kg at 100 mm, 6 kg at 300 mm", "chart"),
        ("chart 12 kg at 100 mm, 6 kg at 300 mm\n  rated ?", "unknown"),
        ("tilt axis 40 mm below plate", "unknown"),
        ("rated ?", "unknown"),
        ("chart ?\n  rated 12 kg", "unknown"),
        ("chart lots\n  rated 12 kg", "unknown"),
        ("chrat 12 kg at 100 mm\n  rated 12 kg", "unknown"),
    ],
)
def test_what_the_maker_gives(figures: str, kind: str) -> None:
    assert subject(made(HEAD.format(figures))).value("chart_kind") == Words(kind)


def test_figures_that_are_not_known_hold_anything_and_are_named() -> None:
    for figures in ("rated ?", "chart lots\n  rated 12 kg", "tilt axis 40 mm below plate"):
        kitlist = made(HEAD.format(figures))
        assert (amount(kitlist, "capacity").low, amount(kitlist, "capacity").high) == (0, math.inf)
        assert (amount(kitlist, "load_share").low, amount(kitlist, "load_share").high) == (0, math.inf)
        assert amount(kitlist, "load_share").missing[0].startswith('head "h": ')


def test_a_depth_of_the_axis_left_out_takes_the_houses_and_a_question_mark_none() -> None:
    figures = "rated 3 kg at 50 mm"
    left_out, asked = made(HEAD.format(figures)), made(HEAD.format(figures + "\n  tilt axis ?"))
    assert amount(left_out, "load_share").missing == ()
    assert amount(asked, "load_share").missing == ('head "h": tilt axis',)
    assert amount(asked, "capacity").high == 3
    assert amount(left_out, "capacity").high < 3
    lost = made(HEAD.format(figures + "\n  tilt axis below"))
    assert (amount(lost, "capacity").low, amount(lost, "capacity").high) == (0, 3)
    assert "could not be read" in amount(lost, "load_share").missing[0]


def test_the_load_share_of_a_sharp_build_worked_by_hand() -> None:
    """8.7 kg: slide 0.7 at 10 mm, base 1 at 45, camera 4 at 150, lens 3 at 150; straight from 12 kg to 6."""
    kitlist = made(RIG)
    up = (0.7 * 0.010 + 1 * 0.045 + 4 * 0.150 + 3 * 0.150) / 8.7
    holds = 12 - 6 * (up - 0.1) / 0.2
    for name, value in (("cog_up", up), ("capacity", holds), ("load_share", 8.7 / holds), ("safe_share", 8.7 / holds)):
        found = amount(kitlist, name)
        assert (found.low, found.high) == (pytest.approx(value), pytest.approx(value)), name
    assert amount(kitlist, "height_limit").low == pytest.approx(0.1 + 0.2 * (12 - 8.7) / 6)
    assert amount(kitlist, "chart_top").low == 0.3


def test_a_rig_without_head_or_sticks_asks_for_them() -> None:
    kitlist = made('rig A\n  camera "big camera"\n')
    assert amount(kitlist, "load_share").missing == ("rig A: a head",)
    assert amount(kitlist, "legs_share").missing == ("rig A: sticks",)


def test_the_sticks_bear_what_stands_on_them_over_their_rating() -> None:
    assert amount(made(RIG), "legs_share").low == pytest.approx(11.7 / 60)
    unrated = RIG + '  ballast 5 kg\npart sticks "s"\n  mass 1 kg\n'
    assert amount(made(unrated.replace('"tall sticks"', '"s"')), "legs_share").missing == ('sticks "s": rated',)


STACK = 'part riser "r"\n  mass 2 kg\n  rated {}\npart plate "p"\n  mass 1 kg\n  rated 20 kg\n' + RIG


class TestStack:
    def test_nothing_rated_bears_nothing(self) -> None:
        assert (amount(made(RIG), "stack_share").low, amount(made(RIG), "stack_share").high) == (0, 0)

    def test_a_riser_bears_all_above_it_and_what_hangs_on_that_but_not_what_hangs_on_the_sticks(self) -> None:
        text = STACK.format("20 kg").replace("  head ", '  riser "r"\n  head ')
        assert amount(made(text), "stack_share").low == pytest.approx(11.7 / 20)
        more = text + '  pan bar "long bar"\n  accessory "bag", 2 kg, on riser\n  accessory "sand", 9 kg, on sticks\n'
        assert amount(made(more), "stack_share").low == pytest.approx(14.1 / 20)

    def test_a_plate_does_not_bear_the_pan_bar_that_hangs_on_the_head(self) -> None:
        text = STACK.format("20 kg").replace("  slide ", '  plate "p"\n  slide ') + '  pan bar "long bar"\n'
        assert amount(made(text), "stack_share").low == pytest.approx(8.7 / 20)

    def test_two_alike_bear_each_what_is_above_it(self) -> None:
        text = STACK.format("20 kg").replace("  head ", '  riser "r"\n  riser "r"\n  head ')
        assert amount(made(text), "stack_share").low == pytest.approx(13.7 / 20)

    @pytest.mark.parametrize("said", ["?", "20", "lots", "? at 100 mm"])
    def test_a_rating_that_is_written_and_not_known_is_missing(self, said: str) -> None:
        found = amount(made(STACK.format(said).replace("  head ", '  riser "r"\n  head ')), "stack_share")
        assert (found.low, found.high) == (0, math.inf)
        assert found.missing[0].startswith('riser "r": rated')


RATED_RIG = RIG.replace("wide slide", "s").replace("studio base", "b")
SLIDE = 'part slide "s"\n  mass 0.7 kg\n  rated {} kg\n  sits on screw 3/8-16\n  takes slide wide\n'
BASE = 'part base "b"\n  mass 1 kg\n  rated {} kg\n  sits on slide wide\n  takes screw 3/8-16\n'


@pytest.mark.parametrize(
    ("slide", "base", "weakest", "bears"), [(16, 10, '"b"', 7), (10, 16, '"s"', 8), (8, 7, '"s"', 8)]
)
def test_the_weakest_of_the_stack_is_named_with_what_it_bears(slide: int, base: int, weakest: str, bears: int) -> None:
    """The base bears camera and lens, 7 kg, the slide the base as well: 8 over 16 is less than 7 over 10.
    Shares that are alike are the lower part's."""
    rig = subject(made(SLIDE.format(slide) + BASE.format(base) + RATED_RIG))
    assert rig.amount("stack_share").high == pytest.approx(bears / (slide if weakest == '"s"' else base))
    assert getattr(rig.value("stack_weakest"), "label", None) == weakest
    assert rig.amount("stack_bears").high == pytest.approx(bears)


def test_a_stack_with_no_rating_has_no_weakest_part() -> None:
    rig = subject(made(RIG))
    assert rig.value("stack_weakest") is None
    assert rig.amount("stack_share").high == 0
    assert (rig.amount("stack_bears").low, rig.amount("stack_bears").high) == (0, 0)
