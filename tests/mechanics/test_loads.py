"""The load share, held to a dense scan of every side of the box, to points anywhere inside it, and to worked values.

The scan assumes nothing about edges: along each side of the box of masses, at every corner of the places, it takes the
share densely, on both sides of every height at which the capacity bends or drops, and looks closer around the least.
"""

from __future__ import annotations

import itertools
import math
import random
from collections.abc import Iterator, Sequence

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.optimize import minimize_scalar

from kitproof.mechanics.curves import Curve
from kitproof.mechanics.holding import Figure, Holding
from kitproof.mechanics.loads import safe_range, share_range, stack_range
from kitproof.mechanics.means import Term, mass_range, mean_range
from tests.mechanics.boxes import boxes, figures, heads, inside, sharp_figures

INF = math.inf
BESIDE = 1e-11  # m: far enough past a drop to be beyond it, near enough to be its limit


def sharp(mass: float, place: float) -> Term:
    return Term(mass, mass, place, place)


def figure(mass: float, height: float | None = None) -> Figure:
    return Figure((mass, mass), None if height is None else (height, height))


def share(mass: float, height: float, curve: Curve) -> float:
    capacity = curve.value(height)
    return mass / capacity if capacity > 0 else INF


Run = tuple[float, float, float, float]
"""A side of the box: Σm and Σmr at one end, and how far each of them goes."""


def runs(box: Sequence[Term]) -> Iterator[Run]:
    for places in itertools.product(*((term.r_low, term.r_high) for term in box)):
        for moved, term in enumerate(box):
            ends = [(t.m_low, t.m_high) if k != moved else (t.m_low,) for k, t in enumerate(box)]
            for masses in itertools.product(*ends):
                gain = term.m_high - term.m_low
                moment = math.fsum(m * r for m, r in zip(masses, places, strict=True))
                yield math.fsum(masses), moment, gain, gain * places[moved]


def shares_along(run: Run, curve: Curve) -> Iterator[tuple[float, float]]:
    """How far along, and the share there."""
    mass, moment, gain, lift = run
    for along in np.linspace(0, 1, 9):
        if mass + along * gain > 0:
            yield float(along), share(mass + along * gain, (moment + along * lift) / (mass + along * gain), curve)
    heights = [(moment + along * lift) / (mass + along * gain) for along in (0, 1) if mass + along * gain > 0]
    for bend in {piece.end for piece in curve.pieces if piece.end < INF} | {0.0}:
        if min(heights) < bend < max(heights) and lift != bend * gain:
            along = (bend * mass - moment) / (lift - bend * gain)
            if 0 <= along <= 1:
                yield along, share(mass + along * gain, bend, curve)
                yield along, share(mass + along * gain, bend + BESIDE, curve)


def scanned(box: Sequence[Term], curve: Curve) -> tuple[float, float]:
    """The least and the greatest share that the sides of the box reach."""
    least, greatest = INF, 0.0
    for run in runs(box):
        found = sorted(shares_along(run, curve))
        if found:
            greatest = max([greatest, *(value for _, value in found)])
            least = min([least, *(value for _, value in found), *_closer(run, curve, found)])
    return least, greatest


def _closer(run: Run, curve: Curve, found: list[tuple[float, float]]) -> Iterator[float]:
    """The least share on either side of the least one found, as scipy finds it."""
    mass, moment, gain, lift = run
    if gain == 0:
        return

    def at(along: float) -> float:
        return share(mass + along * gain, (moment + along * lift) / (mass + along * gain), curve)

    best = min(found, key=lambda each: each[1])[0]
    stops = [along for along, _ in found]
    around = max((along for along in stops if along < best), default=best), best
    for left, right in (around, (best, min((along for along in stops if along > best), default=best))):
        if right - left > 1e-9:
            yield float(minimize_scalar(at, bounds=(left, right), method="bounded", options={"xatol": 1e-9}).fun)


positive = boxes(most=3, low=0.0, high=0.7, least=0.05)
anywhere = boxes(most=3, low=-0.3, high=0.7, least=0.05)


@given(anywhere, heads(figures()))
def test_the_share_is_exactly_what_a_scan_reaches(box: list[Term], head: Holding) -> None:
    low, high = share_range(box, head)
    if head.kind == "unknown":
        assert low == 0
    else:
        assert low == pytest.approx(scanned(box, head.upper)[0], rel=1e-9)
    assert high == pytest.approx(scanned(box, head.lower)[1], rel=1e-9)


