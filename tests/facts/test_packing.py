"""What is packed: the state that it is said to be in, and the journeys that it is packed for."""

from __future__ import annotations

import math

import pytest

from kitproof.facts.packing import PackedSubject, packed_things
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


@pytest.mark.parametrize("name", ["tilted", "tension", "tilt_lock", "pan_bar_left", "slide_left"])
def test_a_state_that_is_not_said_is_missing(name: str) -> None:
    found = packed("").value(name)
    assert isinstance(found, Amount | Words)
    assert found.missing
    assert not isinstance(found, Words) or found.text is None


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
    assert found.missing


def test_storage_said_in_a_line_that_cannot_be_read_may_be_either() -> None:
    found = packed("", 'move "van"\n  stored in the barn\n  lasts 2 weeks\n')
    assert found.amount("longest_journey").high == 14 * DAY
    assert found.amount("longest_storage").high == 14 * DAY
