"""Rods against published values and against the beams of `sympy`."""

from __future__ import annotations

import math

import pytest
from sympy import Rational, Symbol, integrate, pi, sin
from sympy.physics.continuum_mechanics.beam import Beam

from kitproof.mechanics.beams import ELASTICITY, Load, Rods, rod_sag_range, second_moment, tip_sag
from kitproof.words.units import INCH, G

LBF = 4.4482216152605
"""N, the exact product of the pound, in kg, and g."""

PSI = LBF / INCH**2
"""Pa."""


def test_a_solid_round_bar_of_a_published_calculator() -> None:
    """L 15 in, D 5 in, F 20 lb, E 30e6 psi: 2.44462e-5 in and 24.4462 psi. Published calculator example, read; its E is
    inferred."""
    length, diameter, force = 15 * INCH, 5 * INCH, 20 * LBF
    moment = second_moment(diameter, diameter / 2)
    assert tip_sag(force, length, length, 30e6 * PSI * moment) / INCH == pytest.approx(2.44462e-5, rel=2e-6)
    assert force * length * (diameter / 2) / moment / PSI == pytest.approx(24.4462, rel=2e-6)


def test_one_rod_of_15_mm_and_a_pair() -> None:
    """15/13 mm, 200 mm, 20 N at the end, E 68.9 GPa: 0.714703 mm for one rod (derived: δ = F L³ / 3EI;
    `indeterminatebeam`, `anastruct` and `sympy` agreed); two that share it sag by half."""
    stiffness = 68.9e9 * second_moment(0.015, 0.001)
    assert tip_sag(20, 0.2, 0.2, stiffness) == pytest.approx(0.714703e-3, abs=5e-10)
    rods = Rods((0.2, 0.2), (0.015, 0.015), (0.001, 0.001), (68.9e9, 68.9e9))
    mass = 20 / G
    sag = rod_sag_range([Load((mass, mass), (0.2, 0.2))], rods)
    assert sag == pytest.approx((0.714703e-3 / 2,) * 2, abs=5e-10)


def sag_by_sympy(loads: list[tuple[float, float]], length: float, stiffness: float) -> float:
    """The tip of a cantilever under forces at places, solved by sympy from its own singularity functions."""
    beam = Beam(Rational(length), Rational(stiffness), 1)
    beam.bc_deflection = [(0, 0)]
    beam.bc_slope = [(0, 0)]
    moment = sum(Rational(force) * Rational(place) for force, place in loads)
    beam.apply_load(-sum(Rational(force) for force, _ in loads), 0, -1)
    beam.apply_load(moment, 0, -2)
    for force, place in loads:
        beam.apply_load(Rational(force), Rational(place), -1)
    return abs(float(beam.deflection().subs(beam.variable, Rational(length))))


@pytest.mark.parametrize(
    ("loads", "length"),
    [
        ([(1.2, 0.18)], 0.25),
        ([(1.2, 0.25)], 0.25),
        ([(0.8, 0.08), (1.9, 0.22), (0.3, 0.30)], 0.30),
    ],
)
def test_several_loads_add_up_as_sympy_adds_them(loads: list[tuple[float, float]], length: float) -> None:
    outer, wall = 0.019, 0.0015
    moment = math.pi / 64 * (outer**4 - (outer - 2 * wall) ** 4)
    each = [(mass * G / 2, place) for mass, place in loads]
    expected = sag_by_sympy(each, length, 200e9 * moment)
    rods = Rods((length, length), (outer, outer), (wall, wall), ELASTICITY["steel"])
    found = rod_sag_range([Load((m, m), (a, a)) for m, a in loads], rods)
    assert found == pytest.approx((expected, expected), rel=1e-9)


def test_the_second_moment_is_the_integral_of_the_section() -> None:
    """∫ y² dA over a ring, by sympy."""
    r, turn = Symbol("r", positive=True), Symbol("t")
    ring = integrate(
        integrate((r * sin(turn)) ** 2 * r, (r, Rational(13, 2000), Rational(15, 2000))), (turn, 0, 2 * pi)
    )
    assert second_moment(0.015, 0.001) == pytest.approx(float(ring), rel=1e-12)
