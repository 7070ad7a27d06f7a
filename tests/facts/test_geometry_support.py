"""What stands on what, what of it moves, which port it takes up, and what is said to be missing where that is open."""

from __future__ import annotations

import pytest

from kitproof.facts.geometry import Placed, port_for
from kitproof.model.parts import Part, Seat
from kitproof.model.quantities import ANYWHERE, UNKNOWN_SPOT
from kitproof.reading.document import Where
from tests.model.texts import RIG, amount, made, subject

NOWHERE = ('monitor "seven inch": its place on the rig',)


def thing(text: str, name: str) -> Placed:
    return next(each for each in subject(made(text)).placed if each.standing.part.name == name)


def seats(*said: str) -> tuple[Seat, ...]:
    """Interfaces as they are written: family and size."""
    return tuple(Seat(family=family, size=size) for family, _, size in (each.partition(" ") for each in said))


@pytest.mark.parametrize(
    ("sits_on", "takes", "port"),
    [
        (["screw 3/8-16"], ["bowl 100 mm", "screw 1/4-20", "screw 3/8-16", "screw 3/8-16"], 2),
        (["screw 3/8-16"], ["bowl 100 mm", "screw 1/4-20"], 1),
        (["screw 3/8-16"], ["bowl 100 mm"], None),
        (["screw 3/8-16"], [], None),
        ([], ["screw 3/8-16"], None),
        (["wedge 70 mm", "bowl 75 mm"], ["bowl 100 mm", "screw 3/8-16", "wedge 70 mm"], 2),
    ],
)
def test_a_port_of_the_very_size_is_taken_before_another_of_the_family(
    sits_on: list[str], takes: list[str], port: int | None
) -> None:
    where = Where("list.kitlist", 1, 1, 1, 1)
    upper = Part(kind="base", name="upper", where=where, sits_on=seats(*sits_on))
    assert port_for(upper, Part(kind="plate", name="lower", where=where, takes=seats(*takes))) == port


BACK = """
part base "long base"
  mass 1 kg
  height 50 mm
  sits on slide wide
  takes screw 3/8-16 at 25 mm back, 9 mm up
"""


@pytest.mark.parametrize(
    ("was", "now", "name", "on", "ahead"),
    [
        ("", "", "small head", None, ANYWHERE),
        ("", "", "wide slide", "small head", (0, 0)),
        ("", "", "studio base", "wide slide", (0, 0)),
        ("", "", "big camera", "studio base", (0, 0)),
        ("", "", "long lens", "big camera", (0.06, 0.06)),
        ('"wide slide"', '"wide slide", at 40 mm forward', "wide slide", "small head", (0, 0)),
        ('"wide slide"', '"wide slide", at ?', "wide slide", "small head", (0, 0)),
        ('"studio base"', '"studio base", at 30 mm forward', "studio base", "wide slide", (0.03, 0.03)),
        ('"studio base"', '"studio base", at ?', "studio base", "wide slide", ANYWHERE),
        ('"studio base"', "at at", "", "wide slide", ANYWHERE),
        ('"studio base"', '"long base"', "big camera", "long base", (-0.025, -0.025)),
    ],
)
def test_each_is_so_far_ahead_of_the_seat_of_what_it_is_on(
    was: str, now: str, name: str, on: str | None, ahead: tuple[float, float]
) -> None:
    found = thing(BACK + RIG.replace(was, now), name)
    assert found.ahead == pytest.approx(ahead)
    assert (found.on and found.on.part.name) == on


def test_what_hangs_is_on_one_thing_and_rests_on_another() -> None:
    found = thing(RIG + '  arm "a", 1 kg, on base\n  accessory "bag", 2 kg, on "a", at 30 mm back\n', "bag")
    assert found.root is not None
    assert found.on is not None
    assert (found.root.part.name, found.on.part.name, found.ahead) == ("studio base", "a", (-0.03, -0.03))


