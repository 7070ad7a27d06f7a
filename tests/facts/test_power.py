"""Power bound to rigs: what is drawn, how long it lasts, how many batteries a day wants, and whether they suit."""

from __future__ import annotations

import math

import pytest
from msgspec.structs import replace

from kitproof.facts.build import combinations
from kitproof.facts.part import PartSubject
from kitproof.facts.rig import RigSubject
from kitproof.facts.values import Amount
from tests.facts.amounts import known_ends
from tests.facts.powered import BATTERY, BOOK, rig
from tests.model.texts import setting
from tests.proofing.lists import read_bytes

HOUR = 3600.0
WITH_BATTERIES = (
    "energy",
    "runtime",
    "batteries_needed",
    "batteries_charging",
    "current",
    "draw_share",
    "voltage_spare",
)


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("draw", 40),
        ("draw_most", 60),
        ("batteries", 3),
        ("energy", 300 * HOUR),
        ("runtime", 7.5 * HOUR),
        ("batteries_needed", 5),
        ("batteries_charging", 5),
        ("draw_share", 60 / 140),
        ("voltage_spare", 2.6),
        ("current", 60 / 12),
        ("cold_share", 1),
    ],
)
def test_a_rig_by_hand(name: str, value: float) -> None:
    """40 W off three batteries of 100 Wh: 7.5 h; 11 h want 440 Wh, that is five. 14.4 V fall to 12 V when empty."""
    assert known_ends(rig("  day 11 h\n", '"B", spare 2').amount(name)) == pytest.approx((value, value))


@pytest.mark.parametrize("name", WITH_BATTERIES)
def test_without_a_battery_there_is_nothing_to_last(name: str) -> None:
    kitlist = read_bytes(f'{BOOK}\nrig A\n  camera "C"\n'.encode())
    assert RigSubject(setting(kitlist), next(combinations(kitlist.rigs[0]))).value(name) is None


def test_a_day_that_is_not_said_is_asked_for() -> None:
    for name in ("batteries_needed", "batteries_charging"):
        assert rig().amount(name) == Amount(0, math.inf, ("rig A: day",))


@pytest.mark.parametrize(
    ("chemistry", "site", "share"),
    [
        ("chemistry lithium-ion", "0 to 20 °C", Amount(0.8, 0.8)),
        ("chemistry nickel", "0 to 20 °C", Amount(0, 1)),
        ("", "0 to 20 °C", Amount(0, 1, ('battery "B": chemistry',))),
        ("chemistry nickel", "20 to 30 °C", Amount(1, 1)),
        ("chemistry lithium-ion", "?", Amount(0, 1, ("rig A: site temperature",))),
    ],
)
def test_the_cold_is_known_of_lithium_ion_alone(chemistry: str, site: str, share: Amount) -> None:
    book = BOOK.replace("chemistry lithium-ion", chemistry)
    found = rig(f"  site temperature {site}\n", book=book).amount("cold_share")
    assert (found.low, found.high) == (pytest.approx(share.low), pytest.approx(share.high))
    assert found.missing == share.missing


def test_a_house_sets_how_much_the_cold_takes_and_when_a_battery_is_empty() -> None:
    """House numbers, from memory as they ship."""
    subject = rig("  site temperature 0 to 20 °C\n")
    own = {"cold_at_freezing": 0.6, "battery_empty_share": 0.75}
    setting = replace(subject.setting, house={**subject.setting.house, **own})
    house = RigSubject(setting, subject.build)
    assert known_ends(house.amount("cold_share")) == pytest.approx((0.6, 0.6))
    assert known_ends(house.amount("current")) == pytest.approx((60 / (14.4 * 0.75),) * 2)


def test_the_worst_of_several_batteries_counts_for_the_voltage() -> None:
    other = BATTERY.replace('"B"', '"B2"').replace("14.4 V", "26 V")
    found = rig('  battery "B2"\n', book=BOOK + other)
    assert known_ends(found.amount("voltage_spare")) == pytest.approx((-9, -9))


def test_voltages_that_are_not_known_are_asked_for() -> None:
    book = BOOK.replace("  voltage 14.4 V\n", "")
    assert rig(book=book).amount("voltage_spare").missing == ('battery "B": voltage',)
    assert rig(book=book).amount("current") == Amount(0, math.inf, ('battery "B": voltage',))
    assert rig(book=BOOK.replace("  power 11..17 V\n", "")).amount("voltage_spare").missing == ('camera "C": power',)


@pytest.mark.parametrize(
    ("energy", "held"),
    [
        ("energy 100 Wh", Amount(100 * HOUR, 100 * HOUR)),
        ("energy 10 Ah", Amount(144 * HOUR, 144 * HOUR)),
        ("", Amount(0, math.inf, ('battery "B": energy',))),
    ],
)
def test_what_one_battery_holds(energy: str, held: Amount) -> None:
    """10 Ah at 14.4 V are 144 Wh."""
    battery = rig(book=BOOK.replace("energy 100 Wh", energy)).value("battery")
    assert isinstance(battery, PartSubject)
    found = battery.amount("energy_each")
    assert (found.low, found.high) == pytest.approx((held.low, held.high))
    assert found.missing == held.missing
