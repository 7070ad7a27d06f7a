"""Joints of what is mounted by rods or by a battery plate, and what joints say of themselves."""

from __future__ import annotations

import pytest

from kitproof.facts.mating import joints, shortest_bridge
from kitproof.facts.part import PartSubject
from kitproof.facts.rig import RigSubject
from kitproof.facts.values import Truth, Verdict, Words
from kitproof.model.parts import Part, Seat
from kitproof.reading.document import Where
from tests.model.texts import PARTS, RIG, made, subject

RODS = '\npart rods "r"\n  sits on rods 15/100\n  takes rods 15/100\n'
CLAMP = '\npart accessory "clamp"\n  sits on rods {size}\n'
PLATE = '\npart accessory "plate"\n  takes battery {size}\n'
BATTERY = '  battery   "big battery"\n'


def pairs(text: str, parts: str = PARTS) -> list[tuple[str, str, Truth]]:
    """The joints beyond those of the rig as it is, and whether they mate."""
    found = []
    for each in joints(subject(made(text, parts=parts)))[5:]:
        mates = each.value("mates")
        assert isinstance(mates, Verdict)
        found.append((each.upper.part.name, each.lower.part.name, mates.truth))
    return found


@pytest.mark.parametrize(
    ("lines", "wanted"),
    [
        ('  rods "r"\n', [("r", "studio base", Truth.TRUE)]),
        (BATTERY, [("big battery", "big camera", Truth.TRUE)]),
        (
            '  rods "r"\n' + BATTERY,
            [("r", "studio base", Truth.TRUE), ("big battery", "big camera", Truth.TRUE)],
        ),
        ('  monitor "seven inch"\n', []),
    ],
)
def test_rods_and_batteries_join_what_offers_them_a_port_and_nothing_joins_itself(
    lines: str, wanted: list[tuple[str, str, Truth]]
) -> None:
    """The rods offer a port of their own size to others; a shoe is no such port."""
    assert pairs(RIG + lines + RODS) == wanted


@pytest.mark.parametrize(
    ("size", "lower", "truth"), [("V", "big camera", Truth.TRUE), ("B", "studio base", Truth.FALSE)]
)
def test_a_port_of_the_right_size_goes_before_others_else_the_first_is_taken(
    size: str, lower: str, truth: Truth
) -> None:
    """The plate stands after the camera in the list, and the base, with a port of another size, before it."""
    parts = PARTS.replace("  takes     rods 15/100", "  takes     battery A\n  takes     rods 15/100")
    battery = f'\npart battery "b"\n  sits on battery {size}\n'
    text = RIG + '  accessory "plate"\n  battery "b"\n' + PLATE.format(size="V") + battery
    assert pairs(text, parts) == [("b", lower, truth)]


def test_a_clamp_of_another_size_is_on_the_first_rods_there_are() -> None:
    text = RIG + '  accessory "clamp"\n' + CLAMP.format(size="19/104")
    assert pairs(text) == [("clamp", "studio base", Truth.FALSE)]


def test_a_part_with_seats_for_rods_and_for_a_battery_has_two_joints() -> None:
    both = '\npart accessory "both"\n  sits on battery V\n  sits on rods 15/100\n'
    wanted = [("both", "studio base", Truth.TRUE), ("both", "big camera", Truth.TRUE)]
    assert pairs(RIG + '  accessory "both"\n' + both) == wanted


def test_only_a_lens_that_is_put_on_nothing_else_is_on_the_camera() -> None:
    spare = RIG + '  lens      "short lens", on base\n'
    assert pairs(spare) == []
    bare = joints(subject(made(RIG.replace('  camera    "big camera"\n', ""))))
    assert [(each.upper.part.name, each.lower.part.name) for each in bare] == [
        ("small head", "tall sticks"),
        ("wide slide", "small head"),
        ("studio base", "wide slide"),
    ]