@pytest.mark.parametrize(
    ("line", "name", "root"),
    [
        ('accessory "c", 1 kg, on head\n  accessory "bag", 2 kg, on "c"', "bag", "small head"),
        ('accessory "bag", 2 kg, on spreader', "bag", "spreader"),
        ("ballast 9 kg, hung at 300 mm", "", "tall sticks"),
        ('accessory "bag", 2 kg, on ground', "bag", None),
    ],
)
def test_what_hangs_below_rests_on_what_it_hangs_from_in_the_end(line: str, name: str, root: str | None) -> None:
    text = RIG.replace("  head ", '  spreader "spreader", 1 kg\n  head ')
    found = thing(text + f"  {line}\n", name)
    assert (found.root and found.root.part.name) == root
    assert not found.moves


def test_what_lies_on_the_spreader_is_borne_by_the_sticks_and_the_spreader_itself_is_not() -> None:
    spread = RIG.replace("  head ", '  spreader "spreader", 1 kg\n  head ')
    without, with_bag = made(spread), made(spread + '  accessory "bag", 2 kg, on spreader\n')
    assert thing(spread + '  accessory "bag", 2 kg, on spreader\n', "bag").group == "hung"
    for name in ("sticks_bear", "standing"):
        assert amount(with_bag, name).low == pytest.approx(amount(without, name).low + 2)


@pytest.mark.parametrize(
    ("rig", "group"),
    [
        ('  head "small head"\n  accessory "bag", 2 kg\n', "carried"),
        ('  camera "big camera"\n  accessory "bag", 2 kg, on sticks\n', "hung"),
        ('  camera "big camera"\n  accessory "bag", 2 kg, on ground\n', "ground"),
        ('  camera "big camera"\n  tie-down "bag", 2 kg\n', "hung"),
        ('  camera "big camera"\n  accessory "bag", 2 kg, on "head"\n', "carried"),
        ('  camera "big camera"\n  accessory "bag", 2 kg, on "ground"\n', "carried"),
    ],
)
def test_on_nothing_that_is_there_it_hangs_or_stands_as_its_line_says(rig: str, group: str) -> None:
    found = thing("rig A\n" + rig, "bag")
    assert (found.group, found.root, found.moves) == (group, None, False)
    assert found.seat == UNKNOWN_SPOT
    assert found.no_place[0] == f'{found.standing.line.slot} "bag": its place on the rig'


@pytest.mark.parametrize(
    ("line", "group"),
    [
        ('pan bar "long bar", at 300 mm back', "hung"),
        ('pan bar "long bar"', "hung"),
        ('arm "a", 1 kg, on ground', "ground"),
        ('arm "a", 1 kg, on "b"\n  also arm "b", 1 kg, on "a"', "carried"),
    ],
)
def test_what_is_not_above_the_slide_does_not_move_with_it(line: str, group: str) -> None:
    found = subject(made(RIG + f"  {line}\n")).placed
    assert {(each.group, each.moves) for each in found if line.startswith(each.standing.line.slot)} == {(group, False)}


def test_the_head_is_below_the_plate() -> None:
    assert thing(RIG, "small head").group == "below"


def test_a_support_part_stands_on_the_support_part_below_it_whatever_is_written_between() -> None:
    text = RIG.replace("studio base", "long base").replace("  camera ", '  accessory "hook", 1 kg\n  camera ')
    found = thing(BACK + text, "big camera")
    assert found.on is not None
    assert (found.on.part.name, found.ahead) == ("long base", (-0.025, -0.025))


def test_nothing_stands_on_a_spreader() -> None:
    found = thing('rig A\n  sticks "tall sticks"\n  spreader "web", 1 kg\n  base "studio base"\n', "studio base")
    assert found.on is not None
    assert found.on.part.name == "tall sticks"


def test_a_thing_that_is_on_its_own_kind_is_on_the_other_one() -> None:
    text = RIG + '  arm "a", 1 kg, on arm, at 50 mm up\n  also arm "b", 1 kg, at 100 mm up\n'
    found = thing(text, "a")
    assert found.on is not None
    assert found.on.part.name == "b"
    assert found.seat.up == pytest.approx((0.07 + 0.1 + 0.05,) * 2)


def test_a_place_on_the_sticks_is_not_one_below_the_plate() -> None:
    """How far the plate is above the sticks' bowl is another matter than how high the sticks themselves are."""
    found = thing(RIG + '  accessory "bag", 2 kg, on sticks, at 300 mm up\n', "bag")
    assert found.seat == UNKNOWN_SPOT
    assert found.no_place[0] == 'accessory "bag": its place on the rig'


