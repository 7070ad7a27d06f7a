"""Where everything in a build is: support slots one on the other, the rest at its place, in a port, in an outline."""

from __future__ import annotations

import math

import pytest

from kitproof.facts.geometry import Placed
from kitproof.model.quantities import ANYWHERE
from tests.model.texts import RIG, made, subject


def thing(text: str, name: str, number: int = 0) -> Placed:
    return next(each for each in subject(made(text), number=number).placed if each.standing.part.name == name)


def at(text: str, name: str) -> tuple[float, float, float]:
    """Forward, up and left of a part's seat, in mm, where all three are sharp."""
    seat = thing(text, name).seat
    assert all(low == high for low, high in (seat.forward, seat.up, seat.left))
    return tuple(round(side[0] * 1000, 6) for side in (seat.forward, seat.up, seat.left))  # type: ignore[return-value]  # three of them


def test_support_slots_stand_on_the_plate_one_on_the_other() -> None:
    assert at(RIG, "wide slide") == (0, 0, 0)
    assert at(RIG, "studio base") == (0, 20, 0)
    assert at(RIG, "big camera") == (0, 70, 0)


def test_a_plate_is_one_more_that_stands_above_the_heads_own() -> None:
    text = 'part plate "riser plate"\n  mass 1 kg\n  height 15 mm\n' + RIG.replace(
        "  slide ", '  plate "riser plate"\n  slide '
    )
    assert at(text, "riser plate") == (0, 0, 0)
    assert at(text, "big camera") == (0, 85, 0)


def test_a_slides_at_is_its_travel_and_moves_nothing_here() -> None:
    text = RIG.replace('"wide slide"', '"wide slide", at 40 mm forward')
    assert at(text, "wide slide") == (0, 0, 0)
    assert at(text, "big camera") == (0, 70, 0)


def test_a_support_parts_own_at_carries_what_stands_on_it() -> None:
    text = RIG.replace('"studio base"', '"studio base", at 30 mm forward, 5 mm left')
    assert at(text, "studio base") == (30, 20, 5)
    assert at(text, "big camera") == (30, 70, 5)


def test_a_port_with_a_place_carries_what_stands_in_it_forward_and_left() -> None:
    text = (
        'part base "long base"\n  mass 1 kg\n  height 50 mm\n  sits on slide wide\n'
        "  takes screw 3/8-16 at 25 mm back, 50 mm up\n" + RIG.replace("studio base", "long base")
    )
    assert at(text, "long base") == (0, 20, 0)
    assert at(text, "big camera") == (-25, 70, 0)


def test_a_lens_stands_in_the_cameras_mount() -> None:
    assert at(RIG, "long lens") == (60, 150, 0)


def test_ports_are_taken_one_after_the_other_each_once() -> None:
    text = RIG + '  monitor "seven inch"\n  also monitor "seven inch"\n  also monitor "seven inch"\n'
    seats = [each.seat for each in subject(made(text)).placed if each.standing.line.slot == "monitor"]
    assert [seat.forward for seat in seats[:2]] == [(0, 0), (-0.04, -0.04)]
    assert [seat.up for seat in seats[:2]] == [pytest.approx((0.23, 0.23))] * 2
    # The third finds no port: somewhere within the outline of the camera.
    assert seats[2].forward == pytest.approx((-0.1, 0.1))
    assert seats[2].up == pytest.approx((0.07, 0.23))


def test_a_port_that_a_support_part_takes_up_is_not_free() -> None:
    text = 'part accessory "bracket"\n  mass 1 kg\n  sits on screw 3/8-16\n' + RIG + '  accessory "bracket"\n'
    assert thing(text, "bracket").seat.forward == pytest.approx((-0.1, 0.1))


def test_a_port_elsewhere_is_taken_where_the_camera_has_none() -> None:
    text = 'part rods "rods"\n  mass 1 kg\n  sits on rods 15/100\n' + RIG + '  rods "rods"\n'
    assert at(text, "rods") == (60, 40, 0)


def test_a_port_without_a_place_is_within_the_outline() -> None:
    text = (
        'part camera "small camera"\n  mass 2 kg\n  height 100 mm\n  size 120 x 80 x 100 mm\n  sits on screw 3/8-16\n'
        "  takes shoe\n" + RIG.replace("big camera", "small camera") + '  monitor "seven inch"\n'
    )
    seat = thing(text, "seven inch").seat
    assert seat.forward == pytest.approx((-0.06, 0.06))
    assert seat.up == pytest.approx((0.07, 0.17))
    assert seat.left == pytest.approx((-0.04, 0.04))


def test_at_is_measured_from_the_seat_of_what_it_is_on() -> None:
    text = RIG + '  monitor "seven inch", at 10 mm forward, 200 mm up\n'
    assert at(text, "seven inch") == (10, 270, 0)
    text = RIG + '  monitor "seven inch", on base, at 10 mm forward, 20 mm right\n'
    assert at(text, "seven inch") == (10, 20, -20)
    text = RIG + '  monitor "seven inch", on "long lens", at 10 mm forward\n'
    assert at(text, "seven inch") == (70, 150, 0)


def test_a_thing_on_a_thing_on_the_camera_is_carried_along() -> None:
    text = RIG + '  arm "left arm", 0.3 kg, at 100 mm up\n  monitor "seven inch", on arm, at 50 mm left\n'
    assert at(text, "seven inch") == (0, 170, 50)
    assert thing(text, "seven inch").moves


