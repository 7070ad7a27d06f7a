"""What the trade knows of heads, in its own units. Status of all: practice (facts of the trade, no source)."""

from __future__ import annotations

import math

import pytest

from kitproof.mechanics.holding import Figure, Holding
from kitproof.mechanics.loads import safe_range, share_range
from kitproof.mechanics.means import Term
from kitproof.words.units import INCH, POUND


def pounds(mass: float) -> tuple[float, float]:
    return mass * POUND, mass * POUND


def inches(height: float, to: float | None = None) -> tuple[float, float]:
    return height * INCH, (height if to is None else to) * INCH


@pytest.mark.parametrize(
    ("rated_at", "axis", "twelve_at"),
    [(6, 0, 19.5), (7, 0, 22.75), (8, 0, 26), (6, 2, 24), (7, 2, 27.25), (8, 2, 30.5)],
)
def test_39_lb_by_the_lever_law_is_12_lb_far_above_the_plate(rated_at: float, axis: float, twelve_at: float) -> None:
    """Practice, no source: a head rated 39 lb low above its plate is good for about 12 lb far above."""
    head = Holding(rated=Figure(pounds(39), inches(rated_at)), axis=inches(axis))
    height = twelve_at * INCH
    assert head.capacity(height, height)[1] == pytest.approx(12 * POUND, rel=1e-9)
    assert head.height_limit(*pounds(12))[1] == pytest.approx(height, rel=1e-9)


def test_39_lb_at_6_to_8_in_is_one_figure_in_doubt_between_the_two() -> None:
    """Practice, no source: the rating is given at 6 to 8 in. It may hold 12 lb as far up as the best of them allows."""
    head = Holding(rated=Figure(pounds(39), inches(6, 8)), axis=inches(0))
    assert head.kind == "single"
    assert head.height_limit(*pounds(12))[1] == pytest.approx(26 * INCH)
    assert head.height_limit(*pounds(39)) == pytest.approx(inches(6, 8))


def test_39_lb_far_above_its_height_fails_for_certain() -> None:
    """Practice, no source: at 28 in even the best case bears no more than about 12 lb, never 39 or 26."""
    head = Holding(rated=Figure(pounds(39), inches(6, 8)), axis=inches(0, 2))
    for mass in (26, 39):
        assert share_range([Term(*pounds(mass), *inches(28))], head)[0] > 1.9
    assert share_range([Term(*pounds(12), *inches(28))], head)[0] < 1


@pytest.mark.parametrize("height", [4, 5, 6])
@pytest.mark.parametrize("rated", [26, 39])
def test_with_no_chart_it_is_counted_on_for_30_per_cent_less(rated: float, height: float) -> None:
    """Practice, no source: about 30 % under the rated figure for an ordinary build with its centre at 4 to 6 in."""
    head = Holding(rated=Figure(pounds(rated)))
    assert head.kind == "none"
    assert head.capacity(*inches(height)) == pytest.approx((0.7 * rated * POUND, rated * POUND))
    build = [Term(*pounds(0.75 * rated), *inches(height))]
    assert share_range(build, head)[0] < 1 < safe_range(build, head)[0]


def test_a_single_figure_says_nothing_certain_far_above_its_height() -> None:
    """Practice, no source: a figure holds at the height it was given for."""
    head = Holding(rated=Figure(pounds(39), inches(6)))
    assert head.capacity(*inches(6)) == pytest.approx(pounds(39))
    assert head.capacity(*inches(13))[0] == 0
    assert share_range([Term(*pounds(1), *inches(13))], head)[1] == math.inf
