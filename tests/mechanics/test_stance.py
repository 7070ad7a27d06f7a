"""A rig on its feet: what is said of it at one tilt, held to rigs inside the box taken one mass at a time."""

from __future__ import annotations

import math
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.mechanics.stance import Stance
from tests.mechanics.stances import Rig, rigs_inside, stances

TILTS = st.integers(-90, 90).map(math.radians)


@given(stances(), TILTS, st.integers(0, 99))
def test_no_rig_inside_leans_less_or_stands_outside_the_heights(stance: Stance, tilt: float, seed: int) -> None:
    least, heights = stance.nearest(tilt)
    for rig in rigs_inside(stance, 10, random.Random(seed)):
        lean, up = rig.lean(tilt)
        assert lean >= least - 1e-9
        assert heights[0] - 1e-9 <= up <= heights[1] + 1e-9


@given(stances(known=True), TILTS)
def test_of_a_rig_that_is_known_it_is_the_place_itself(stance: Stance, tilt: float) -> None:
    (rig,) = rigs_inside(stance, 1, random.Random(1))
    assert isinstance(rig, Rig)
    lean, up = rig.lean(tilt)
    least, heights = stance.nearest(tilt)
    assert least == pytest.approx(lean, abs=1e-9)
    assert heights == pytest.approx((up, up), abs=1e-9)
