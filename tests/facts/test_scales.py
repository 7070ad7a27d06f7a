"""Mass and balance point from two scales, worked by hand."""

from __future__ import annotations

import pytest

from kitproof.facts.scales import weighed
from tests.model.texts import made


def test_two_scales_in_doubt_give_the_exact_range_of_the_mass_and_of_the_balance_point() -> None:
    """Furthest back with the front at its least and the rear at its most: (2 × 60 − 2 × 90) / 4 = −15 mm.

    Furthest forward the other way about: (3 × 70 − 1 × 90) / 4 = 30 mm. Source: balance of moments.
    """
    text = 'part camera "c"\n  weighed front 2..3 kg at 60..70 mm forward, rear 1..2 kg at 90 mm back\n'
    scales = made(text, parts="").own_parts[0].weighed
    assert scales is not None
    found = weighed(scales)
    assert found.mass == pytest.approx((3, 5))
    assert found.forward == pytest.approx((-0.015, 0.030))
