"""Batteries against published values. Each test names its source and how it is known."""

from __future__ import annotations

import pytest

from kitproof.mechanics.powering import energy_of, runtime
from kitproof.mechanics.ranges import Interval
from kitproof.words.units import UNITS


def si(value: float, unit: str) -> Interval:
    made = UNITS[unit].to_si(value)
    return made, made


def test_watt_hours_are_rated_ampere_hours_times_nominal_volts() -> None:
    """11.1 V × 4.4 Ah = 48.84 Wh: 49 CFR 171.8 (read)."""
    low, high = energy_of(si(4.4, "Ah"), si(11.1, "V"))
    assert low == high
    assert UNITS["Wh"].from_si(low) == pytest.approx(48.84, rel=1e-12)


def test_the_same_in_milliampere_hours() -> None:
    """4400 mAh are 4.4 Ah, by the meaning of milli."""
    assert energy_of(si(4400, "mAh"), si(11.1, "V")) == pytest.approx(energy_of(si(4.4, "Ah"), si(11.1, "V")))


def test_a_watt_hour_is_a_watt_for_an_hour() -> None:
    """By the meaning of the unit."""
    assert runtime(si(48.84, "Wh"), (1, 1), si(48.84, "W")) == pytest.approx(si(1, "h"))
