"""Several options looked at as one part, and the law that makes it sound: their hull holds each of them."""

from __future__ import annotations

import random
from operator import methodcaller
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.facts.boxes import Blends, boxes
from kitproof.facts.hulls import PINS, Blend, BlurredError, DiffersError, Watch, of_each
from kitproof.facts.outlines import mass_of
from kitproof.facts.registry import FACTS
from kitproof.facts.rig import RigSubject
from kitproof.facts.values import Amount
from kitproof.model.parts import Part
from kitproof.model.quantities import Interval, Reach
from kitproof.proofing.looking import Rigs
from kitproof.proofing.proof import setting_of
from kitproof.reading.document import Where
from kitproof.words.dimensions import LENGTH, MASS
from tests.facts.alternatives import kitlist
from tests.laws.lists import FEW
from tests.proofing.lists import DAY, book

HERE = Where("a", 1, 1, 1, 2)


def part(name: str, **fields: Any) -> Part:
    return Part(kind="accessory", name=name, where=HERE, **fields)


def kilograms(low: float, high: float | None = None) -> Interval:
    return Interval(float(low), float(low if high is None else high), MASS)


def blend(*parts: Part, watch: Watch | None = None) -> Blend:
    return Blend(4, range(len(parts)), parts, watch or Watch())


def test_numbers_that_differ_are_their_hull_and_it_is_noted() -> None:
    watch = Watch()
    mass = blend(part("a", mass=kilograms(1, 2)), part("b", mass=kilograms(3)), watch=watch).mass
    assert mass.low <= 1
    assert mass.low == pytest.approx(1, rel=1e-9)
    assert mass.high >= 3
    assert watch.blurred == {4}


def test_what_is_alike_is_that_and_nothing_is_noted() -> None:
    watch = Watch()
    both = blend(part("a", mass=kilograms(1)), part("b", mass=kilograms(1)), watch=watch)
    assert both.mass == kilograms(1)
    assert both.kind == "accessory"
    assert watch.blurred == set()


def test_what_differs_and_is_no_number_takes_the_line_apart() -> None:
    with pytest.raises(DiffersError) as name:
        _ = blend(part("a"), part("b"), part("a")).name
    assert (name.value.line, name.value.groups) == (4, ((0, 2), (1,)))


def test_a_number_that_is_not_known_for_some_takes_the_line_apart() -> None:
    with pytest.raises(DiffersError) as mass:
        _ = blend(part("a", mass=kilograms(1)), part("b"), part("c", mass=kilograms(2))).mass
    assert mass.value.groups == ((0, 2), (1,))


def test_reaches_are_never_taken_together() -> None:
    legs = [Reach(0.6, 1.6, LENGTH), Reach(0.4, 1.2, LENGTH)]
    with pytest.raises(DiffersError):
        _ = blend(*(part("a", legs=each) for each in legs)).legs


def test_what_is_missing_is_spelled_for_each_option() -> None:
    watch = Watch()
    both = blend(part("a"), part("b"), watch=watch)
    (low, high), (missing,) = mass_of(both)  # type: ignore[arg-type]  # stands in for a part
    assert (low, high) == (0, float("inf"))
    assert watch.blurred == set()
    assert watch.lines_in(missing) == [4]
    assert [watch.spelled(missing, (0, 0, 0, 0, pick)) for pick in (0, 1)] == [
        'accessory "a": mass',
        'accessory "b": mass',
    ]


def test_a_function_of_a_part_is_worked_out_for_each() -> None:
    @of_each
    def twice(each: Part) -> tuple[float, float]:
        assert each.mass is not None
        return (2 * each.mass.low, 2 * each.mass.high)

    low, high = twice(blend(part("a", mass=kilograms(1)), part("b", mass=kilograms(2, 4))))  # type: ignore[arg-type]  # stands in for a part
    assert (low, high) == pytest.approx((2, 8))


def test_pinned_a_number_is_one_of_those_that_it_may_be() -> None:
    for pin, expected in zip(PINS, (3, 1, 2), strict=True):
        one = Blend(0, (0,), (part("a", mass=kilograms(1, 3)),), Watch(), pin)
        assert one.mass == kilograms(expected)


def test_a_value_that_is_kept_is_noted_each_time() -> None:
    watch = Watch()
    known: dict[str, tuple[Any, frozenset[int]]] = {}

    def worked_out() -> float:
        watch.blurred.add(3)
        return 7.0

    for _ in range(2):
        watch.blurred = {1}
        assert watch.noted(known, "carried", worked_out) == 7.0
        assert watch.blurred == {1, 3}


def test_what_is_picked_by_its_size_is_not_given_of_a_hull() -> None:
    watch = Watch()
    assert watch.sharply(lambda: 1) == 1
    with pytest.raises(BlurredError):
        watch.sharply(lambda: watch.blurred.add(2))


@given(st.integers(0, 10**9))
@FEW
def test_each_fact_of_a_box_holds_that_of_each_combination(number: int) -> None:
    made = kitlist(random.Random(number), 12)
    rigs = Rigs(setting_of(made, book(), DAY), made.rigs[0])
    for box in boxes(rigs.rig):
        each = [RigSubject(rigs.plain, Blends(rigs.rig, Watch()).build(box.only(picks))) for picks in box.picks()]
        for name in FACTS["rig"]:
            for part_of_it, hull in rigs.structure([box], methodcaller("value", name)):
                singles = (one for one, picks in zip(each, box.picks(), strict=True) if part_of_it.holds(picks))
                for one in singles:
                    _held(name, hull, one.value(name))


def _held(name: str, hull: object, value: object) -> None:
    assert isinstance(hull, Amount) == isinstance(value, Amount), name
    if isinstance(hull, Amount) and isinstance(value, Amount):
        near = 1e-9 * max(1.0, *(abs(end) for end in (value.low, value.high) if abs(end) < 1e300), 1.0)
        assert hull.low <= value.low + near, name
        assert hull.high >= value.high - near, name
        assert bool(hull.missing) == bool(value.missing), name
