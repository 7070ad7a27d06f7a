"""Names by which one thing speaks of another: each one that nothing has is said, at the word."""

from __future__ import annotations

import pytest

from tests.model.texts import RIG, made, slips

CASES = 'case "one"\n  holds case "two"\ncase "two"\n  holds case "three"\ncase "three"\n  holds case "{}"\n'


@pytest.mark.parametrize(
    ("text", "said", "near"),
    [
        ('part head "H"\n  pan bar "lung bar"\n', "lung bar", ("long bar",)),
        ('part head "H"\n  pan bar "long lens"\n', "long lens", ()),
        ('part head "H"\n  own case "head case"\n', "head case", ()),
        ('part head "H"\n  goes with 2 x "big batery"\n', "big batery", ("big battery",)),
        ('part kit "K"\n  includes "long lens", "short lense"\n', "short lense", ("short lens",)),
        (RIG + '  monitor "seven inch", on "lng lens"\n', "lng lens", ("long lens",)),
        (RIG + '  monitor "seven inch", on arm\n', "arm", ()),
        (RIG + '  monitor "seven inch", only with "lng lens"\n', "lng lens", ("long lens",)),
        (RIG + "  instead of AB\n", "rig AB", ("A",)),
        (RIG + 'order\n  1 x "long lens", for rig B\n', "rig B", ("A",)),
        ('case "k"\n  holds case "l"\n', "l", ("k",)),
        ('case "k"\n  holds "big battery", fitted in "big camra"\n', "big camra", ("big camera",)),
        ('case "k"\n  is "tube"\n', "tube", ()),
        ('move "Van to pier"\ncase "k"\n  goes "Van to the pier"\n', "Van to the pier", ("Van to pier",)),
    ],
)
def test_a_name_that_nothing_has_is_said_with_the_nearest(text: str, said: str, near: tuple[str, ...]) -> None:
    kitlist = made(text)
    assert slips(kitlist) == [("unknown-part", said)]
    slip = kitlist.slips[0]
    assert set(near) <= set(slip.slip.nearest)
    line = kitlist.documents[0].lines[slip.where.line - 1]
    assert said.removeprefix("rig ") in line[slip.where.column - 1 : slip.where.to_column - 1]


@pytest.mark.parametrize(
    "text",
    [
        'part head "H"\n  pan bar "long bar"\n  goes with "long bar", 2 x "big battery"\n',
        'part case "c"\npart head "H"\n  own case "c"\n',
        RIG + '  monitor "seven inch", on camera\n  pan bar "long bar", on head\n  ballast 9 kg, on ground\n',
        RIG + '  accessory "bag", 1 kg, on "tall sticks"\n',
        RIG + "  instead of B\nrig B like A\n",
        RIG + 'order\n  1 x "long lens", for rig A\n',
        'case "k"\n  holds case "l"\ncase "l"\n',
        'case "k"\n  holds "big battery", fitted in "big camera"\n',
    ],
)
def test_names_that_are_there_are_not_spoken_of(text: str) -> None:
    assert slips(made(text)) == []


def test_a_name_that_a_rig_no_longer_has_is_said_at_that_rig() -> None:
    text = RIG + '  monitor "seven inch", on "long lens"\nrig B like A\n  lens "short lens"\n'
    kitlist = made(text)
    assert slips(kitlist) == [("unknown-part", "long lens")]
    assert kitlist.slips[0].where == kitlist.rigs[1].where


def test_nothing_is_said_where_a_line_that_cannot_be_read_may_have_held_it() -> None:
    text = RIG + '  arm "left arm\n  monitor "seven inch", on "left arm"\n'
    assert [kind for kind, _ in slips(made(text))] == ["unreadable-line"]


def test_nothing_is_said_of_parts_while_a_book_is_lost() -> None:
    text = 'use "lost"\npart head "H"\n  pan bar "B"\n  own case "C"\n  goes with "D"\n'
    assert [kind for kind, _ in slips(made(text))] == ["used-file-missing"]


def test_a_case_in_itself_is_said_wherever_the_ring_closes() -> None:
    assert slips(made(CASES.format("one"))) == [
        ("figures-contradict", 'case "two"'),
        ("figures-contradict", 'case "three"'),
        ("figures-contradict", 'case "one"'),
    ]
    assert slips(made('case "k"\n  holds case "k"\n')) == [("figures-contradict", 'case "k"')]
    assert slips(made(CASES.format("four") + 'case "four"\n')) == []


def test_a_kit_in_itself_is_said_and_counted_once() -> None:
    kitlist = made('part kit "K"\n  includes "L"\npart kit "L"\n  includes "K"\n')
    assert slips(kitlist) == [("figures-contradict", '"L"'), ("figures-contradict", '"K"')]


def test_a_rig_instead_of_itself_is_said() -> None:
    assert slips(made(RIG + "  instead of A\n")) == [("figures-contradict", "rig A")]
