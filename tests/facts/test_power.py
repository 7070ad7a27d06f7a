"""Power bound to rigs: what is drawn, how long it lasts, how many batteries a day wants, charged again or not."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from kitproof.facts.build import combinations
from kitproof.facts.rig import RigSubject
from kitproof.facts.values import Amount, Words
from tests.model.texts import setting
from tests.proofing.lists import read_bytes

HOUR = 3600.0
CAMERA = 'part camera "C"\n  mass 3 kg\n  power 11..17 V\n  draws 40 W, 60 W at most\n'
BATTERY = """
part battery "B"
  mass 0.8 kg
  energy 100 Wh
  voltage 14.4 V
  delivers 140 W
  chemistry lithium-ion
"""
CHARGER = """
part charger "Two-way"
  mass 2 kg
  charges at once 2
  charges in 3 h
"""
BOOK = CAMERA + BATTERY + CHARGER


def rig(text: str = "", battery: str = '"B"', book: str = BOOK, after: str = "") -> RigSubject:
    """The first combination of a rig with a camera and a battery; `text` are more of its lines."""
    whole = f'{book}\nrig A\n  camera "C"\n  battery {battery}\n{text}\n{after}'
    kitlist = read_bytes(whole.encode())
    assert kitlist.slips == ()
    return RigSubject(setting(kitlist), next(combinations(kitlist.rigs[0])))


def ends(amount: Amount) -> tuple[float, float]:
    assert amount.missing == ()
    return amount.low, amount.high


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
    assert ends(rig("  day 11 h\n", '"B", spare 2').amount(name)) == pytest.approx((value, value))


@pytest.mark.parametrize("name", ["energy", "runtime", "batteries_needed", "batteries_charging", "current"])
def test_without_a_battery_there_is_nothing_to_last(name: str) -> None:
    kitlist = read_bytes(f'{BOOK}\nrig A\n  camera "C"\n'.encode())
    assert RigSubject(setting(kitlist), next(combinations(kitlist.rigs[0]))).value(name) is None


def test_a_day_that_is_not_said_is_asked_for() -> None:
    for name in ("batteries_needed", "batteries_charging"):
        assert rig().amount(name) == Amount(0, math.inf, ("rig A: day",))


@pytest.mark.parametrize(
    ("order", "wanted", "words"),
    [
        ("", (5, 5), "no charger"),
        ('order\n  1 x "Two-way"\n', (3, 3), '1 x "Two-way"'),
        ('case "k"\n  holds 2 x "Two-way"\n', (3, 3), '2 x "Two-way"'),
        ('order\n  1 x "Two-way"\nrig B\n  battery "B"\n', (3, 5), '1 x "Two-way"'),
        ('order\n  1 x "Two-way"\nrig B\n  instead of A\n  battery "B"\n', (3, 3), '1 x "Two-way"'),
    ],
)
def test_batteries_that_are_charged_again(order: str, wanted: tuple[float, float], words: str) -> None:
    """2.5 h each: with two charged at once in 3 h each is full again before the third is down. Another rig that stands
    at the same time may take all the places."""
    found = rig("  day 11 h\n", after=order)
    assert found.amount("batteries_charging") == Amount(*wanted)
    assert found.value("chargers") == Words(words)


def test_a_charger_of_which_nothing_is_said_is_asked_about() -> None:
    book = CAMERA + BATTERY + 'part charger "Two-way"\n  mass 2 kg\n'
    found = rig("  day 11 h\n", book=book, after='order\n  1 x "Two-way"\n').amount("batteries_charging")
    assert (found.low, found.high) == (1, 5)
    assert found.missing == ('charger "Two-way": charges in', 'charger "Two-way": charges at once')


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
    assert ends(house.amount("cold_share")) == pytest.approx((0.6, 0.6))
    assert ends(house.amount("current")) == pytest.approx((60 / (14.4 * 0.75),) * 2)


def test_the_worst_of_several_batteries_counts_for_the_voltage() -> None:
    other = BATTERY.replace('"B"', '"B2"').replace("14.4 V", "26 V")
    found = rig('  battery "B2"\n', book=BOOK + other)
    assert ends(found.amount("voltage_spare")) == pytest.approx((-9, -9))


def test_voltages_that_are_not_known_are_asked_for() -> None:
    book = BOOK.replace("  voltage 14.4 V\n", "")
    assert rig(book=book).amount("voltage_spare").missing == ('battery "B": voltage',)
    assert rig(book=book).amount("current") == Amount(0, math.inf, ('battery "B": voltage',))
    assert rig(book=BOOK.replace("  power 11..17 V\n", "")).amount("voltage_spare").missing == ('camera "C": power',)


HOURS = st.floats(0.1, 12).map(lambda hours: round(hours, 2))


@given(HOURS, HOURS, st.integers(1, 4), st.integers(10, 90), st.booleans(), st.booleans())
def test_a_longer_day_never_wants_fewer_batteries(
    day: float, more: float, places: int, watts: int, shared: bool, doubt: bool
) -> None:
    book = BOOK.replace("at once 2", f"at once {places}").replace("40 W, 60 W", f"{watts} W, {watts + 20} W")
    book = book.replace("100 Wh", "80 to 110 Wh" if doubt else "100 Wh")
    after = 'order\n  1 x "Two-way"\n' + 'rig B\n  battery "B"\n' * shared
    short, long = (rig(f"  day {hours:.2f} h\n", book=book, after=after) for hours in (day, day + more))
    for name in ("batteries_needed", "batteries_charging"):
        before, later = short.amount(name), long.amount(name)
        assert before.low <= later.low
        assert before.high <= later.high
    assert short.amount("batteries_charging").high <= short.amount("batteries_needed").high
