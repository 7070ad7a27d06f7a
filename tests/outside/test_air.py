"""The limits of air transport that ship, against their sources. Each test names its source and how it is known."""

from __future__ import annotations

import re
from datetime import date

import pytest

from kitproof.mechanics.baggage import side_sum
from kitproof.rulebook.limit_lines import read_limits
from kitproof.rulebook.limits import Dated, Limit
from kitproof.rulebook.rulefile import lines_of
from kitproof.words.units import INCH, UNITS
from tests.house.repository import RULES

DAY = date(2027, 3, 8)


def limits() -> dict[str, Limit]:
    lines, strays = lines_of("air/limits", (RULES / "air" / "limits").read_text("utf-8"))
    found, _, errors = read_limits(lines, "air")
    assert [*strays, *errors] == []
    return {name: limit for name, limit in found.items() if limit is not None}


def on(name: str, day: date = DAY) -> Dated:
    found = limits()[name].on(day)
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("name", "value", "unit"),
    [
        ("without_approval", 100, "Wh"),  # TSA; 49 CFR 175.10(a)(18), read
        ("with_approval", 160, "Wh"),  # FAA PackSafe, as quoted
        ("loose_charge", 30, "%"),  # ICAO Technical Instructions, packing instruction 965, as quoted
        ("packed_charge", 30, "%"),  # the same 2025-2026, packing instruction 966, as quoted by shippers
        ("advised_bag", 23, "kg"),  # IATA passenger baggage, read
        ("most_bag", 32, "kg"),  # the same
        ("most_sides", 158, "cm"),  # the same
    ],
)
def test_limits_are_those_of_their_sources(name: str, value: float, unit: str) -> None:
    assert on(name).value == pytest.approx(UNITS[unit].to_si(value))
    assert limits()[name].dimension == UNITS[unit].dimension


def test_two_large_spares_with_approval() -> None:
    """FAA PackSafe, as quoted."""
    assert on("approved_spares").value == 2


def test_a_limit_holds_from_its_day_on() -> None:
    """Loose batteries as cargo, from 1 April 2016: as quoted by carriers and shippers."""
    assert limits()["loose_charge"].on(date(2016, 3, 31)) is None
    assert on("loose_charge", date(2016, 4, 1)).value == pytest.approx(0.3)


def test_batteries_beside_their_equipment_are_limited_later_than_loose_ones() -> None:
    """Packing instruction 966, from 1 January 2026: as quoted by shippers."""
    assert limits()["packed_charge"].on(date(2025, 12, 31)) is None
    assert on("packed_charge", date(2026, 1, 1)).value == pytest.approx(0.3)


def test_a_limit_whose_source_names_no_first_day_has_always_held() -> None:
    assert on("most_bag", date(1990, 1, 1)).value == 32


def test_every_limit_says_how_it_is_known() -> None:
    for name, limit in limits().items():
        for dated in limit.values:
            assert dated.since is not None or "no first day" in dated.source, name
            assert dated.seen is not None, name
            assert re.search(r"\bread\b|\bquoted\b|\bfrom memory\b", dated.source), name


def test_a_bag_of_62_inches_is_a_bag_of_158_cm() -> None:
    """IATA gives both (read); 62 in are 157.48 cm."""
    sides = [(28 * INCH, 28 * INCH), (20 * INCH, 20 * INCH), (14 * INCH, 14 * INCH)]
    low, high = side_sum(sides)
    assert low == high
    assert low == pytest.approx(1.58, abs=0.006)
    assert high <= 1.58
