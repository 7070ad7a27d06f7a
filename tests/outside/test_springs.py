"""Counterbalance against the zero-free-length spring of gravity meters.

Source: gravity-meter manual (LaCoste & Romberg), as read: a spring whose force is proportional to its length, from a
point a above a hinge to a point b along a beam, balances a weight W at d along the beam at every angle if W d = k a b.
Our counterbalance is that law: K = M g H. The spring itself is worked out here from its two ends, with no angle put in.
"""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.mechanics.counterbalancing import needed_range
from kitproof.mechanics.means import Term
from kitproof.mechanics.torques import torque, worst_torque

M, D, A, B = 5.0, 0.15, 0.05, 0.10
"""kg and m, the example."""


def spring_torque(stiffness: float, tilt: float) -> float:
    """The torque of a zero-free-length spring about the hinge, lens-down positive: arm × force, from its two ends.

    The beam stands up from the hinge at level; a tilt up leans it back. The spring's fixed end lies above the hinge.
    """
    end = -B * math.sin(tilt), B * math.cos(tilt)  # forward, up
    pull = stiffness * (0 - end[0]), stiffness * (A - end[1])
    return end[1] * pull[0] - end[0] * pull[1]


def test_the_spring_that_balances_the_example() -> None:
    """k = W d / (a b) = 1471.0 N/m (derived from the law)."""
    needed = needed_range([Term(M, M, D, D)], (0.0, 0.0))[0]
    assert needed / (A * B) == pytest.approx(1471.0, abs=0.05)


@given(st.floats(-math.pi, math.pi))
def test_it_leaves_no_torque_at_any_angle(tilt: float) -> None:
    needed = needed_range([Term(M, M, D, D)], (0.0, 0.0))[0]
    weight_alone = torque(0.0, -needed, tilt)
    assert weight_alone + spring_torque(needed / (A * B), tilt) == pytest.approx(0, abs=1e-12)


@given(st.floats(-1.5, 1.5), st.floats(200, 3000))
def test_any_other_spring_leaves_what_we_say(tilt: float, stiffness: float) -> None:
    """T = (K − M g H) sin θ with K = k a b."""
    needed = needed_range([Term(M, M, D, D)], (0.0, 0.0))[0]
    left = spring_torque(stiffness, tilt) - needed * math.sin(tilt)
    assert torque(0.0, stiffness * A * B - needed, tilt) == pytest.approx(left, abs=1e-9)
    assert worst_torque(0.0, stiffness * A * B - needed, (tilt, tilt)) == pytest.approx(abs(left), abs=1e-9)
