"""Several options looked at as one part, and the law that makes it sound: their hull holds each of them."""

from __future__ import annotations

import random
from operator import methodcaller
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.facts.boxes import Blends, boxes
from kitproof.facts.hulls import OPEN, PINNED, PINS, Blend, BlurredError, DiffersError, Watch, of_each, open_place
from kitproof.facts.outlines import mass_of
from kitproof.facts.registry import FACTS
from kitproof.facts.rig import RigSubject
from kitproof.facts.values import Amount
from kitproof.model.parts import Draw, Part, Point, Seat
from kitproof.model.quantities import Interval, Reach, Spot
from kitproof.proofing.looking import Rigs
from kitproof.proofing.proof import setting_of
from kitproof.reading.document import Where
from kitproof.words.dimensions import LENGTH, MASS, POWER
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
    assert twice(part("c", mass=kilograms(3, 4))) == (6, 8)


def test_a_function_of_each_part_does_not_see_their_hull() -> None:
    @of_each
    def doubt(each: Part) -> float:
        assert each.mass is not None
        return each.mass.high - each.mass.low

    assert doubt(blend(part("a", mass=kilograms(1)), part("b", mass=kilograms(4)))) == 0  # type: ignore[arg-type]  # stands in for a part


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ((0.0, 1.0), (-float("inf"), 1.0)),
        ((0.0, 1.0), (0.0, float("inf"))),
        ((0.0, 1.0), None),
        ("a word", None),
        (("a word",), ("a word", "another")),
        (1.0, 2.0),
    ],
)
def test_what_functions_give_is_taken_together_only_where_it_is_of_one_kind(one: object, other: object) -> None:
    both = blend(part("a"), part("b"))
    with pytest.raises(DiffersError) as why:
        both.of(lambda each: one if each.name == "a" else other)
    assert why.value.groups == ((0,), (1,))


def test_the_place_of_any_of_a_line_says_which_line() -> None:
    assert (open_place(3).path, open_place(3).line) == (OPEN, 3)
    assert PINNED < 0, "no line has that number"


def test_pinned_a_number_is_one_of_those_that_it_may_be() -> None:
    for pin, expected in zip(PINS, (3, 1, 2), strict=True):
        one = Blend(0, (0,), (part("a", mass=kilograms(1, 3)),), Watch(), pin)
        assert one.mass == kilograms(expected)


def test_a_hull_is_wider_than_what_it_holds_by_a_hair_on_both_sides() -> None:
    for low, high in ((2.0, 5.0), (-5.0, -2.0), (-5.0, 5.0), (3e6, 5e6)):
        middle = (low + high) / 2
        both = blend(part("a", mass=kilograms(low, middle)), part("b", mass=kilograms(middle, high))).mass
        assert both.low < low < middle < high < both.high
        assert both.range == pytest.approx((low, high), rel=1e-11)
    both = blend(part("a", mass=kilograms(0)), part("b", mass=kilograms(1))).mass
    assert both.low == 0, "what cannot be negative does not become so"


def test_what_has_no_end_for_any_option_has_none_for_all() -> None:
    endless = float("inf")
    both = blend(*(part("a", mass=kilograms(low, endless)) for low in (1, 2))).mass
    assert both.low == pytest.approx(1)
    assert both.high == endless
    assert both.known
    assert both.dimension is MASS


AT = Spot(forward=(0.1, 0.2))
DIFFERENT: list[tuple[str, Any, Any]] = [
    ("mass", kilograms(1), kilograms(1, float("inf"))),
    ("mass", kilograms(1), Interval(0.0, 0.0, MASS, known=False)),
    ("sits_on", (Seat(family="bowl", size="100 mm"),), (Seat(family="bowl", size="75 mm"),)),
    ("sits_on", (Seat(family="flat", size=""),), (Seat(family="flat", size=""),) * 2),
    ("takes", (Seat(family="flat", size=""),), (Seat(family="flat", size="", at=AT),)),
    ("takes", (), (Seat(family="flat", size=""),)),
    ("made_of", ("steel",), ("carbon",)),
    ("chart", (Point(value=kilograms(1), where=HERE),), (Point(value=kilograms(2), where=HERE),)),
    ("cog", Spot(), Spot(forward=(-float("inf"), float("inf")))),
    ("draws", Draw(usual=Interval(1.0, 1.0, POWER)), Draw(usual=Interval(1.0, 1.0, POWER), most=kilograms(2))),
    ("needs_support", True, False),
    ("have", 1, 2),
    ("tag", {"colour": "red"}, {"colour": "green"}),
]


