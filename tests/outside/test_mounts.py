"""What hangs on a lens mount and its support, what is left over when something is put on, and how falls tip.

Against textbook examples, against the beams of `sympy`, and against the optimisers of `scipy`.
"""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import optimize
from shapely import box
from sympy import Rational, Symbol, solve
from sympy.physics.continuum_mechanics.beam import Beam

from kitproof.facts.part import PartSubject
from kitproof.facts.values import Amount
from kitproof.mechanics.beams import lens_torque_range, support_range
from kitproof.mechanics.means import Term
from kitproof.mechanics.overturning import least_tipping_energy
from kitproof.mechanics.torques import Weight, left_over_range
from kitproof.words.units import G
from tests.model.texts import made, setting

MASSES = st.floats(0.2, 8.0)
PLACES = st.floats(-0.3, 0.4)


def sharp(mass: float, place: float) -> Term:
    return Term(mass, mass, place, place)


def weight(mass: float, forward: float, *, slides: bool = True) -> Weight:
    return Weight((mass, mass), (forward, forward), (0.0, 0.0), slides)


def test_a_pole_on_two_supports() -> None:
    """5.00 kg, supports 0.900 m apart, centre 0.600 m from the left: the right one bears 32.7 N. OpenStax College
    Physics, §9.4 (read; it has g 9.80, which makes no difference to the digits printed)."""
    assert support_range([sharp(5.00, 0.600)], (0.900, 0.900)) == pytest.approx((32.7, 32.7), abs=0.05)


@settings(max_examples=15)
@given(st.lists(st.tuples(MASSES, st.floats(0.01, 0.5)), min_size=1, max_size=4), st.floats(0.05, 0.5))
def test_a_support_bears_what_the_beam_of_sympy_says(hung: list[tuple[float, float]], place: float) -> None:
    """A beam that is hinged at the mount and rests on the support, with a force for each thing that hangs on it."""
    length = max(place, *(at for _, at in hung))
    beam = Beam(Rational(length), 1, 1)
    mount, support = Symbol("mount"), Symbol("support")
    beam.apply_load(mount, 0, -1)
    beam.apply_load(support, Rational(place), -1)
    for mass, at in hung:
        beam.apply_load(-Rational(mass * G), Rational(at), -1)
    beam.bc_deflection = [(0, 0), (Rational(place), 0)]
    beam.solve_for_reaction_loads(mount, support)
    expected = float(beam.reaction_loads[support])
    terms = [sharp(*each) for each in hung]
    assert support_range(terms, (place, place)) == pytest.approx((expected, expected), rel=1e-9)
    assert lens_torque_range(terms)[0] == pytest.approx(expected * place, rel=1e-9)


def test_what_is_put_on_left_and_right_of_a_rule_is_left_over_alike() -> None:
    """316.7 g at 30 cm right balances a rule of 150 g at 20 cm, 50 g at 70 and 75 g at 40 cm left. OpenStax University
    Physics 1, §12.2, example 12.3 (read): put on one after the other, what is left over turns one way, then back."""
    before = [weight(1.0, 0.0)]
    rule = [weight(0.150, -0.20, slides=False), weight(0.050, -0.70, slides=False), weight(0.075, -0.40, slides=False)]
    unknown = [weight(0.3167, 0.30, slides=False)]
    assert left_over_range(before, unknown)[0] == pytest.approx(-left_over_range(before, rule)[0], rel=2e-4)
    assert left_over_range(before, [*rule, *unknown]) == pytest.approx((0, 0), abs=2e-4)


@settings(max_examples=15)
@given(st.lists(st.tuples(MASSES, PLACES), min_size=1, max_size=3), st.lists(st.tuples(MASSES, PLACES), max_size=3))
def test_what_is_left_over_is_what_sympy_solves_for(
    were: list[tuple[float, float]], new: list[tuple[float, float]]
) -> None:
    """s from its own equation, Σ m (x + s) = 0, before and now; then g M_s (s_before − s_now)."""
    s = Symbol("s")

    def wanted(things: list[tuple[float, float]]) -> float:
        return float(solve(sum(Rational(m) * (Rational(x) + s) for m, x in things), s)[0])

    moving = sum(m for m, _ in (*were, *new))
    expected = G * moving * (wanted(were) - wanted([*were, *new]))
    found = left_over_range([weight(*each) for each in were], [weight(*each) for each in new])
    assert found == pytest.approx((expected, expected), rel=1e-9, abs=1e-9)


@given(st.tuples(st.floats(0.05, 0.6), st.floats(0.3, 2.0)), st.tuples(st.floats(0.05, 0.6), st.floats(0.3, 2.0)))
def test_scipy_finds_no_less_energy_on_the_way(start: tuple[float, float], end: tuple[float, float]) -> None:
    """Derived: to tip a rig its centre of gravity goes over the edge, from a height h to √(d² + h²)."""

    def energy(share: float) -> float:
        d, h = (a + share * (b - a) for a, b in zip(start, end, strict=True))
        return 150.0 * (math.hypot(d, h) - h)

    found = optimize.minimize_scalar(energy, bounds=(0.0, 1.0), method="bounded", options={"xatol": 1e-10})
    least = min(float(found.fun), energy(0.0), energy(1.0))
    assert least_tipping_energy(150.0, start, end) == pytest.approx(least, rel=1e-7, abs=1e-9)


@pytest.mark.parametrize(("wide", "high"), [(36.0, 24.0), (24.0, 18.0), (17.3, 13.0)])
def test_the_diagonal_of_a_sensor(wide: float, high: float) -> None:
    """36 × 24 mm is 43.27 mm from corner to corner (from memory); for any, the circle about it that `shapely` finds."""
    kitlist = made(f'part camera "k"\n  mass 3 kg\n  sensor {wide} x {high} mm\n', parts="")
    found = PartSubject(setting(kitlist), kitlist.own_parts[0]).value("sensor_diagonal")
    assert isinstance(found, Amount)
    around = 2 * box(0, 0, wide, high).minimum_rotated_rectangle.hausdorff_distance(box(0, 0, wide, high).centroid)
    assert found.low * 1000 == found.high * 1000 == pytest.approx(around)
    assert around == pytest.approx(43.27, abs=0.005) or (wide, high) != (36.0, 24.0)
