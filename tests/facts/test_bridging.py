"""Adapters of several seats and ports; and joints that mate as they are, whatever adapters the books hold."""

from __future__ import annotations

import pytest

from kitproof.facts.mating import joints, shortest_bridge
from kitproof.facts.values import Words
from kitproof.model.parts import Part, Seat
from kitproof.reading.document import Where
from tests.model.texts import PARTS, RIG, made, subject

HERE = Where("books", 1, 1, 1, 1)


def seats(text: str) -> tuple[Seat, ...]:
    return tuple(Seat(family="bowl", size=size) for size in text.split())


def joiner(name: str, below: str, above: str) -> Part:
    return Part(kind="adapter", name=name, where=HERE, sits_on=seats(below), takes=seats(above))


@pytest.mark.parametrize(
    ("ports", "wanted", "books", "run"),
    [
        ("1", "2", [joiner("a", "3 1", "4 2")], ("a",)),
        ("5 1", "2", [joiner("a", "1", "2")], ("a",)),
        ("1", "2 6", [joiner("a", "1", "2 7")], ("a",)),
        ("1", "2", [joiner("a", "1", "3 4"), joiner("b", "4 5", "6 2")], ("a", "b")),
        ("1", "2", [joiner("a", "", "2"), joiner("b", "1", "")], ()),
    ],
)
def test_one_seat_that_fits_one_port_is_enough(
    ports: str, wanted: str, books: list[Part], run: tuple[str, ...]
) -> None:
    assert tuple(part.name for part in shortest_bridge(seats(ports), seats(wanted), books)) == run


def test_what_mates_as_it_is_needs_no_bridge_though_the_books_hold_one() -> None:
    riser = '\npart riser "extra"\n  height 100 mm\n  sits on bowl 100 mm\n  takes bowl 100 mm\n'
    rig = subject(made(riser + RIG, parts=PARTS))
    found = {each.label: each.value("bridge") for each in joints(rig)}
    assert set(found.values()) == {Words("")}
    assert len(found) > 3
