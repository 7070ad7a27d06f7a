"""What is packed: the state that it is said to be in, and the journeys that it is packed for."""

from __future__ import annotations

import math
from datetime import date

import pytest

from kitproof.facts.cases import cases, moves_of
from kitproof.facts.packing import PackedSubject, packed_things
from kitproof.facts.subject import Subject
from kitproof.facts.values import Amount, Truth, Verdict, Words
from tests.model.texts import made, setting


def packed(states: str, more: str = "") -> PackedSubject:
    text = f'{more}case "k"\n  holds "small head"{states}\n' + '  goes "van"\n' * ("move" in more)
    return packed_things(setting(made(text)))[0]


DAY = 86400.0


@pytest.mark.parametrize(
    ("states", "name", "value"),
    [
        (", level", "tilted", Amount(0, 0)),
        (", counterbalance 8", "tension", Amount(8, 8)),
        (", counterbalance off", "tension", Amount(0, 0)),
        (", tilt locked", "tilt_lock", Words("locked")),
        (", tilt free", "tilt_lock", Words("free")),
        (", pan bar along legs", "pan_bar_left", Words("along legs")),
        (", slide on", "slide_left", Words("on")),
        (", slide off", "slide_left", Words("off")),
        (", camera on", "camera_left", Verdict(Truth.TRUE)),
        ("", "camera_left", Verdict(Truth.FALSE)),
        (", on sticks", "on_sticks", Verdict(Truth.TRUE)),
        (", in own case", "in_own_case", Verdict(Truth.TRUE)),
    ],
)
def test_a_state_that_is_said(states: str, name: str, value: object) -> None:
    assert packed(states).value(name) == value


def test_tilted_down_is_negative() -> None:
    assert packed(", tilted down 70°").amount("tilted").low == pytest.approx(-70 * math.pi / 180)
    assert packed(", tilted up 20°").amount("tilted").low == pytest.approx(20 * math.pi / 180)
    between = packed(", tilted down 60..70°").amount("tilted")
    assert (between.low, between.high) == pytest.approx((-70 * math.pi / 180, -60 * math.pi / 180))


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("tilted", Amount(-math.pi, math.pi, ('case "k", head "small head": level, or tilted by how much',))),
        ("tension", Amount(0, math.inf, ('case "k", head "small head": the counterbalance step at which it is left',))),
        ("tilt_lock", Words(None, ('case "k", head "small head": tilt locked or free',))),
        ("pan_bar_left", Words(None, ('case "k", head "small head": how its pan bar is left',))),
        ("slide_left", Words(None, ('case "k", head "small head": slide on or off',))),
        ("camera_left", Verdict(Truth.FALSE)),
        ("on_sticks", Verdict(Truth.FALSE)),
        ("in_own_case", Verdict(Truth.FALSE)),
    ],
)
def test_a_state_that_is_not_said_is_missing_or_is_not_so(name: str, value: object) -> None:
    assert packed("").value(name) == value


def test_a_tilt_of_an_unknown_angle_may_be_any() -> None:
    found = packed(", tilted down ?").amount("tilted")
    assert (found.low, found.high) == (-math.pi, math.pi)
    assert found.missing


PLACED = """move "van"
  on 2027-03-08
  lasts 2..3 days
move "store"
  stored
move "lost"
  stored in the barn
case "k"
  inside 500 x 300 x 200 mm
  holds "small head", on sticks
  goes "van", "store"
"""


def test_what_each_is_called_and_what_it_lies_in() -> None:
    """A waiver of a move or of a part covers what is packed of it; a finding is printed under the case."""
    shared = setting(made(PLACED))
    (case,), (van, *_), (head,) = cases(shared), moves_of(shared), packed_things(shared)
    assert (case.label, case.within, case.value("name")) == ('case "k"', ('case "k"',), Words("k"))
    assert (van.label, van.within, van.value("name")) == ('"van"', ('move "van"',), Words("van"))
    assert (van.day, van.amount("lasts")) == (date(2027, 3, 8), Amount(2 * DAY, 3 * DAY))
    assert head.label == 'case "k", head "small head"'
    assert head.within == ('case "k"', 'part "small head"', 'move "van"', 'move "store"')


def test_the_place_of_each_and_of_its_fields() -> None:
    shared = setting(made(PLACED))
    (case,), (van, *_), (head,) = cases(shared), moves_of(shared), packed_things(shared)
    first = case.where().line
    assert case.where(("inside",)).line == first + 1
    assert case.where(("name",)).line == first
    assert head.where().line == head.where(("part",)).line == first + 2
    assert head.where(("on_sticks",)).column > head.where().column
    assert van.where().line == first - 7
    assert van.where(("lasts",)).line == van.where().line + 2


def test_whether_a_move_is_storage() -> None:
    """What a line that could not be read says of it is not known."""
    van, store, lost = moves_of(setting(made(PLACED)))
    assert van.value("stored") == Verdict(Truth.FALSE)
    assert store.value("stored") == Verdict(Truth.TRUE)
    assert lost.value("stored") == Verdict(Truth.MISSING, ('move "lost": stored',))


def test_a_packed_thing_tells_its_part_its_case_and_its_moves() -> None:
    (head,) = packed_things(setting(made(PLACED)))
    part, case, moves = head.value("part"), head.value("case"), head.value("moves")
    assert isinstance(part, Subject)
    assert isinstance(case, Subject)
    assert isinstance(moves, tuple)
    assert part.label == '"small head"'
    assert part.where() == head.where()
    assert case.label == 'case "k"'
    assert [each.label for each in moves] == ['"van"', '"store"']
    assert head.value("kind") == Words("head")


def test_the_longest_journey_and_the_longest_storage() -> None:
    moves = 'move "a"\n  lasts 3 days\nmove "b"\n  lasts 1 day\nmove "c"\n  stored\n  lasts 2 weeks\n'
    text = moves + 'case "k"\n  holds "small head"\n  goes "a", "b", "c"\n'
    found = packed_things(setting(made(text)))[0]
    assert found.amount("longest_journey") == Amount(3 * DAY, 3 * DAY)
    assert found.amount("longest_storage") == Amount(14 * DAY, 14 * DAY)
    assert packed("").amount("longest_journey") == Amount(0, 0)


@pytest.mark.parametrize(
    "text",
    [
        'move "van"\n',
        'move "van"\n  lasts ?\n',
        'move "van"\n  lasts long\n',
        'move "van"\n  lasts 1 day\nmove "x"\n  lasts 1 day\n',
    ],
)
def test_a_move_that_is_not_known_may_last_any_time(text: str) -> None:
    lost = text.count("move") == 2
    case = 'case "k"\n  holds "small head"\n' + ('  goes "van", "nowhere"\n' if lost else '  goes "van"\n')
    found = packed_things(setting(made(text + case)))[0].amount("longest_journey")
    assert (found.low, found.high) == (DAY if lost else 0, math.inf)
    assert found.missing == (('move "nowhere"',) if lost else ('move "van": lasts',))


def test_storage_said_in_a_line_that_cannot_be_read_may_be_either() -> None:
    found = packed("", 'move "van"\n  stored in the barn\n  lasts 2 weeks\n')
    either = Amount(0, 14 * DAY, ('move "van": stored',))
    assert found.amount("longest_journey") == either
    assert found.amount("longest_storage") == either