@pytest.mark.parametrize(("field", "one", "other"), DIFFERENT)
def test_what_differs_in_more_than_numbers_takes_the_line_apart(field: str, one: Any, other: Any) -> None:
    watch = Watch()
    parts = [part("a", **{field: value}) for value in (other, one, other)]
    with pytest.raises(DiffersError) as why:
        getattr(blend(*parts, watch=watch), field)
    assert why.value.groups == ((0, 2), (1,))
    assert watch.blurred == set()


LENGTHS = Interval(1.0, 2.0, LENGTH), Interval(3.0, 4.0, LENGTH)
TOGETHER: list[tuple[str, Any, Any, Any]] = [
    ("size", LENGTHS, LENGTHS[::-1], (Interval(1.0, 4.0, LENGTH),) * 2),
    ("cog", AT, Spot(forward=(0.3, 0.3), up=(-0.1, 0.1)), Spot(forward=(0.1, 0.3), up=(-0.1, 0.1))),
    (
        "takes",
        (Seat(family="flat", size="", at=AT),),
        (Seat(family="flat", size="", at=Spot(left=(0.5, 0.5))),),
        (Seat(family="flat", size="", at=Spot(forward=(0.0, 0.2), left=(0.0, 0.5))),),
    ),
    (
        "draws",
        Draw(usual=Interval(1.0, 1.0, POWER), most=Interval(5.0, 5.0, POWER)),
        Draw(usual=Interval(2.0, 2.0, POWER), most=Interval(5.0, 5.0, POWER)),
        Draw(usual=Interval(1.0, 2.0, POWER), most=Interval(5.0, 5.0, POWER)),
    ),
]


@pytest.mark.parametrize(("field", "one", "other", "hull"), TOGETHER)
def test_numbers_inside_of_what_is_alike_are_their_hull(field: str, one: Any, other: Any, hull: Any) -> None:
    watch = Watch()
    found = getattr(blend(part("a", **{field: one}), part("b", **{field: other}), watch=watch), field)
    assert flat(found) == pytest.approx(flat(hull), rel=1e-9)
    assert type(found) is type(hull)
    assert watch.blurred == {4}


def flat(value: Any) -> list[float]:
    """All numbers in a value, in order."""
    if isinstance(value, float):
        return [value]
    if isinstance(value, tuple):
        return [each for inner in value for each in flat(inner)]
    fields = getattr(value, "__struct_fields__", ())
    return [each for name in fields for each in flat(getattr(value, name))]


def test_words_differ_and_no_number() -> None:
    """Of a function's value the words are spelled for each option, beside numbers that count as looked at."""
    watch = Watch()
    both = blend(part("a", mass=kilograms(1)), part("a", mass=kilograms(2)), part("b", mass=kilograms(2)), watch=watch)
    assert "\0" in both.of(lambda each: (each.name, ("the", each.name), 1))[1][1]
    assert watch.blurred == set()
    assert both.of(lambda each: (1.0, each.name))[0] == 1.0
    number, name = both.of(lambda each: ((each.mass.low, each.mass.low) if each.mass else (0.0, 0.0), each.name))
    assert number == pytest.approx((1, 2))
    assert watch.spelled(f"of {name}", (0, 0, 0, 0, 2)) == "of b"
    assert watch.blurred == {4}


def test_a_value_that_is_looked_at_again_is_noted_again() -> None:
    watch = Watch()
    both = blend(part("a", mass=kilograms(1)), part("b", mass=kilograms(2)), watch=watch)
    for _ in range(2):
        watch.blurred = {9}
        _ = both.mass
        assert watch.blurred == {9, 4}


def test_a_part_is_spelled_for_each_option() -> None:
    watch = Watch()
    both = blend(part("a"), part("b"), watch=watch)
    found = [[watch.spelled(text, (0, 0, 0, 0, pick)) for pick in (0, 1)] for text in (both.label, both.lacks("mass"))]
    assert found == [['accessory "a"', 'accessory "b"'], ['accessory "a": mass', 'accessory "b": mass']]
    assert watch.spelled("nothing of theirs", ()) == "nothing of theirs"
    assert watch.lines_in(f"{both.label} and {both.lacks('mass')}") == [4, 4]
    assert both.label == watch.text(4, {0: 'accessory "a"', 1: 'accessory "b"'}), "the same words are the same text"
    assert both.label != watch.text(3, {0: 'accessory "a"', 1: 'accessory "b"'})


