"""What is not known of the power of rigs is asked for, and several kinds of battery count as the weakest of them."""

from __future__ import annotations

import math

import pytest

from kitproof.facts import power
from kitproof.facts.build import combinations
from kitproof.facts.rig import RigSubject
from kitproof.facts.values import Amount
from kitproof.words.dimensions import NUMBER, TEMPERATURE
from tests.facts.amounts import known_ends
from tests.facts.powered import BATTERY, BOOK, rig
from tests.model.texts import setting
from tests.proofing.lists import read_bytes

HOUR = 3600.0
LOST = "rig A: line 23, which could not be read"


def other(*changes: tuple[str, str]) -> str:
    """The book with a second battery, which differs from the first in what is changed."""
    battery = BATTERY.replace('"B"', '"B2"')
    for was, now in changes:
        battery = battery.replace(was, now)
    return BOOK + battery


def test_the_houses_numbers_on_batteries() -> None:
    """Of lithium-ion cells, from memory: all from 20 °C up, 80 % at 0 °C, 50 % at -20 °C; empty at 3.0 of 3.6 V."""
    assert {each.name: (each.value, each.dimension) for each in power.HOUSE_NUMBERS} == {
        "cold_full_from": (293.15, TEMPERATURE),
        "cold_at_freezing": (0.80, NUMBER),
        "cold_lowest": (253.15, TEMPERATURE),
        "cold_at_lowest": (0.50, NUMBER),
        "battery_empty_share": (pytest.approx(3.0 / 3.6), NUMBER),
    }


@pytest.mark.parametrize(
    ("kind", "says", "usual", "most", "missing"),
    [
        *((kind, "", (40, math.inf), (60, math.inf), "draws") for kind in ("monitor", "recorder", "light")),
        ("accessory", "", (40, 40), (60, 60), ""),
        ("accessory", "draws 7 W", (47, 47), (67, 67), ""),
        ("accessory", "draws 7 to 9 W", (47, 49), (67, 69), ""),
        ("accessory", "draws 7 W, 9 W at most", (47, 47), (69, 69), ""),
        ("accessory", "draws ?", (40, math.inf), (60, math.inf), "draws"),
        ("accessory", "draws seven", (40, math.inf), (60, math.inf), "draws (line 19 could not be read)"),
    ],
)
def test_what_says_nothing_of_its_draw_is_asked_where_it_always_draws(
    kind: str, says: str, usual: tuple[float, float], most: tuple[float, float], missing: str
) -> None:
    book = f'{BOOK}\npart {kind} "X"\n  {says}\n'
    found = rig(f'  {kind} "X"\n', book=book)
    lacks = (f'{kind} "X": {missing}',) if missing else ()
    assert found.amount("draw") == Amount(*usual, lacks)
    assert found.amount("draw_most") == Amount(*most, lacks)


def test_the_half_of_a_draw_that_is_not_known_is_asked_for() -> None:
    for says, name in (("?, 60 W at most", "draw"), ("40 W, ? at most", "draw_most")):
        found = rig(book=BOOK.replace("40 W, 60 W at most", says)).amount(name)
        assert found == Amount(0, math.inf, ('camera "C": draws',))


@pytest.mark.parametrize(
    ("energy", "voltage", "lacks"),
    [
        ("energy ?", "voltage 14.4 V", "energy"),
        ("energy 10 Ah", "", "voltage"),
        ("energy 10 Ah", "voltage ?", "voltage"),
    ],
)
def test_the_energy_of_a_battery_wants_its_charge_and_its_voltage(energy: str, voltage: str, lacks: str) -> None:
    book = BOOK.replace("energy 100 Wh", energy).replace("voltage 14.4 V", voltage)
    assert rig(book=book).amount("energy") == Amount(0, math.inf, (f'battery "B": {lacks}',))


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("draw", Amount(40, math.inf, (LOST,))),
        ("draw_most", Amount(60, math.inf, (LOST,))),
        ("batteries", Amount(3, math.inf, (LOST,))),
        ("energy", Amount(300 * HOUR, math.inf, (LOST,))),
        ("cold_share", Amount(0, 1, (LOST,))),
        ("runtime", Amount(0, math.inf, (LOST,))),
        ("batteries_needed", Amount(5, math.inf, (LOST,))),
        ("draw_share", Amount(60 / 140, math.inf, (LOST,))),
        ("current", Amount(60 / 12, math.inf, (LOST,))),
        ("voltage_spare", Amount(-math.inf, 2.6, (LOST,))),
    ],
)
def test_a_line_that_cannot_be_read_may_be_anything_that_draws_and_any_battery(name: str, value: Amount) -> None:
    """11 h at 40 W or more want 440 Wh of batteries of 100 Wh, if the cold takes nothing of it."""
    found = rig("  day 11 h\n  site temperature 0 to 20 °C\n  ; more\n", '"B", spare 2').amount(name)
    assert (found.low, found.high) == pytest.approx((value.low, value.high))
    assert found.missing == value.missing


