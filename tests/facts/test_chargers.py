"""How many batteries a day wants where those that have run down are charged again."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.facts.values import Amount, Words
from tests.facts.powered import BATTERY, BOOK, CAMERA, rig


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


SEVERAL = (
    BOOK
    + """
part charger "One-way"
  mass 1 kg
  charges at once 1
  charges in 4 h

part charger "Quick"
  mass 1 kg
  charges at once 1
  charges in 1 h
"""
)
ORDER_LOST = "order line 35, which could not be read"


@pytest.mark.parametrize(
    ("after", "wanted", "words"),
    [
        ('order\n  1 x "One-way"\n', Amount(4, 4), '1 x "One-way"'),
        ('order\n  2 x "One-way"\n', Amount(3, 3), '2 x "One-way"'),
        ('order\n  1 x "One-way"\n  4 x "B"\n', Amount(4, 4), '1 x "One-way"'),
        ('order\n  1 x "One-way"\ncase "k"\n  holds 2 x "One-way"\n', Amount(3, 3), '2 x "One-way"'),
        ('order\n  2 x "One-way"\ncase "k"\n  holds 1 x "One-way"\n', Amount(3, 3), '2 x "One-way"'),
        ('order\n  1 x "One-way"\n  1 x "Quick"\n', Amount(2, 3), '1 x "One-way" and 1 x "Quick"'),
        (
            'order\n  1 x "One-way"\n  1 x "Quick"\n  3 x "Two-way"\n',
            Amount(2, 3),
            '3 x "Two-way", 1 x "One-way" and 1 x "Quick"',
        ),
        ('order\n  1 x "One-way"\n  ; more\n', Amount(1, 4, (ORDER_LOST,)), '1 x "One-way"'),
        ("order\n  ; more\n", Amount(1, 5, (ORDER_LOST.replace("35", "34"),)), "no charger"),
        (
            'case "k"\n  holds "One-way"\n  ; more\n',
            Amount(1, 4, ('case "k": line 35, which could not be read',)),
            '1 x "One-way"',
        ),
    ],
)
def test_chargers_that_go_out_are_ordered_or_at_least_packed(after: str, wanted: Amount, words: str) -> None:
    """Five times 2.5 h in a day of 11 h. Charged one at a time in 4 h, one is full at 6.5 h, the next at 10.5 h:
    too late for three, which begin again at 7.5 h and at 10 h. With two places the second is full at 9 h. In 1 h each
    is full again before the other is down. A line that could not be read may be any number of chargers, however quick.
    """
    found = rig("  day 11 h\n", book=SEVERAL, after=after)
    assert found.amount("batteries_charging") == wanted
    assert found.value("chargers") == Words(words)


@pytest.mark.parametrize(
    ("other", "wanted"),
    [
        ('  camera "C"\n', Amount(3, 3)),
        ('  camera "C"\n  ; more\n', Amount(3, 5, ("rig B: line 27, which could not be read",))),
        ('  battery "B"\n  ; more\n', Amount(3, 5)),
        ('  instead of A\n  camera "C"\n  ; more\n', Amount(3, 3)),
        ('  dates 2027-03-01..2027-03-02\n  battery "B"\n', Amount(3, 3)),
    ],
)
def test_a_rig_that_stands_at_the_same_time_charges_too_where_it_has_batteries(other: str, wanted: Amount) -> None:
    """A line of it that could not be read may be a battery."""
    text = "  day 11 h\n  dates 2027-03-05..2027-03-06\n" if "dates" in other else "  day 11 h\n"
    assert rig(text, after=f'order\n  1 x "Two-way"\nrig B\n{other}').amount("batteries_charging") == wanted


def test_where_no_charger_goes_out_another_rig_takes_none_of_its_places() -> None:
    assert rig("  day 11 h\n", after='rig B\n  camera "C"\n  ; more\n').amount("batteries_charging") == Amount(5, 5)


@pytest.mark.parametrize(
    ("line", "wanted"),
    [
        ("charges in ?", Amount(1, 5, ('charger "Two-way": charges in',))),
        ("", Amount(1, 5, ('charger "Two-way": charges in',))),
        ("charges in 3 to 6 h", Amount(3, 4)),
    ],
)
def test_how_long_a_charge_takes(line: str, wanted: Amount) -> None:
    """6 h on two places: the first two are full at 8.5 h and 11 h, in time for four but not for three."""
    book = BOOK.replace("charges in 3 h", line)
    assert rig("  day 11 h\n", book=book, after='order\n  1 x "Two-way"\n').amount("batteries_charging") == wanted


def test_all_that_is_missing_is_named() -> None:
    book = CAMERA + BATTERY.replace("  energy 100 Wh\n", "") + 'part charger "Two-way"\n  mass 2 kg\n'
    found = rig(book=book, after='order\n  1 x "Two-way"\n  ; more\nrig B\n  ; more\n')
    assert found.amount("batteries_charging").missing == (
        'battery "B": energy',
        "rig A: day",
        'charger "Two-way": charges in',
        'charger "Two-way": charges at once',
        "order line 20, which could not be read",
        "rig B: line 22, which could not be read",
    )


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
