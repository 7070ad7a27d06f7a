"""Factors of units, against their definitions as exact decimal fractions. Each test names its source and status."""

from __future__ import annotations

from fractions import Fraction

import pytest

from kitproof.words.units import INCH, POUND, UNITS, G

EXACT = {
    "lb": Fraction("0.45359237"),
    "in": Fraction("0.0254"),
    "kgf": Fraction("9.80665"),
}
"""UCUM: pound, inch, standard gravity, exact by definition (read)."""


def test_pound_inch_and_gravity_are_exact() -> None:
    """UCUM (read)."""
    assert Fraction("0.45359237") == Fraction(str(POUND))
    assert Fraction("0.0254") == Fraction(str(INCH))
    assert Fraction("9.80665") == Fraction(str(G))
    assert {name: UNITS[name].factor for name in EXACT} == {name: float(value) for name, value in EXACT.items()}


@pytest.mark.parametrize(
    ("name", "exact"),
    [
        ("lbf", EXACT["lb"] * EXACT["kgf"]),
        ("lbf·in", EXACT["lb"] * EXACT["kgf"] * EXACT["in"]),
        ("lbf·ft", EXACT["lb"] * EXACT["kgf"] * EXACT["in"] * 12),
        ("kgf·cm", EXACT["kgf"] / 100),
        ("oz", EXACT["lb"] / 16),
        ("ft", EXACT["in"] * 12),
        ("in²", EXACT["in"] ** 2),
        ("ft²", (EXACT["in"] * 12) ** 2),
        ("mph", EXACT["in"] * 12 * 5280 / 3600),
        ("kn", Fraction(1852, 3600)),
    ],
)
def test_what_is_made_of_them_is_off_by_no_more_than_a_rounding(name: str, exact: Fraction) -> None:
    """Exact products of the UCUM values (derived); the mile of 5280 ft and the knot of 1852 m an hour from memory."""
    assert abs(Fraction(UNITS[name].factor) - exact) <= exact * Fraction(1, 2**51)


@pytest.mark.parametrize(
    ("name", "printed"),
    [("lbf", "4.4482216152605"), ("lbf·in", "0.1129848290276167"), ("kgf·cm", "0.0980665")],
)
def test_forces_and_torques_as_printed(name: str, printed: str) -> None:
    """4.4482216152605 N, 0.1129848290276167 N·m and 0.0980665 N·m: exact products (derived)."""
    assert UNITS[name].factor == pytest.approx(float(printed), rel=1e-15)