def test_a_line_that_could_not_be_read_puts_its_part_anywhere() -> None:
    (lost,) = (each for each in subject(made(RIG + "  monitor at 7 in\n")).placed if not each.standing.part.described)
    assert lost.seat == UNKNOWN_SPOT
    assert lost.no_place == (lost.standing.part.lost,)


def test_a_part_of_no_book_whose_place_is_asked_about_is_called_by_what_would_answer() -> None:
    found = thing(RIG + '  monitor "other", at ?\n', "other")
    assert found.no_place == ('monitor "other": in no parts book',)


@pytest.mark.parametrize("clause", ["at ? forward, 20 mm up", "on base, at 20 mm up, ? forward"])
def test_a_direction_that_is_asked_about_is_missing_and_the_others_are_not(clause: str) -> None:
    found = thing(RIG + f'  monitor "seven inch", {clause}\n', "seven inch")
    assert (found.no_axis("forward"), found.no_axis("up"), found.no_axis("left")) == (NOWHERE, (), ())
    kitlist = made(RIG + f'  monitor "seven inch", {clause}\n')
    assert amount(kitlist, "cog_forward").missing == NOWHERE
    assert amount(kitlist, "cog_up").missing == ()


def test_a_port_whose_place_is_asked_about_leaves_open_where_what_is_in_it_is() -> None:
    own = 'part camera "odd camera"\n  mass 4 kg\n  cog 80 mm up\n  sits on screw 3/8-16\n  takes shoe at ?\n'
    text = own + RIG.replace("big camera", "odd camera").replace('  lens      "long lens"\n', "")
    assert amount(made(text + '  monitor "seven inch"\n'), "cog_up").missing == NOWHERE
    base = BACK.replace("25 mm back", "? forward") + RIG.replace("studio base", "long base")
    found = thing(base, "big camera")
    assert (found.ahead, found.no_place) == (ANYWHERE, ('camera "big camera": its place on the rig',))


def test_a_support_part_at_a_known_place_lacks_nothing() -> None:
    for clause in ("", ", at 30 mm forward, 5 mm left"):
        assert thing(RIG.replace('"studio base"', f'"studio base"{clause}'), "studio base").no_place == ()
    slide = thing(RIG.replace('"wide slide"', '"wide slide", at ?'), "wide slide")
    assert slide.no_place == ()


GRIP = """
part accessory "grip"
  mass 1 kg
  cog 0 mm up
  takes clamp at 30 mm forward

part accessory "rail"
  mass 1 kg
  cog 0 mm up
  takes clamp at 70 mm forward

part monitor "clamped"
  mass 1 kg
  sits on clamp
"""


@pytest.mark.parametrize(
    ("lines", "on"),
    [
        (['accessory "grip"', 'also accessory "rail"', 'monitor "clamped"'], "grip"),
        (['accessory "grip", on head', 'also accessory "rail"', 'monitor "clamped"'], "rail"),
        (['accessory "grip", on ground', 'monitor "clamped"'], "big camera"),
        (['accessory "grip"', 'also accessory "rail"', 'monitor "clamped", on "rail"'], "rail"),
        (['accessory "grip"', 'monitor "clamped", on camera'], "big camera"),
        (['accessory "grip"', 'also accessory "rail", on "grip"', 'monitor "clamped", on base'], "studio base"),
    ],
)
def test_a_port_on_anything_carried_is_taken_where_the_line_does_not_say_on_what_it_is(
    lines: list[str], on: str
) -> None:
    found = thing(GRIP + RIG + "".join(f"  {line}\n" for line in lines), "clamped")
    assert found.on is not None
    assert found.on.part.name == on


def test_of_two_ports_that_of_what_is_written_first_is_taken() -> None:
    railed = 'part base "railed"\n  mass 1 kg\n  height 50 mm\n  sits on slide wide\n  takes clamp\n'
    text = RIG.replace("studio base", "railed")
    before = text.replace("  base ", '  accessory "grip"\n  base ') + '  monitor "clamped"\n'
    after = text + '  accessory "grip"\n  monitor "clamped"\n'
    taken = [thing(GRIP + railed + each, "clamped").on for each in (before, after)]
    assert [each and each.part.name for each in taken] == ["grip", "railed"]
