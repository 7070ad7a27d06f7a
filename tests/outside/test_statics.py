"""Centres of gravity and balance, against textbook examples. Each test names its source and how it is known."""

from __future__ import annotations

import math

import pytest

from kitproof.mechanics.means import Term, balance_range, mass_range, mean_range, two_scales

TEXTBOOK_G = 9.80
"""m/s²: what the textbooks below work with, not the standard value."""


def sharp(mass: float, place: float) -> Term:
    return Term(mass, mass, place, place)


def test_centre_of_three_forces() -> None:
    """50 N at 0, 10 N at 1.2 m, 30 N at 2.0 m: 0.8 m. Baker & Haynes, Engineering Statics, ch. 7 (read)."""
    low, high = mean_range([sharp(50, 0), sharp(10, 1.2), sharp(30, 2.0)])
    assert (low, high) == pytest.approx((0.8, 0.8))


RULE = [sharp(0.150, -0.20), sharp(0.050, -0.70), sharp(0.075, -0.40)]
"""The rule and the two masses on its left, in kg, and m from the support: OpenStax, as below."""


def test_an_unknown_mass_balances_a_rule() -> None:
    """316.7 g at 30 cm right of the support. OpenStax University Physics 1, §12.2, example 12.3 (read)."""
    assert mean_range([*RULE, sharp(0.3167, 0.30)]) == pytest.approx((0, 0), abs=1e-4)
    assert balance_range([sharp(0.3167, 0.0)], RULE) == pytest.approx((0.30, 0.30), abs=5e-5)


def test_a_support_bears_all_that_stands_on_it() -> None:
    """5.8 N with the 316.7 g in place. OpenStax University Physics 1, §12.2, example 12.3 (read)."""
    low, high = mass_range([*RULE, sharp(0.3167, 0.30)])
    assert (low * TEXTBOOK_G, high * TEXTBOOK_G) == pytest.approx((5.8, 5.8), abs=0.05)


def test_two_supports_of_a_pole_give_its_mass_and_its_centre() -> None:
    """5.00 kg, supports 0.900 m apart, centre 0.600 m from the left: 16.3 N and 32.7 N. OpenStax College Physics,
    §9.4 (read). The printed forces are rounded to 0.1 N; the pole must lie within what they leave open."""
    left = Term(16.25 / TEXTBOOK_G, 16.35 / TEXTBOOK_G, 0.0, 0.0)
    right = Term(32.65 / TEXTBOOK_G, 32.75 / TEXTBOOK_G, 0.900, 0.900)
    mass, place = two_scales(left, right)
    assert mass[0] <= 5.00 <= mass[1]
    assert place[0] <= 0.600 <= place[1]
    assert mass[1] - mass[0] < 0.025
    assert place[1] - place[0] < 0.003


def test_a_three_legged_table_balances_on_its_feet() -> None:
    """Side 900 mm, 500 N at 325 mm from A and 625 mm from B: feet bear 291.98, 116.05, 91.97 N. Problem as quoted,
    numbers derived: the centre of the three reactions is the point of the load."""
    side = 0.9
    corners = [(0.0, 0.0), (side, 0.0), (side / 2, side * math.sqrt(3) / 2)]
    feet = [291.98, 116.05, 91.97]
    along = mean_range([sharp(force, corner[0]) for force, corner in zip(feet, corners, strict=True)])
    across = mean_range([sharp(force, corner[1]) for force, corner in zip(feet, corners, strict=True)])
    assert mass_range([sharp(force, 0) for force in feet]) == pytest.approx((500, 500))
    for place in (0, 1):
        assert math.hypot(along[place], across[place]) == pytest.approx(0.325, abs=1e-5)
        assert math.hypot(along[place] - side, across[place]) == pytest.approx(0.625, abs=1e-5)