@pytest.mark.parametrize(
    ("change", "name", "value"),
    [
        (("100 Wh", "50 to 120 Wh"), "batteries_needed", (5, 9)),
        (("100 Wh", "50 to 120 Wh"), "energy", (150 * HOUR, 220 * HOUR)),
        (("140 W", "100 to 150 W"), "draw_share", (60 / 140, 60 / 100)),
        (("14.4 V", "12 to 20 V"), "current", (60 / 12, 60 / 10)),
        (("14.4 V", "12 to 20 V"), "voltage_spare", (-3, 2.6)),
        (("14.4 V", "12 to 13 V"), "voltage_spare", (1, 2)),
    ],
)
def test_the_weakest_of_several_batteries_counts(
    change: tuple[str, str], name: str, value: tuple[float, float]
) -> None:
    """11 h at 40 W. The other has 100 Wh and 14.4 V (12 V when empty), and delivers 140 W."""
    found = rig('  day 11 h\n  battery "B2"\n', book=other(change)).amount(name)
    assert known_ends(found) == pytest.approx(value)


@pytest.mark.parametrize(
    ("change", "name", "value"),
    [
        (("voltage 14.4 V", ""), "voltage_spare", Amount(-math.inf, 2.6, ('battery "B2": voltage',))),
        (("voltage 14.4 V", "voltage ?"), "current", Amount(5, math.inf, ('battery "B2": voltage',))),
        (("delivers 140 W", ""), "draw_share", Amount(0, math.inf, ('battery "B2": delivers',))),
        (("delivers 140 W", "delivers ?"), "draw_share", Amount(0, math.inf, ('battery "B2": delivers',))),
        (("energy 100 Wh", ""), "energy", Amount(100 * HOUR, math.inf, ('battery "B2": energy',))),
        (("lithium-ion", "nickel"), "cold_share", Amount(0, 1)),
        (("  chemistry lithium-ion\n", ""), "cold_share", Amount(0, 1, ('battery "B2": chemistry',))),
    ],
)
def test_what_one_of_several_batteries_does_not_say_is_asked_of_it_alone(
    change: tuple[str, str], name: str, value: Amount
) -> None:
    found = rig('  site temperature 0 to 20 °C\n  battery "B2"\n', book=other(change)).amount(name)
    assert (found.low, found.high) == pytest.approx((value.low, value.high))
    assert found.missing == value.missing


def test_below_what_the_house_trusts_a_battery_gives_at_most_what_it_gives_there() -> None:
    assert known_ends(rig("  site temperature -25 to 0 °C\n").amount("cold_share")) == pytest.approx((0, 0.5))


def test_a_day_of_which_the_length_is_in_doubt() -> None:
    """2.5 h each: 5 h want two, 11 h want five."""
    assert rig("  day 5 to 11 h\n").amount("batteries_needed") == Amount(2, 5)
    assert rig("  day ?\n").amount("batteries_needed") == Amount(0, math.inf, ("rig A: day",))


@pytest.mark.parametrize("power", ["", "  power ?\n"])
def test_what_a_camera_runs_on_is_asked_for(power: str) -> None:
    found = rig(book=BOOK.replace("  power 11..17 V\n", power)).amount("voltage_spare")
    assert found == Amount(-math.inf, math.inf, ('camera "C": power',))


def test_without_a_camera_no_voltage_is_asked_about() -> None:
    kitlist = read_bytes(f'{BOOK}\nrig A\n  battery "B"\n'.encode())
    assert RigSubject(setting(kitlist), next(combinations(kitlist.rigs[0]))).value("voltage_spare") is None


@pytest.mark.parametrize(
    ("name", "lacks"),
    [
        ("runtime", ("energy", "chemistry", "draws")),
        ("batteries_needed", ("chemistry", "draws", "energy", "day")),
        ("draw_share", ("draws", "delivers")),
        ("current", ("draws", "voltage")),
    ],
)
def test_all_that_is_missing_is_named(name: str, lacks: tuple[str, ...]) -> None:
    book = 'part camera "C"\n  power 11..17 V\npart battery "B"\n  mass 1 kg\n'
    battery = 'battery "B"'
    whose = {"draws": 'camera "C"', "day": "rig A"}
    found = rig("  site temperature 0 to 20 °C\n", book=book).amount(name)
    assert found.missing == tuple(f"{whose.get(each, battery)}: {each}" for each in lacks)
