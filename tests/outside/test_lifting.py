"""The lifting equation against NIOSH 94-110 (rev. 9/2021), and team lifts. Each test says how its numbers are known."""

from __future__ import annotations

import math

import pytest

from kitproof.mechanics.lifting import (
    HOUR,
    LOAD_CONSTANT,
    TEAM_SHARES,
    Coupling,
    Hands,
    Lift,
    asymmetry,
    coupling,
    distance,
    frequency,
    horizontal,
    vertical,
    weight_limit,
)
from kitproof.words.units import POUND

MINUTE = 60.0
PER_MINUTE = [0.2, 0.5, *range(1, 16)]

UP_TO_1_H = [1, 0.97, 0.94, 0.91, 0.88, 0.84, 0.80, 0.75, 0.70, 0.60, 0.52, 0.45, 0.41, 0.37, 0, 0, 0]
UP_TO_2_H = [0.95, 0.92, 0.88, 0.84, 0.79, 0.72, 0.60, 0.50, 0.42, 0.35, 0.30, 0.26, 0, 0, 0, 0, 0]
UP_TO_8_H = [0.85, 0.81, 0.75, 0.65, 0.55, 0.45, 0.35, 0.27, 0.22, 0.18, 0, 0, 0, 0, 0, 0, 0]


def fm(rate: float, hours: float, up: float) -> float:
    low, high = frequency((rate / MINUTE, rate / MINUTE), (hours * HOUR, hours * HOUR), (up, up))
    assert low == high
    return low


@pytest.mark.parametrize(("hours", "column"), [(1, UP_TO_1_H), (2, UP_TO_2_H), (8, UP_TO_8_H)])
def test_frequency_below_75_cm(hours: float, column: list[float]) -> None:
    """Table 5, V under 75 cm (as quoted)."""
    assert [fm(rate, hours, 0.5) for rate in PER_MINUTE] == column


@pytest.mark.parametrize(
    ("hours", "column", "rest"),
    [
        (1, UP_TO_1_H, {13: 0.34, 14: 0.31, 15: 0.28}),
        (2, UP_TO_2_H, {11: 0.23, 12: 0.21}),
        (8, UP_TO_8_H, {9: 0.15, 10: 0.13}),
    ],
)
def test_frequency_from_75_cm_up(hours: float, column: list[float], rest: dict[float, float]) -> None:
    """Table 5, V of 75 cm and more: from memory; several public transcriptions of the table agree on every number."""
    for at, rate in enumerate(PER_MINUTE):
        assert fm(rate, hours, 0.75) == rest.get(rate, column[at])


def test_the_load_constant_and_the_limits_of_the_multipliers() -> None:
    """LC 23 kg; HM 25/H to 63 cm; VM to 175 cm; DM to 175 cm; AM to 135° (as quoted, pp. 7–18)."""
    assert LOAD_CONSTANT == 23
    assert round(LOAD_CONSTANT / POUND) == 51
    assert horizontal((0.40, 0.40)) == pytest.approx((25 / 40,) * 2)
    assert vertical((0.30, 0.30)) == pytest.approx((1 - 0.003 * 45,) * 2)
    assert distance((1.0, 1.0)) == pytest.approx((0.82 + 4.5 / 100,) * 2)
    assert asymmetry((math.radians(45),) * 2) == pytest.approx((1 - 0.0032 * 45,) * 2)
    for beyond in (horizontal((0.64, 0.64)), vertical((1.76, 1.76)), distance((1.76, 1.76)), asymmetry((2.37, 2.37))):
        assert beyond == (0, 0)


HM = {25: 1.00, 28: 0.89, 30: 0.83, 32: 0.78, 34: 0.74, 36: 0.69, 38: 0.66, 40: 0.63, 42: 0.60, 44: 0.57, 46: 0.54}
HM |= {48: 0.52, 50: 0.50, 52: 0.48, 54: 0.46, 56: 0.45, 58: 0.43, 60: 0.42, 63: 0.40, 64: 0.00}
VM = {0: 0.78, 10: 0.81, 20: 0.84, 30: 0.87, 40: 0.90, 50: 0.93, 60: 0.96, 70: 0.99, 80: 0.99, 90: 0.96, 100: 0.93}
VM |= {110: 0.90, 120: 0.87, 130: 0.84, 140: 0.81, 150: 0.78, 160: 0.75, 170: 0.72, 175: 0.70, 176: 0.00}
DM = {
    25: 1.00,
    40: 0.93,
    55: 0.90,
    70: 0.88,
    85: 0.87,
    100: 0.87,
    115: 0.86,
    145: 0.85,
    160: 0.85,
    175: 0.85,
    176: 0.00,
}
AM = {0: 1.00, 15: 0.95, 30: 0.90, 45: 0.86, 60: 0.81, 75: 0.76, 90: 0.71, 105: 0.66, 120: 0.62, 135: 0.57, 136: 0.00}


@pytest.mark.parametrize(
    ("multiplier", "table", "unit"),
    [(horizontal, HM, 0.01), (vertical, VM, 0.01), (distance, DM, 0.01), (asymmetry, AM, math.radians(1))],
    ids=["table 1, H in cm", "table 2, V in cm", "table 3, D in cm", "table 4, A in degrees"],
)
def test_the_tables_of_the_multipliers(multiplier, table, unit) -> None:  # type: ignore[no-untyped-def]  # four functions
    """Tables 1 to 4, from memory: what the formulas give, to two places."""
    for at, expected in table.items():
        low, high = multiplier((at * unit, at * unit))
        assert low == high
        assert low == pytest.approx(expected, abs=0.0051), at


def test_the_table_of_couplings() -> None:
    """Table 7: fair as quoted, good and poor from memory."""
    table: dict[Coupling, tuple[float, float]] = {"good": (1.00, 1.00), "fair": (0.95, 1.00), "poor": (0.90, 0.90)}
    for kind, (below, above) in table.items():
        assert coupling((kind,), (0.74, 0.74)) == (below, below)
        assert coupling((kind,), (0.75, 0.75)) == (above, above)


def test_example_4_at_its_origin() -> None:
    """Pages 44–46 (as quoted): 51 × 1.0 × .94 × .87 × 1.0 × .88 × .95 = 34.9 lb, with rounded multipliers.

    The places that these multipliers come from are inferred: VM .94, with fair coupling at .95 and so V under 75 cm, is
    V 55 cm; DM .87 is a travel of 90 cm; FM .88 is three lifts a minute for up to an hour; HM 1.0 is up to 25 cm, which
    the manual takes for 10 in.
    """
    up, over = (0.55, 0.55), (1.45, 1.45)
    assert vertical(up) == pytest.approx((0.94, 0.94))
    assert distance((0.90, 0.90)) == pytest.approx((0.87, 0.87))
    lift = Lift(Hands((0.25, 0.25), up), Hands((0.25, 0.25), over), (3 / MINUTE,) * 2, (HOUR, HOUR), ("fair",))
    low, high = weight_limit(lift, lift.origin)
    assert low == high
    assert low / LOAD_CONSTANT * 51 == pytest.approx(34.9, abs=0.06)


def test_teams() -> None:
    """Two people two thirds, three a half of what they can lift each for themselves: UK guidance (as quoted)."""
    assert TEAM_SHARES[2] == pytest.approx(2 * 2 / 3)
    assert TEAM_SHARES[3] == pytest.approx(3 * 1 / 2)
