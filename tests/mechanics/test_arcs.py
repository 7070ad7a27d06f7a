"""The worst tilt, held to dense scans."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.mechanics.arcs import NEAR, Arc, Measure, Tipping, Turning, worst
from kitproof.mechanics.ranges import Interval
from tests.mechanics.stances import reaches

SCAN = 4001


def places(most: float) -> st.SearchStrategy[float]:
    return st.integers(-1000, 1000).map(lambda n: n / 1000 * most)


ARCS = st.builds(Arc, places(0.1), st.floats(0.5, 1.5), st.just(0.0) | places(0.1), places(0.3), places(0.4))
MEASURES = st.one_of(
    st.builds(Tipping, st.floats(0.0, 0.6)),
    st.builds(Turning, st.floats(0.0, 2.0), st.floats(-1.0, 1.0), st.floats(-1.0, 1.0)),
)


def scanned(arc: Arc, measure: Measure, tilts: Interval) -> float:
    return max(measure.value(*arc.at(float(tilt))) for tilt in np.linspace(*tilts, SCAN))


@given(ARCS, MEASURES, reaches())
def test_no_tilt_is_worse_than_the_worst_and_a_close_scan_comes_near_it(
    arc: Arc, measure: Measure, tilts: Interval
) -> None:
    found, tilt = worst([(arc, measure)], tilts)
    dense = scanned(arc, measure, tilts)
    assert tilts[0] <= tilt <= tilts[1]
    assert found == measure.value(*arc.at(tilt))
    assert dense <= found + 2 * NEAR
    assert found == pytest.approx(dense, abs=1e-5)


@given(ARCS, MEASURES, reaches())
def test_a_scan_about_the_worst_finds_nothing_worse(arc: Arc, measure: Measure, tilts: Interval) -> None:
    found, tilt = worst([(arc, measure)], tilts)
    near = max(tilts[0], tilt - 1e-4), min(tilts[1], tilt + 1e-4)
    assert scanned(arc, measure, near) <= found + 2 * NEAR


@given(st.lists(st.tuples(ARCS, MEASURES), min_size=1, max_size=5), reaches())
def test_of_several_arcs_the_worst_counts(several: list[tuple[Arc, Measure]], tilts: Interval) -> None:
    each = [worst([one], tilts)[0] for one in several]
    assert worst(several, tilts)[0] == pytest.approx(max(each), abs=2 * NEAR)


@given(ARCS, MEASURES, reaches(), st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_a_stretch_is_never_worse_than_its_bound(
    arc: Arc, measure: Measure, tilts: Interval, share: float, width: float
) -> None:
    start = tilts[0]
    end = start + width * (tilts[1] - start)
    room = arc.room(end - start)
    bound = max(measure.most(*arc.at(start), room), measure.most(*arc.at(end), room))
    assert measure.value(*arc.at(start + share * (end - start))) <= bound + 1e-12


def test_a_centre_that_passes_the_middle_leans_most_at_an_end_or_square_off() -> None:
    """Known by hand: with nothing forward and H = 0.2 the lean is 0.2 |sin θ|: 0 level, the most at the steeper end."""
    arc = Arc(0.0, 1.0, 0.0, 0.0, 0.2)
    lean = Turning(1.0, 0.0, 0.0)
    assert worst([(arc, lean)], (math.radians(-30), math.radians(20)))[0] == pytest.approx(0.1)
    assert worst([(arc, lean)], (-math.pi, math.pi))[0] == pytest.approx(0.2)
    assert worst([(arc, lean)], (0.0, 0.0)) == (0.0, 0.0)


def test_a_reach_of_many_turns_is_one_turn() -> None:
    arc = Arc(0.01, 1.0, 0.02, 0.1, 0.2)
    once = worst([(arc, Tipping(0.3))], (0.0, math.tau))[0]
    assert worst([(arc, Tipping(0.3))], (0.0, 1e9))[0] == pytest.approx(once, abs=2 * NEAR)


@given(MEASURES, st.floats(0, 1), st.floats(0, 0.5), st.floats(0, 0.3), st.floats(0, 1), st.floats(-1, 1))
def test_no_place_in_the_room_is_worse_than_the_most(
    measure: Measure, lean: float, up: float, room: float, leaning: float, lifting: float
) -> None:
    """Off its feet already, a lower centre is the worse one."""
    assert measure.value(lean + leaning * room, up + lifting * room) <= measure.most(lean, up, room) + 1e-12
