"""The facts against a second implementation, written from the design alone, on random lists, the same each time.

`python -m tests.second.compare` does ten thousand rigs; here it is some seventy.
"""

from __future__ import annotations

import random
from fractions import Fraction

import pytest

from tests.second.agreeing import near, same
from tests.second.compare import some
from tests.second.corners import Term
from tests.second.described import Figure, Part, Quantity, Range
from tests.second.heads import Curve, head_of, lower, upper
from tests.second.shares import load_and_safe_share

FIRST = 5_000
"""The number of the first list; not among those of the long comparison's usual run."""


@pytest.mark.parametrize("first", range(FIRST, FIRST + 40, 10))
def test_both_implementations_agree(first: int) -> None:
    tally = some(range(first, first + 10))
    assert tally.differ == []
    assert tally.rigs >= 10
    named = (
        "load_share",
        "slide_needed",
        "mates",
        "used_at_once",
        "torque_left",
        "tip_angle_tilted",
        "stage left_over",
    )
    assert min(tally.compared[name] for name in named) > 0
    assert tally.compared["tip_angle_level"] + tally.compared["tip_angle_level, within"] >= 10


def test_a_difference_is_seen() -> None:
    """The comparison can fail: at the tolerance, and at an end without bound."""
    assert near(1.0, Fraction(1), 1.0)
    assert not near(1.0 + 3e-9, Fraction(1), 1.0)
    assert not near(float("inf"), Fraction(1), 1.0)
    assert not same(None, (Fraction(0), Fraction(0)), 1.0)


def _some_head(chance: random.Random) -> Part:
    def sharp(low: int, high: int) -> Quantity:
        number = Fraction(chance.randint(low, high), 1000)
        return Quantity("", number, number)

    chart = tuple(Figure(sharp(2000, 20000), sharp(100 * n, 100 * n + 80)) for n in range(1, chance.randint(2, 4)))
    tried = (Figure(sharp(2000, 20000), sharp(50, 700)),) if chance.random() < 0.4 else ()
    rated = Figure(sharp(4000, 20000)) if chance.random() < 0.4 else None
    return Part("head", "", chart=chart if chance.random() < 0.8 else (), rated=rated, tried=tried)


def _some_terms(chance: random.Random) -> list[Term]:
    def between(low: int, high: int) -> Range:
        ends = sorted(Fraction(chance.randint(low, high), 1000) for _ in range(2))
        return (ends[0], ends[1])

    return [Term(between(0, 6000), between(-150, 500)) for _ in range(chance.randint(1, 4))]


def _scanned(terms: list[Term], curve: Curve, chance: random.Random) -> list[float]:
    """Shares at many points within the box of masses and places, its faces among them."""
    found = []
    for _ in range(150):
        picked = [(_pick(term.mass, chance), _pick(term.place, chance)) for term in terms]
        mass = sum(m for m, _ in picked)
        if mass > 0:
            held = float(curve.at(Fraction(sum(m * r for m, r in picked) / mass)))
            found.append(mass / held if held > 0 else float("inf"))
    return found


def _pick(ends: Range, chance: random.Random) -> float:
    low, high = float(ends[0]), float(ends[1])
    return min(max(chance.uniform(low - 0.3 * (high - low), high + 0.3 * (high - low)), low), high)


@pytest.mark.parametrize("number", range(60))
def test_the_shares_of_the_second_hold_every_point_of_a_scan(number: int) -> None:
    """What the second takes from a hull is held to the plain meaning of the share, point by point."""
    chance = random.Random(number)
    terms, head = _some_terms(chance), head_of(_some_head(chance))
    least, most = lower(head), upper(head)
    load, safe = load_and_safe_share(terms, least, most)
    assert load[1] == safe[1]
    assert all(each <= float(safe[1]) * (1 + 1e-9) for each in _scanned(terms, least, chance))
    for curve, ends in ((most, load[0]), (least, safe[0])):
        assert all(each >= float(ends) * (1 - 1e-9) for each in _scanned(terms, curve, chance))