@given(positive, heads(sharp_figures()))
def test_the_share_is_exact_above_the_plate(box: list[Term], head: Holding) -> None:
    assume(head.kind != "unknown")
    low, high = share_range(box, head)
    assert low == pytest.approx(scanned(box, head.upper)[0], rel=1e-9)
    assert high == pytest.approx(scanned(box, head.lower)[1], rel=1e-9)


@given(anywhere, heads(figures()))
def test_the_safe_share_is_what_a_scan_reaches(box: list[Term], head: Holding) -> None:
    """Its least may lie inside the box where the plate does, so there the scan is only an upper bound to it."""
    low, high = safe_range(box, head)
    least, greatest = scanned(box, head.lower)
    assert high == pytest.approx(greatest, rel=1e-9)
    assert low <= least * (1 + 1e-9)
    if mean_range(box)[0] >= 0:
        assert low == pytest.approx(least, rel=1e-9)


@given(boxes(most=4, low=-0.3, high=0.7), heads(figures()), st.integers(0, 9))
def test_no_point_inside_the_box_lies_outside_the_shares(box: list[Term], head: Holding, seed: int) -> None:
    low, high = share_range(box, head)
    safe_low, safe_high = safe_range(box, head)
    for point in inside(box, 60, random.Random(seed)):
        mass = math.fsum(m for m, _ in point)
        if mass > 0:
            height = math.fsum(m * r for m, r in point) / mass
            assert low <= share(mass, height, head.upper) * (1 + 1e-9)
            assert share(mass, height, head.lower) <= high * (1 + 1e-9)
            assert safe_low <= share(mass, height, head.lower) * (1 + 1e-9)
            assert share(mass, height, head.lower) <= safe_high * (1 + 1e-9)


@given(anywhere, heads(figures()))
def test_the_joint_share_is_never_wider_than_mass_and_height_taken_apart(box: list[Term], head: Holding) -> None:
    low, high = share_range(box, head)
    mass, capacity = mass_range(box), head.capacity(*mean_range(box))
    assert low >= mass[0] / capacity[1] * (1 - 1e-9) if capacity[1] > 0 else low == INF
    assert capacity[0] == 0 or high <= mass[1] / capacity[0] * (1 + 1e-9)


CHARTED = Holding(chart=(figure(18, 0.15), figure(12, 0.22), figure(5, 0.4)), axis=(0.042, 0.042))


def test_sharp_values_on_the_chart_give_a_sharp_share() -> None:
    assert share_range([sharp(4, 0.11), sharp(8, 0.275)], CHARTED) == (1.0, 1.0)
    assert share_range([sharp(6, 0.22)], CHARTED) == (0.5, 0.5)


def test_the_least_share_may_lie_between_the_corners() -> None:
    """A low mass that grows brings the centre down: 10 kg at 0.36 m and 0..10 kg at 0.04 m, C = 30 − 60 h above 0.1 m.

    M = 2 b s₀ / (c − b r), with s₀ = 10 (0.36 − 0.04) = 3.2: 384 / 27.6 = 13.913 kg, and the share there is
    M² / (27.6 M − 192) = 1.00819.
    """
    head = Holding(chart=(figure(24, 0.1), figure(6, 0.4)))
    low, high = share_range([sharp(10, 0.36), Term(0, 10, 0.04, 0.04)], head)
    assert low == pytest.approx(2 * 384 / 27.6 / 27.6, rel=1e-12)
    assert high == pytest.approx(10 / 8.4)
    assert low < min(10 / 8.4, 20 / 18)


def test_beyond_the_chart_lies_doubt_with_a_drop_on_the_way() -> None:
    low, high = share_range([Term(4, 4, 0.4, 0.4000001)], CHARTED)
    assert low == pytest.approx(4 / 5)
    assert high == pytest.approx(4 / 3.5, rel=1e-6)
    assert share_range([sharp(4, 0.4)], CHARTED) == (0.8, 0.8)


def test_a_side_that_crosses_a_drop_takes_the_worse_side_of_it() -> None:
    """3 kg at 0.1 and 1 to 6 kg at 0.5 pass 2 h_n = 0.4 at 9 kg: never beyond it, so the bound there still holds."""
    head = Holding(chart=(figure(10, 0.2),), axis=(0, 0))
    box = [sharp(3, 0.1), Term(1, 9, 0.5, 0.5)]
    assert share_range(box, head)[1] == pytest.approx((3 * 0.1 + 9 * 0.5) / (0.7 * 10 * 0.2))
    assert share_range([box[0], Term(1, 9.1, 0.5, 0.5)], head)[1] == INF


def test_nothing_carried_is_no_load_whatever_the_head_holds() -> None:
    for head in (CHARTED, Holding(), Holding(chart=(figure(0, 0.2),))):
        assert share_range([], head) == (0, 0)
        assert share_range([Term(0, 0, -INF, INF)], head) == (0, 0)
        assert safe_range([], head) == (0, 0)


