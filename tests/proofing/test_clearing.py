"""The smallest change that clears a finding, held to trying every set of alternatives."""

from __future__ import annotations

import itertools
import random

from hypothesis import given
from hypothesis import strategies as st

from kitproof.model.parts import Part
from kitproof.model.quantities import Spot
from kitproof.model.rigs import Option, Rig, Site, SlotLine
from kitproof.proofing.clearing import cleared
from kitproof.proofing.findings import Cleared, LeftOut
from kitproof.proofing.hits import Choices
from kitproof.reading.document import Where

HERE = Where("a", 1, 1, 1, 2)


def rig(*counts: int, none: bool = False) -> Rig:
    """A rig with so many alternatives of each line: A0, A1 … B0 …; with `none` the last of each leaves it empty."""
    lines = []
    for number, many in enumerate(counts):
        names = [f"{'ABCD'[number]}{option}" for option in range(many)]
        parts = [Part(kind="accessory", name=name, where=HERE) for name in names]
        found = [*parts[:-1], None] if none else parts
        options = tuple(Option(part=part, where=HERE) for part in found)
        lines.append(SlotLine(slot="accessory", options=options, where=HERE, at=Spot()))
    return Rig(name="A", where=HERE, lines=tuple(lines), site=Site())


def without(*names: str, smallest: bool = True) -> Cleared:
    return Cleared(tuple(LeftOut("accessory", name) for name in names), smallest)


def single(*picks: int) -> Choices:
    return tuple((pick,) for pick in picks)


def test_one_alternative_that_they_all_have() -> None:
    assert cleared(rig(2, 3), [single(0, 1), single(1, 1)]) == without("B1")


def test_of_a_box_all_of_whose_combinations_have_it() -> None:
    assert cleared(rig(2, 3), [((0, 1), (2,))]) == without("B2")


def test_the_line_that_leaves_most_to_choose_from_is_the_first() -> None:
    assert cleared(rig(2, 3), [single(1, 1)]) == without("B1")


def test_two_of_one_line_or_of_two() -> None:
    assert cleared(rig(2, 3), [((0, 1), (1, 2))]) == without("B1", "B2")
    assert cleared(rig(3, 3), [((0,), (0, 1, 2)), ((1, 2), (1,))]) == without("A0", "B1")


def test_leaving_a_slot_empty_is_an_alternative_too() -> None:
    assert cleared(rig(2, 3, none=True), [single(0, 2), single(1, 2)]) == without("none")


def test_a_line_that_falls_away_clears_nothing() -> None:
    assert cleared(rig(2, 3), [((), (1,)), ((0,), (1,))]) == without("B1")


def test_one_alternative_of_each_line_stays() -> None:
    assert cleared(rig(2, 2), [((0, 1), (0, 1))]) is None


def test_more_than_two_are_said_to_be_perhaps_not_the_fewest() -> None:
    assert cleared(rig(4), [single(0), single(1), single(2)]) == without("A0", "A1", "A2", smallest=False)


@given(st.integers(0, 10**9))
def test_it_clears_and_no_fewer_do(number: int) -> None:
    chance = random.Random(number)
    counts = [chance.randint(1, 3) for _ in range(chance.randint(1, 3))]
    every = list(itertools.product(*(range(many) for many in counts)))
    met = chance.sample(every, chance.randint(1, len(every)))
    found = cleared(rig(*counts), [single(*each) for each in met])
    alternatives = [(line, option) for line, many in enumerate(counts) for option in range(many)]
    fewest = next(
        (
            size
            for size in range(1, len(alternatives))
            for gone in itertools.combinations(alternatives, size)
            if _clears(gone, met, counts)
        ),
        None,
    )
    if found is None:
        assert fewest is None
        return
    gone = [(ord(each.name[0]) - ord("A"), int(each.name[1:])) for each in found.without]
    assert _clears(gone, met, counts)
    assert found.smallest == (len(gone) <= 2)
    assert fewest is not None
    assert len(gone) == fewest if found.smallest else fewest > 2


def _clears(gone: object, met: list[tuple[int, ...]], counts: list[int]) -> bool:
    """Whether none is left of what was met, and something of every line."""
    assert isinstance(gone, list | tuple)
    stay = all(any((line, option) not in gone for option in range(many)) for line, many in enumerate(counts))
    return stay and all(any((line, option) in gone for line, option in enumerate(each)) for each in met)
