"""Wind against published values. Each test names its source and how it is known."""

from __future__ import annotations

import pytest

from kitproof.mechanics.winds import AIR, FLAT_PLATE, beaufort, force, pressure
from kitproof.words.units import INCH, POUND, G

MILE_AN_HOUR = 1609.344 / 3600
POUND_PER_SQUARE_FOOT = POUND * G / (12 * INCH) ** 2


def test_half_the_density_of_air_is_the_constant_of_the_code() -> None:
    """q = 0.613 V² in Pa: ASCE 7 §26.10 (as quoted). Half of ours is 0.6125, which is that to the digits printed."""
    speed = 1.0
    assert pressure((speed, speed)) == pytest.approx((0.613, 0.613), abs=0.0006)


def test_pressure_of_a_design_wind() -> None:
    """V 115 mph, Kz 0.85, Kd 0.85: 24.461 psf. ASCE 7 §26.10 (as quoted). The code's 0.00256 for psf and mph is
    rounded, so 0.2 % is as near as one can come."""
    speed = 115 * MILE_AN_HOUR
    found, same = pressure((speed, speed))
    assert found == same
    assert found * 0.85 * 0.85 / POUND_PER_SQUARE_FOOT == pytest.approx(24.461, rel=0.002)


def test_a_flat_plate_square_to_the_wind() -> None:
    """C_d 1.28: NASA Glenn, Shape Effects on Drag (read). At 1 Pa of pressure 1 m² takes 1.28 N."""
    assert FLAT_PLATE == 1.28
    speed = (2 / AIR) ** 0.5
    assert force((speed, speed), (1.0, 1.0)) == pytest.approx((1.28, 1.28))


@pytest.mark.parametrize(
    ("number", "most"),
    list(enumerate([0.2, 1.5, 3.3, 5.4, 7.9, 10.7, 13.8, 17.1, 20.7, 24.4, 28.4, 32.6])),
)
def test_beaufort_upper_bounds(number: int, most: float) -> None:
    """m/s: WMO scale (as quoted), which is written to a tenth: the next tenth is the next force."""
    assert beaufort(most) == number
    assert beaufort(most + 0.1) == number + 1