def test_a_mass_that_may_be_nothing_makes_the_least_share_nothing() -> None:
    assert share_range([Term(0, 6, 0.22, 0.22)], CHARTED) == (0, 0.5)
    assert safe_range([Term(0, 6, 0.22, 0.22)], CHARTED) == (0, 0.5)


def test_a_head_that_holds_nothing_is_overloaded_by_anything() -> None:
    assert share_range([sharp(1, 0.1)], Holding(chart=(figure(0, 0.2),))) == (INF, INF)


def test_a_head_of_which_nothing_is_known() -> None:
    assert share_range([sharp(12, 0.1)], Holding()) == (0, INF)
    assert share_range([Term(0, INF, -INF, INF)], Holding()) == (0, INF)


def test_known_kilograms_fail_a_head_whatever_the_unknown_ones_are() -> None:
    """Twelve known kilograms on a head good for ten fail already."""
    ten = Holding(rated=figure(10))
    assert share_range([sharp(12, 0.1), Term(0, INF, 0.1, 0.2)], ten) == (1.2, INF)
    assert share_range([sharp(12, 0.1), Term(0, INF, -INF, INF)], ten) == (1.2, INF)


@given(positive, heads(sharp_figures()), st.sampled_from([1e5, 1e7]))
def test_a_mass_without_bound_is_the_limit_of_a_great_one(box: list[Term], head: Holding, great: float) -> None:
    assume(head.kind != "unknown")
    unknown = [box[0], *(term._replace(m_high=INF) for term in box[1:])]
    known = [box[0], *(term._replace(m_high=great) for term in box[1:])]
    assert share_range(unknown, head)[0] == pytest.approx(share_range(known, head)[0], rel=1e-9)


def test_an_unknown_place_may_be_anywhere() -> None:
    """Hung far below, the head may still hold C₁ = 18 kg; far above it holds nothing."""
    assert share_range([sharp(6, 0.22), Term(3, 4, -INF, INF)], CHARTED) == (0.5, INF)
    assert share_range([sharp(6, 0.22), Term(0, 3, 0.1, INF)], CHARTED)[1] == INF


def test_hung_below_the_plate_the_share_is_doubt_to_no_end() -> None:
    assert share_range([sharp(9, -0.1)], CHARTED) == (0.5, INF)
    assert safe_range([sharp(9, -0.1)], CHARTED) == (INF, INF)
    assert share_range([sharp(9, 0.0)], CHARTED) == (0.5, 0.5)


def test_a_safe_share_of_what_may_hang_is_taken_at_the_plate() -> None:
    """4 to 6 kg at −0.1 and 3 to 9 kg at 0.2: the least mass that comes up to the plate is 7 kg, on a rating of 20."""
    none = Holding(rated=figure(20))
    assert safe_range([Term(4, 6, -0.1, -0.1), Term(3, 9, 0.2, 0.2)], none)[0] == pytest.approx(7 / 14)
    assert safe_range([sharp(4, -0.1), Term(1, 9, 0.2, 0.2)], none)[0] == pytest.approx(6 / 14)
    assert safe_range([sharp(4, -0.1), Term(1, 9, -INF, INF)], none)[0] == pytest.approx(5 / 14)


def test_what_hangs_is_safest_where_an_unknown_place_may_bring_it_to_the_plate() -> None:
    head = Holding(chart=(figure(20.0, 0.1),), axis=(0.0, 0.0))
    low, _ = safe_range([sharp(2.0, -0.1), Term(0.0, 1.0, 0.0, INF)], head)
    assert low == pytest.approx(2.0 / 20.0)


def test_a_rating_without_a_height_has_a_safe_share_over_one_and_a_share_under_it() -> None:
    none = Holding(rated=figure(20))
    assert share_range([sharp(15, 0.1)], none) == pytest.approx((0.75, 15 / 14))
    assert safe_range([sharp(15, 0.1)], none) == pytest.approx((15 / 14, 15 / 14))


def test_a_stack_is_as_loaded_as_its_most_loaded_part() -> None:
    assert stack_range([]) == (0, 0)
    assert stack_range([((10, 12), (20, 20)), ((11, 13), (30, 30))]) == (0.5, 0.6)
    assert stack_range([((10, 12), (20, 20)), ((8, 9), (10, 20))]) == (0.5, 0.9)
    assert stack_range([((10, 12), (20, 20)), ((8, 9), (0, INF))]) == (0.5, INF)
    assert stack_range([((0, INF), (20, 20))]) == (0, INF)
