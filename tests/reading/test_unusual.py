"""Units that pint reads. The factors are exact by definition: 14 lb, 3 ft, 1 lb × 1 ft/s², 360° a turn."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.reading.unusual import unusual_unit
from kitproof.words.dimensions import ANGLE, FORCE, LENGTH, MASS, TEMPERATURE, Dimension


@pytest.mark.parametrize(
    ("word", "dimension", "factor"),
    [
        ("stone", MASS, 14 * 0.45359237),
        ("yard", LENGTH, 0.9144),
        ("poundal", FORCE, 0.45359237 * 0.3048),
        ("turn", ANGLE, 2 * math.pi),
        ("kilograms", MASS, 1.0),
        ("rankine", TEMPERATURE, 5 / 9),
    ],
)
def test_what_pint_knows(word: str, dimension: Dimension, factor: float) -> None:
    unit = unusual_unit(word)
    assert unit is not None
    assert unit.dimension == dimension
    assert unit.factor == pytest.approx(factor, rel=1e-12)


@pytest.mark.parametrize("word", ["", "kgg", "decibel", "mole", "dozen", "km^9", "lumen", "kg*m", "__class__"])
def test_what_is_no_unit_of_a_list(word: str) -> None:
    assert unusual_unit(word) is None


@given(st.text(max_size=12))
def test_any_word_is_a_unit_or_none(word: str) -> None:
    unit = unusual_unit(word)
    assert unit is None or math.isfinite(unit.factor)
