"""Combinations in boxes: every one in just one of them, with the same lines standing in all of a box."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.facts.boxes import Blends, Box, boxes, build_at, count, holding
from kitproof.facts.build import picked
from kitproof.facts.hulls import Blend, DiffersError, Watch, open_place
from kitproof.model.parts import Part
from kitproof.model.quantities import Interval
from kitproof.model.rigs import Option, Rig, Site, SlotLine
from kitproof.reading.document import Where
from kitproof.words.dimensions import MASS

LineOf = tuple[tuple[str | None, ...], tuple[str, ...]]
"""The names to choose from on a line, None for `none`, and those that it is there only with."""

MASSES = {"a": 1.0, "b": 2.0, "c": 4.0, "d": 8.0}


def rig(*lines: LineOf, slots: tuple[str, ...] = ()) -> Rig:
    """A rig with these lines; their slots are `accessory` where none are given."""
    made = []
    for number, (names, only_with) in enumerate(lines, start=1):
        options = tuple(Option(part=part(name), where=place(number, at)) for at, name in enumerate(names))
        slot = slots[number - 1] if slots else "accessory"
        made.append(SlotLine(slot=slot, options=options, where=place(number), only_with=only_with))
    return Rig(name="A", where=place(0), lines=tuple(made), site=Site())


def part(name: str | None) -> Part | None:
    if name is None:
        return None
    return Part(kind="accessory", name=name, where=place(99), mass=Interval(MASSES[name], MASSES[name], MASS))


def place(line: int, at: int = 0) -> Where:
    return Where("a", line, at, line, at + 1)


def names_at(of: Rig, box: Box, picks: tuple[int, ...]) -> list[str]:
    """The names of what stands with these options chosen."""
    return [each.part.name for each in build_at(of, picks, box.stands).standing]


# A box


BOX = Box(((0, 2), (1,), (3, 4, 5)), (True, False, True))


def test_a_box_has_every_choice_of_each_line_with_every_one_of_the_others() -> None:
    assert BOX.size == 6
    assert list(BOX.picks()) == [(0, 1, 3), (0, 1, 4), (0, 1, 5), (2, 1, 3), (2, 1, 4), (2, 1, 5)]
    assert BOX.first == (0, 1, 3)
    assert BOX.choices == ((0, 2), (), (3, 4, 5)), "no choice of a line that falls away"
    every = product(range(4), range(3), range(7))
    assert [each for each in every if BOX.holds(each)] == list(BOX.picks())


def test_parts_of_a_box() -> None:
    assert BOX.having(0, [2]) == Box(((2,), (1,), (3, 4, 5)), BOX.stands)
    assert BOX.having(2, [3, 5]) == Box(((0, 2), (1,), (3, 5)), BOX.stands)
    assert BOX.only((2, 1, 4)) == Box(((2,), (1,), (4,)), BOX.stands)
    assert BOX.at({2, 0}, (2, 5)) == Box(((2,), (1,), (5,)), BOX.stands)
    assert BOX.at([2, 0], (2, 5)) == BOX.at([0, 2], (2, 5)), "the options are those of the lines from the first on"


# All combinations in boxes


ALONE: tuple[str, ...] = ()
TABLE: list[tuple[list[LineOf], list[Box]]] = [
    ([], [Box((), ())]),
    ([(("a", "b"), ALONE), (("c", None), ALONE)], [Box(((0, 1), (0, 1)), (True, True))]),
    (
        [(("a", None), ALONE), (("b", "c"), ("a",))],
        [Box(((0,), (0, 1)), (True, True)), Box(((1,), (0,)), (True, False))],
    ),
    (
        [(("a", "b", "c", None), ALONE), (("d",), ("b",))],
        [Box(((0, 2, 3), (0,)), (True, False)), Box(((1,), (0,)), (True, True))],
    ),
    (  # the last stands with the second, which stands with the first
        [(("a", "b"), ALONE), (("c", "d"), ("a",)), (("b", "d"), ("c",))],
        [
            Box(((0,), (0,), (0, 1)), (True, True, True)),
            Box(((0,), (1,), (0,)), (True, True, False)),
            Box(((1,), (0,), (0,)), (True, False, False)),
        ],
    ),
]


@pytest.mark.parametrize(("lines", "expected"), TABLE)
def test_options_are_apart_only_where_another_line_stands_or_not_for_them(
    lines: list[LineOf], expected: list[Box]
) -> None:
    assert boxes(rig(*lines)) == expected


NAMES = st.lists(st.sampled_from(["a", "b", "c", None]), min_size=1, max_size=3, unique=True).map(tuple)
LINES = st.lists(st.tuples(NAMES, st.lists(st.sampled_from("abc"), max_size=2).map(tuple)), max_size=4)


@given(LINES)
def test_each_combination_is_in_one_box_and_stands_as_it_does_alone(lines: list[LineOf]) -> None:
    """Held to going through all combinations one by one."""
    made = rig(*lines)
    found = {}
    for box in boxes(made):
        for picks in box.picks():
            key = tuple(pick if kept else -1 for pick, kept in zip(picks, box.stands, strict=True))
            assert key not in found
            found[key] = build_at(made, picks, box.stands)
    assert found == dict(picked(made))
    assert count(made) == len(found)


# Those in which a part stands


@given(LINES, st.sampled_from("abc"))
def test_a_part_stands_in_all_of_the_boxes_that_hold_it_and_in_no_other(lines: list[LineOf], name: str) -> None:
    made = rig(*lines)
    for box in boxes(made):
        found = [picks for each in holding(made, box, name) for picks in each.picks()]
        assert sorted(found) == [picks for picks in box.picks() if name in names_at(made, box, picks)]
        assert all(each.size and each.stands == box.stands for each in holding(made, box, name))


def test_a_part_on_two_lines_is_looked_for_on_the_second_where_the_first_has_another() -> None:
    made = rig((("a", "b"), ALONE), (("b", "c"), ALONE))
    (box,) = boxes(made)
    assert holding(made, box, "b") == [Box(((1,), (0, 1)), box.stands), Box(((0,), (0,)), box.stands)]
    assert holding(made, box, "d") == []


# Builds of boxes


def test_a_line_with_several_options_stands_as_a_blend_of_them() -> None:
    made = rig((("a", "b"), ALONE), (("c",), ALONE), ((None,), ALONE))
    (box,) = boxes(made)
    watch = Watch()
    build = Blends(made, watch).build(box)
    assert build.rig is made
    assert build.choice == ()
    both, one = build.standing
    assert one == build_at(made, box.first, box.stands).standing[1]
    assert (both.line, both.where) == (made.lines[0], open_place(0))
    assert isinstance(both.part, Blend)
    assert both.part.mass is not None
    assert both.part.mass.range == pytest.approx((1, 2))
    assert watch.blurred == {0}


def test_a_line_that_falls_away_does_not_stand_in_the_build() -> None:
    made = rig((("a", None), ALONE), (("b", "c"), ("a",)))
    with_it, without = boxes(made)
    blends = Blends(made, Watch())
    assert [each.line for each in blends.build(with_it).standing] == list(made.lines)
    assert blends.build(without).standing == ()


def test_a_blend_of_the_same_options_is_the_same_in_each_box() -> None:
    made = rig((("a", "b"), ALONE), (("c", "d"), ALONE))
    (box,) = boxes(made)
    blends = Blends(made, Watch())
    whole, part_of_it = blends.build(box), blends.build(box.having(1, [0]))
    assert whole.standing[0] is part_of_it.standing[0]
    assert whole.standing[1] is not part_of_it.standing[1]


def test_pinned_even_a_part_without_alternatives_is_one_that_it_may_be() -> None:
    made = rig((("a",), ALONE))
    (box,) = boxes(made)
    (standing,) = Blends(made, Watch(), lambda low, high: 7.0).build(box).standing
    assert standing.where == made.lines[0].options[0].where
    assert standing.part.mass == Interval(7.0, 7.0, MASS)


# Builds of which it is open what stands


def unsettled(*lines: LineOf, slots: tuple[str, ...]) -> tuple[Rig, Box, Blends]:
    made = rig(*lines, slots=slots)
    (box,) = boxes(made)
    return made, box, Blends(made, Watch())


def test_what_stands_for_certain_can_be_asked_for_where_it_is_open_if_another_does() -> None:
    made, box, blends = unsettled(
        (("a", None), ALONE),
        ((None,), ALONE),
        (("c",), ALONE),
        (("d",), ALONE),
        slots=("slide", "base", "base", "base"),
    )
    build = blends.build(box)
    assert build.rig is made
    assert build.first("base") == build_at(made, (0, 0, 0, 0), box.stands).standing[1]
    assert build.first("camera") is None


def test_where_it_is_open_what_is_first_in_a_slot_the_line_is_taken_apart() -> None:
    _, box, blends = unsettled((("a", None, "b"), ALONE), (("c",), ALONE), slots=("base", "base"))
    with pytest.raises(DiffersError) as why:
        blends.build(box).first("base")
    assert (why.value.line, why.value.groups) == (0, ((0, 2), (1,)))


def test_what_stands_before_an_open_line_is_first_whatever_the_line_has() -> None:
    _, box, blends = unsettled((("c",), ALONE), (("a", None), ALONE), slots=("base", "base"))
    found = blends.build(box).first("base")
    assert found is not None
    assert found.part.name == "c"


@pytest.mark.parametrize("asked", ["standing", "chain", "above", "choice"])
def test_all_that_stands_takes_the_first_open_line_apart(asked: str) -> None:
    lines = ((("c",), ALONE), ((None, "b", None), ALONE), (("a", None), ALONE))
    _, box, blends = unsettled(*lines, slots=("head", "base", "camera"))
    with pytest.raises(DiffersError) as why:
        getattr(blends.build(box), asked)
    assert (why.value.line, why.value.groups) == (1, ((0, 2), (1,)))


def test_an_open_build_has_no_more_than_a_build_has() -> None:
    _, box, blends = unsettled((("a", None), ALONE), slots=("base",))
    assert not hasattr(blends.build(box), "weight")
