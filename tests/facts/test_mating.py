"""Whether each seat finds a port of its family and size, and what would join those that do not."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.facts.mating import JointSubject, joints, shortest_bridge
from kitproof.facts.values import Truth, Verdict, Words
from kitproof.model.parts import Part, Seat
from kitproof.reading.document import Where
from tests.model.texts import RIG, made, subject

HERE = Where("a", 1, 1, 1, 1)


def joint(text: str, upper: str) -> JointSubject:
    return next(each for each in joints(subject(made(text))) if each.upper.part.name == upper)


def truth(of: JointSubject, name: str) -> Truth:
    found = of.value(name)
    assert isinstance(found, Verdict)
    return found.truth


def test_every_joint_from_the_ground_to_the_lens() -> None:
    found = [(each.upper.part.name, each.lower.part.name) for each in joints(subject(made(RIG)))]
    assert found == [
        ("small head", "tall sticks"),
        ("wide slide", "small head"),
        ("studio base", "wide slide"),
        ("big camera", "studio base"),
        ("long lens", "big camera"),
    ]
    assert {truth(each, "mates") for each in joints(subject(made(RIG)))} == {Truth.TRUE}


def test_a_size_that_differs_and_a_family_that_differs() -> None:
    text = RIG.replace("tall sticks", "s") + 'part sticks "s"\n  takes {}\n'
    differs = joint(text.format("bowl 150 mm"), "small head")
    assert (truth(differs, "mates"), truth(differs, "same_family")) == (Truth.FALSE, Truth.TRUE)
    assert (differs.value("upper_size"), differs.value("lower_size")) == (Words("100 mm"), Words("150 mm"))
    other = joint(text.format("flat"), "small head")
    assert (truth(other, "mates"), truth(other, "same_family")) == (Truth.FALSE, Truth.FALSE)
    assert (other.value("family"), other.value("lower_family")) == (Words("bowl"), Words("flat"))


def test_a_length_mates_however_it_is_written() -> None:
    text = RIG.replace("tall sticks", "s") + 'part sticks "s"\n  takes bowl 10 cm\n'
    assert truth(joint(text, "small head"), "mates") is Truth.TRUE


@pytest.mark.parametrize("takes", ["", "  takes ?\n", "  takes 7\n", "  takes bowl 150 mm\n  takes 7\n"])
def test_what_is_not_known_is_missing_unless_a_known_port_mates(takes: str) -> None:
    text = RIG.replace("tall sticks", "s") + f'part sticks "s"\n{takes}'
    found = joint(text, "small head")
    assert truth(found, "mates") is Truth.MISSING
    assert found.lacks[0].startswith('sticks "s": takes')
    known = joint(text + "  takes bowl 100 mm\n", "small head")
    assert truth(known, "mates") is Truth.TRUE


def test_the_bridge_is_named_in_words() -> None:
    text = RIG.replace("tall sticks", "s") + (
        'part sticks "s"\n  takes flat\npart adapter "f"\n  sits on flat\n  takes bowl 150 mm\n'
        'part adapter "ring"\n  sits on bowl 150 mm\n  takes bowl 100 mm\n'
    )
    assert joint(text, "small head").value("bridge") == Words('with "f" and "ring" between')
    assert joint(RIG, "small head").value("bridge") == Words("")


def adapter(name: str, low: int, high: int) -> Part:
    below, above = Seat(family="bowl", size=str(low)), Seat(family="bowl", size=str(high))
    return Part(kind="adapter", name=name, where=HERE, sits_on=(below,), takes=(above,))


sizes = st.integers(0, 4)


@given(st.lists(st.tuples(sizes, sizes), max_size=6), sizes, sizes)
def test_the_bridge_is_the_shortest_of_all_runs(pairs: list[tuple[int, int]], port: int, seat: int) -> None:
    books = [adapter(str(number), *pair) for number, pair in enumerate(pairs)]
    run = shortest_bridge([Seat(family="bowl", size=str(port))], [Seat(family="bowl", size=str(seat))], books)
    runs = [
        each
        for length in range(1, len(books) + 1)
        for each in itertools.permutations(books, length)
        if _joins(port, each, seat)
    ]
    assert len(run) == (min(map(len, runs)) if runs else 0)
    assert not run or _joins(port, run, seat)


def _joins(port: int, run: tuple[Part, ...], seat: int) -> bool:
    for part in run:
        if part.sits_on[0].size != str(port):
            return False
        port = int(part.takes[0].size)
    return port == seat


def test_an_interface_is_said_as_it_is_written_with_no_size_where_it_has_none() -> None:
    text = 'part head "h"\n  mass 3 kg\n  sits on flat\n' + RIG.replace("small head", "h")
    found = joint(text, "h")
    assert (found.value("upper_interface"), found.value("lower_interface")) == (Words("flat"), Words("bowl 100 mm"))
    unknown = joint('part head "h"\n  mass 3 kg\n' + RIG.replace("small head", "h"), "h")
    assert unknown.value("upper_interface") == Words(None, ('head "h": sits on',))


def test_a_seat_or_a_port_that_is_not_written_is_missing_and_needs_no_bridge() -> None:
    no_seat = joint('part head "h"\n  mass 3 kg\n' + RIG.replace("small head", "h"), "h")
    no_port = joint('part sticks "s"\n  mass 5 kg\n' + RIG.replace("tall sticks", "s"), "small head")
    for found, lacks in ((no_seat, 'head "h": sits on'), (no_port, 'sticks "s": takes')):
        for name in ("mates", "same_family"):
            assert found.value(name) == Verdict(Truth.MISSING, (lacks,))
        assert found.value("bridge") == Words("")
