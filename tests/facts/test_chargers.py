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