def test_a_joint_is_named_by_its_rig_and_both_its_parts_and_stands_at_the_line_of_the_upper() -> None:
    rig = subject(made(RIG))
    found = joints(rig)[0]
    assert found.label == 'rig A, head "small head" on sticks "tall sticks"'
    assert found.within == ("rig A", 'part "small head"')
    assert found.place("mates") == found.upper.where == rig.build.standing[1].where
    upper, lower = found.value("upper"), found.value("lower")
    assert isinstance(upper, PartSubject)
    assert isinstance(lower, PartSubject)
    assert (upper.part.name, lower.part.name) == ("small head", "tall sticks")
    assert isinstance(found.value("rig"), RigSubject)
    assert found.value("rig") is rig


@pytest.mark.parametrize(
    ("seats", "ports", "upper", "lower", "mates"),
    [
        (["flat", "bowl 150 mm"], ["bowl 100 mm", "flat"], "flat", "flat", Truth.TRUE),
        (["flat", "bowl 150 mm"], ["screw 3/8-16", "bowl 100 mm"], "bowl 150 mm", "bowl 100 mm", Truth.FALSE),
        (["flat", "bowl 150 mm"], ["screw 3/8-16", "screw 1/4-20"], "flat", "screw 3/8-16", Truth.FALSE),
        (["bowl 75 mm", "bowl 150 mm"], ["bowl 100 mm", "bowl 150 mm"], "bowl 150 mm", "bowl 150 mm", Truth.TRUE),
    ],
)
def test_a_joint_speaks_of_the_pair_that_mates_else_of_one_family_else_of_the_first(
    seats: list[str], ports: list[str], upper: str, lower: str, mates: Truth
) -> None:
    sits = "".join(f"  sits on {each}\n" for each in seats)
    takes = "".join(f"  takes {each}\n" for each in ports)
    text = RIG.replace("tall sticks", "s").replace("small head", "h")
    found = joints(subject(made(f'{text}part sticks "s"\n{takes}part head "h"\n{sits}')))[0]
    assert (found.value("upper_interface"), found.value("lower_interface")) == (Words(upper), Words(lower))
    assert found.value("mates") == Verdict(mates)
    related = upper.split()[0] == lower.split()[0]
    assert found.value("same_family") == Verdict(Truth.TRUE if related else Truth.FALSE)


def test_what_a_joint_lacks_is_asked_for_in_each_of_its_words() -> None:
    bare = joints(subject(made(RIG.replace("tall sticks", "s") + 'part sticks "s"\n  mass 5 kg\n')))[0]
    for name in ("lower_family", "lower_size", "lower_interface"):
        assert bare.value(name) == Words(None, ('sticks "s": takes',))
    assert bare.value("family") == Words("bowl")


HERE = Where("a", 1, 1, 1, 1)


def joiner(kind: str, name: str, below: str, above: str) -> Part:
    """A part that sits on a bowl of one size and takes one of another; none of a size that is ""."""
    seats = tuple((Seat(family="bowl", size=each),) if each else () for each in (below, above))
    return Part(kind=kind, name=name, where=HERE, sits_on=seats[0], takes=seats[1])


@pytest.mark.parametrize(
    ("books", "run"),
    [
        ([("adapter", "a", "1", "2")], ("a",)),
        ([("riser", "a", "1", "2")], ("a",)),
        ([("head", "a", "1", "2")], ()),
        ([("adapter", "a", "1", "2"), ("adapter", "b", "1", "2")], ("a",)),
        ([("adapter", "a", "1", "3"), ("riser", "b", "3", "2")], ("a", "b")),
        ([("adapter", "a", "1", ""), ("adapter", "b", "", "2")], ()),
        ([("adapter", "a", "1", "3"), ("adapter", "b", "3", "1")], ()),
    ],
)
def test_only_adapters_and_risers_bridge_and_of_two_alike_the_first_in_the_books(
    books: list[tuple[str, str, str, str]], run: tuple[str, ...]
) -> None:
    """From a bowl of size 1 to a seat of size 2."""
    port, seat = Seat(family="bowl", size="1"), Seat(family="bowl", size="2")
    found = shortest_bridge([port], [seat], [joiner(*each) for each in books])
    assert tuple(part.name for part in found) == run