@pytest.mark.parametrize("clause", ["at ?", "at ? forward, 20 mm up"])
def test_a_question_mark_takes_no_port_and_no_outline(clause: str) -> None:
    found = thing(RIG + f'  monitor "seven inch", {clause}\n', "seven inch")
    seat = found.seat
    assert seat.forward == ANYWHERE
    assert found.no_place == ('monitor "seven inch": its place on the rig',)
    if clause == "at ?":
        assert seat.up == ANYWHERE


def test_a_question_mark_on_a_support_part_leaves_what_stands_on_it_open() -> None:
    found = thing(RIG.replace('"studio base"', '"studio base", at ?'), "big camera")
    assert found.seat.forward == ANYWHERE
    assert found.no_place == ('base "studio base": its place on the rig',)


def test_a_height_that_is_not_known_leaves_all_above_it_open() -> None:
    for said in ("  height 50 mm\n", "  height ?\n"):
        parts = 'part base "open base"\n  mass 1 kg\n  sits on slide wide\n' + ("" if "50" in said else said)
        found = thing(parts + RIG.replace("studio base", "open base"), "long lens")
        assert found.seat.up == ANYWHERE
        assert found.seat.forward == (0.06, 0.06)
        assert found.no_place == ('base "open base": height',)


def test_what_hangs_on_itself_is_nowhere() -> None:
    text = RIG + '  arm "a", 1 kg, on "b"\n  arm "b", 1 kg, on "a"\n'
    assert thing(text, "a").seat.up == ANYWHERE
    assert thing(text, "a").group == "carried"


@pytest.mark.parametrize(
    ("line", "group"),
    [
        ('pan bar "long bar"', "hung"),
        ('pan bar "long bar", on camera', "carried"),
        ('accessory "bag", 2 kg, on head', "hung"),
        ('accessory "bag", 2 kg, on "small head"', "hung"),
        ('accessory "bag", 2 kg, on sticks', "hung"),
        ('accessory "bag", 2 kg, on "tall sticks"', "hung"),
        ('accessory "bag", 2 kg, on ground', "ground"),
        ('accessory "bag", 2 kg, on base', "carried"),
        ('accessory "bag", 2 kg', "carried"),
        ('accessory "bag", 2 kg, on "nothing"', "carried"),
        ("ballast 9 kg, hung at 300 mm", "hung"),
        ("ballast 9 kg, on ground", "ground"),
        ('tie-down "bolt", 0.4 kg', "hung"),
    ],
)
def test_what_counts_as_carried(line: str, group: str) -> None:
    found = subject(made(RIG + f"  {line}\n")).placed
    assert [each.group for each in found if line.startswith(each.standing.line.slot)] == [group]


def test_what_is_on_a_thing_goes_where_that_thing_is() -> None:
    text = RIG + '  arm "a", 1 kg, on {}\n  accessory "bag", 2 kg, on "a"\n'
    groups = {where: thing(text.format(where), "bag").group for where in ("ground", "head", "sticks", "camera")}
    assert groups == {"ground": "ground", "head": "hung", "sticks": "hung", "camera": "carried"}


def test_what_is_on_the_head_hangs_even_where_the_rig_has_none() -> None:
    text = 'rig A\n  camera "big camera"\n  accessory "bag", 2 kg, on head\n'
    assert thing(text, "bag").group == "hung"


def test_the_seat_of_what_is_on_the_head_is_the_heads() -> None:
    text = RIG + '  pan bar "long bar", on head, at 300 mm back\n'
    found = thing(text, "long bar").seat
    assert found.forward == (-0.3, -0.3)
    assert found.up == pytest.approx((-0.13, -0.13))


def test_everything_above_the_slide_moves_and_the_slide_only_if_it_says_so() -> None:
    moving = {each.standing.part.name for each in subject(made(RIG)).placed if each.moves}
    assert moving == {"studio base", "big camera", "long lens"}
    itself = made(RIG.replace("wide slide", "own slide") + 'part slide "own slide"\n  mass 1 kg\n  slides itself\n')
    moving = {each.standing.part.name for each in subject(itself).placed if each.moves}
    assert moving == {"own slide", "studio base", "big camera", "long lens"}


def test_everything_rests_on_a_support_part_in_the_end() -> None:
    text = RIG + '  arm "a", 1 kg, on base\n  accessory "bag", 2 kg, on "a"\n  pan bar "long bar"\n'
    roots = {each.standing.part.name: each.root and each.root.part.name for each in subject(made(text)).placed}
    assert roots == {
        "small head": "small head",
        "wide slide": "wide slide",
        "studio base": "studio base",
        "big camera": "big camera",
        "long lens": "big camera",
        "a": "studio base",
        "bag": "studio base",
        "long bar": "small head",
    }


def test_no_seat_is_ever_a_number_that_is_none() -> None:
    text = RIG + '  arm "a", on "b"\n  arm "b", on "a"\n  pan bar "long bar", at ?\n  ballast ? kg\n'
    for each in subject(made(text)).placed:
        for side in (each.seat.forward, each.seat.up, each.seat.left, each.centre.up, each.mass):
            assert not any(math.isnan(end) for end in side)
