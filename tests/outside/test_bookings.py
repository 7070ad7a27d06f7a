"""Bookings over a season against an independent count: numpy's running sum of what begins and what has ended."""

from __future__ import annotations

import random
from datetime import date, timedelta

import numpy as np
import pytest

from kitproof.mechanics.bookings import Booking, clashes, promised_at_most

FIRST = date(2027, 1, 1)
SEASON = 200


def orders(seed: int) -> list[tuple[int, int, int]]:
    """Forty bookings: first day, last day, how many."""
    chance = random.Random(seed)
    made = []
    for _ in range(40):
        first = chance.randrange(SEASON - 21)
        made.append((first, first + chance.randrange(1, 21), chance.randint(1, 3)))
    return made


@pytest.mark.parametrize("seed", range(20))
def test_a_season_of_forty_orders(seed: int) -> None:
    made = orders(seed)
    change = np.zeros(SEASON + 1, dtype=int)
    for first, last, number in made:
        change[first] += number
        change[last + 1] -= number
    promised = np.cumsum(change)[:SEASON]
    booked = [
        Booking(FIRST + timedelta(days=first), FIRST + timedelta(days=last), (number, number))
        for first, last, number in made
    ]
    assert promised_at_most(booked) == (promised.max(), promised.max())
    owned = int(promised.max()) - 2
    found = clashes(booked, (owned, owned))
    over = np.zeros(SEASON, dtype=bool)
    for clash in found:
        assert clash.first is not None
        assert clash.last is not None
        days = slice((clash.first - FIRST).days, (clash.last - FIRST).days + 1)
        assert clash.promised == promised[days].max()
        over[days] = True
    assert found
    assert (over == (promised > owned)).all()