def test_a_part_has_no_more_than_a_part_has_and_a_field_is_blank_for_all_or_taken_apart() -> None:
    assert not hasattr(blend(part("a"), part("b")), "weight")
    assert not hasattr(blend(part("a"), part("b")), "__struct_fields__"), "it is no record, to be copied field by field"
    read, unread = part("a"), part("a", unread=frozenset({"mass"}))
    assert blend(unread, unread).blank("mass") is True
    assert blend(read, read).blank("mass") is False
    with pytest.raises(DiffersError):
        blend(read, unread).blank("mass")


PINNED_TO: list[tuple[tuple[float, float], tuple[float, float, float]]] = [
    ((1, 3), (3, 1, 2)),
    ((-1, 3), (3, -1, 0)),
    ((0, 4), (4, 0, 0)),
    ((-4, 0), (0, -4, 0)),
    ((-7, -3), (-3, -7, -5)),
    ((2, float("inf")), (1_000_002, 2, 3)),
]


@pytest.mark.parametrize(("ends", "expected"), PINNED_TO)
def test_pins_are_the_highest_the_lowest_and_nothing_or_one_between(
    ends: tuple[float, float], expected: tuple[float, float, float]
) -> None:
    assert tuple(pin(*ends) for pin in PINS) == expected


def pinned(field: str, value: Any, pin: int = 0) -> tuple[Any, set[int]]:
    watch = Watch()
    one = Blend(4, (0,), (part("a", **{field: value}),), watch, PINS[pin])
    return getattr(one, field), watch.blurred


def test_every_number_in_doubt_is_pinned_and_it_is_noted() -> None:
    assert pinned("size", LENGTHS) == ((Interval(2.0, 2.0, LENGTH), Interval(4.0, 4.0, LENGTH)), {PINNED})
    assert pinned("cog", AT)[0] == Spot(forward=(0.2, 0.2))
    seat = Seat(family="flat", size="", at=AT)
    assert pinned("takes", (seat,))[0] == (Seat(family="flat", size="", at=Spot(forward=(0.2, 0.2))),)
    draws = Draw(usual=Interval(1.0, 2.0, POWER), most=Interval(3.0, 5.0, POWER))
    assert pinned("draws", draws)[0] == Draw(usual=Interval(2.0, 2.0, POWER), most=Interval(5.0, 5.0, POWER))


def test_what_is_sharp_a_reach_or_not_known_at_all_stays_as_it_is() -> None:
    endless = float("inf")
    for field, value in (
        ("mass", kilograms(1)),
        ("mass", Interval(0.0, endless, MASS, known=False)),
        ("mass", Interval(0.0, 1.0, MASS, known=False)),
        ("legs", Reach(0.6, 1.6, LENGTH)),
        ("cog", Spot(forward=(-endless, endless))),
        ("mass", Interval(-endless, endless, MASS)),
    ):
        assert pinned(field, value) == (value, set())


def test_alternatives_that_are_pinned_are_the_hull_of_what_each_is_pinned_to() -> None:
    watch = Watch()
    both = Blend(4, (0, 1), (part("a", mass=kilograms(1, 2)), part("b", mass=kilograms(3, 4))), watch, PINS[1])
    assert both.mass.range == pytest.approx((1, 3))
    assert watch.blurred == {4, PINNED}


def test_a_value_that_is_kept_is_noted_each_time() -> None:
    watch = Watch()
    known: dict[str, tuple[Any, frozenset[int]]] = {}

    times: list[int] = []

    def worked_out() -> float:
        times.append(1)
        watch.blurred.add(3)
        return 7.0

    for _ in range(2):
        watch.blurred = {1}
        assert watch.noted(known, "carried", worked_out) == 7.0
        assert watch.blurred == {1, 3}
    assert times == [1], "it is worked out once"


def test_what_is_picked_by_its_size_is_not_given_of_a_hull() -> None:
    watch = Watch()
    watch.blurred = {1}
    assert watch.sharply(lambda: 7) == 7
    with pytest.raises(BlurredError) as why:
        watch.sharply(lambda: watch.blurred.add(2))
    assert why.value.lines == {2}
    assert watch.blurred == {1}, "what was looked at in vain is not looked at"


def test_a_value_that_cannot_be_worked_out_is_not_kept_nor_noted() -> None:
    watch = Watch()
    known: dict[str, tuple[Any, frozenset[int]]] = {}

    def in_vain() -> float:
        watch.blurred.add(3)
        raise DiffersError(2, [])

    watch.blurred = {1}
    with pytest.raises(DiffersError):
        watch.noted(known, "carried", in_vain)
    assert watch.blurred == {1}
    assert known == {}


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
