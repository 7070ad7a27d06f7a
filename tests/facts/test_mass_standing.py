"""The centre of gravity of all that is carried and of all that stands, with doubt in it, worked by hand."""

from __future__ import annotations

import math

import pytest

from kitproof.facts.mass import resting
from kitproof.mechanics.means import Term
from tests.facts.amounts import ends_of
from tests.model.texts import amount, made, subject

PARTS = """
part sticks "s"
  mass 5 kg
  cog 300 mm up
  legs 1000..1200 mm

part head "h"
  mass 3 kg
  cog 50 mm up
  height 100..150 mm

part camera "c"
  mass 2..4 kg
  cog 20 mm forward, 100 mm up, 10 mm left

part riser "r"
  mass 2 kg
  cog 40 mm up
  height 100 mm

part ballast "bag"
  mass 9 kg
  cog 150 mm up

part spreader "web"
  mass 1 kg
  cog 50 mm up
"""

STANDS = """
rig A
  sticks "s"
  head "h"
  camera "c"
"""

UNREAD = "  zzzz qqq\n"
WHOLE = (-math.inf, math.inf)


def ends(text: str, name: str, parts: str = PARTS) -> tuple[float, float]:
    return ends_of(made(text, parts=parts), name)


def at_rest(text: str, *leaving_out: str, leg: float = 1.0, parts: str = PARTS) -> list[Term]:
    """What does not tilt, without some things by their names, each as a term above the ground."""
    rig = subject(made(text, parts=parts))
    left = {id(each) for each in rig.build.standing if each.part.name in leaving_out}
    return resting(rig, rig.build.standing[0].part, leg, leaving_out=left)[0]


def same(found: list[Term], *wanted: tuple[float, float, float, float]) -> bool:
    return [pytest.approx(each) for each in wanted] == found


def test_a_place_and_a_mass_in_doubt_put_the_centre_between_their_ends() -> None:
    """2 to 4 kg at 0.1 m, 1 kg at 0.3 to 0.4 m: lowest (4 × 0.1 + 0.3) / 5, highest (2 × 0.1 + 0.4) / 3."""
    text = 'rig A\n  camera "c"\n  monitor "m", on "c", at 300..400 mm up, 60..90 mm forward, 30 mm left\n'
    monitor = 'part monitor "m"\n  mass 1 kg\n  cog 0 mm up\n'
    assert ends(text, "cog_up", PARTS + monitor) == pytest.approx((0.7 / 5, 0.6 / 3))
    assert ends(text, "cog_forward", PARTS + monitor) == pytest.approx((0.14 / 5, 0.13 / 3))
    assert ends(text, "cog_left", PARTS + monitor) == pytest.approx((0.07 / 5, 0.05 / 3))
    assert ends(text + "  underslung\n", "cog_up", PARTS + monitor) == pytest.approx((-0.6 / 3, -0.7 / 5))
    assert ends(text + "  underslung\n", "cog_forward", PARTS + monitor) == pytest.approx((0.14 / 5, 0.13 / 3))


@pytest.mark.parametrize("name", ["cog_up", "cog_forward", "cog_left", "standing_cog_up"])
def test_a_line_that_nobody_can_read_may_have_put_the_centre_anywhere(name: str) -> None:
    found = amount(made(STANDS + UNREAD, parts=PARTS), name)
    assert (found.low, found.high) == WHOLE
    assert found.missing == ("rig A: line 33, which could not be read",)


def test_a_line_that_nobody_can_read_may_have_carried_any_mass_more() -> None:
    for name, least in (("carried", 2), ("sticks_bear", 2 + 3), ("standing", 2 + 3 + 5)):
        assert ends(STANDS + UNREAD, name) == (least, math.inf)


@pytest.mark.parametrize("name", ["cog_up", "cog_forward", "cog_left"])
def test_nothing_carried_has_its_centre_anywhere(name: str) -> None:
    found = amount(made('rig A\n  sticks "s"\n  head "h"\n', parts=PARTS), name)
    assert (found.low, found.high, found.missing) == (*WHOLE, ("rig A: anything on the head",))


def test_what_stands_is_from_the_least_to_the_most_of_each() -> None:
    parts = PARTS.replace("mass 5 kg", "mass 5..6 kg").replace("mass 1 kg", "mass 1..1.5 kg")
    text = STANDS.replace("  head", '  spreader "web"\n  head')
    assert ends(text, "standing", parts) == pytest.approx((5 + 1 + 3 + 2, 6 + 1.5 + 3 + 4))


def test_it_stands_lowest_with_the_legs_in_and_highest_with_them_out() -> None:
    """The camera lies above all the rest, so that its least mass is for the lowest, its greatest for the highest.

    Lowest, legs 1 m: (5 × 0.3 + 3 × 1.05 + 2 × 1.2) / 10. Highest, 1.2 m: (5 × 0.3 + 3 × 1.25 + 4 × 1.45) / 12.
    """
    assert ends(STANDS, "standing_cog_up") == pytest.approx((7.05 / 10, 11.05 / 12))
    set_at = STANDS.replace('"s"', '"s", legs at 1000 mm')
    assert ends(set_at, "standing_cog_up") == pytest.approx((7.05 / 10, 9.65 / 12))


@pytest.mark.parametrize(
    ("rig", "legs", "missing"),
    [
        ('  head "h"\n  camera "c"\n', "1000..1200 mm", "rig A: sticks"),
        ('  sticks "s"\n  camera "c"\n', "?", 'sticks "s": legs'),
        ('  sticks "s"\n  camera "c"\n', "", 'sticks "s": legs'),
    ],
)
def test_without_the_height_of_the_legs_it_stands_anywhere(rig: str, legs: str, missing: str) -> None:
    parts = PARTS.replace("  legs 1000..1200 mm\n", f"  legs {legs}\n" if legs else "")
    found = amount(made("rig A\n" + rig, parts=parts), "standing_cog_up")
    assert (found.low, found.high, found.missing) == (*WHOLE, (missing,))


def test_sticks_of_which_no_centre_is_written_have_it_at_four_to_six_tenths_of_their_height() -> None:
    parts = PARTS.replace("  cog 300 mm up\n", "")
    assert same(at_rest('rig A\n  sticks "s"\n', parts=parts), (5, 5, 0.4, 0.6))
    assert same(at_rest('rig A\n  sticks "s"\n', parts=parts, leg=1.5), (5, 5, 0.6, 0.9))


def test_what_stands_below_the_plate_stands_one_on_the_other() -> None:
    text = 'rig A\n  sticks "s"\n  head "h"\n'
    on_riser = text.replace("  head", '  riser "r"\n  head')
    assert same(at_rest(on_riser), (5, 5, 0.3, 0.3), (2, 2, 1.04, 1.04), (3, 3, 1.15, 1.15))
    doubt = PARTS.replace("  height 100 mm", "  height 100..180 mm")
    assert same(at_rest(on_riser, parts=doubt), (5, 5, 0.3, 0.3), (2, 2, 1.04, 1.04), (3, 3, 1.15, 1.23))


def test_a_head_whose_centre_is_not_known_has_it_from_its_seat_to_its_plate() -> None:
    asked = PARTS.replace("  cog 50 mm up", "  cog ?")
    assert same(at_rest('rig A\n  sticks "s"\n  head "h"\n', parts=asked), (5, 5, 0.3, 0.3), (3, 3, 1, 1.15))


def test_a_riser_on_a_rig_without_a_head_counts_wherever_it_is_written() -> None:
    text = 'rig A\n  sticks "s"\n  base "b", 1 kg\n  riser "r"\n  camera "c"\n'
    assert same(at_rest(text), (5, 5, 0.3, 0.3), (2, 2, 1.04, 1.04))


@pytest.mark.parametrize(
    ("line", "height"),
    [
        ('accessory "box", on head', (1.12, 1.34)),
        ('tie-down "bolt", on "lost"', (0.02, 1.34)),
        ('accessory "box", on sticks', (0.02, 1.02)),
        ('accessory "box", on sticks, at 300 mm up', (0.32, 0.32)),
        ('accessory "box", on riser, at 30 mm up', (1.05, 1.05)),
        ('accessory "box", on head, at 30 mm down', (1.09, 1.09)),
        ('ballast "bag", hung at 400 mm', (0.4, 0.4)),
        ('ballast "bag", on ground', (0.15, 0.15)),
    ],
)
def test_what_hangs_is_above_the_ground_by_the_place_of_what_it_hangs_on(
    line: str, height: tuple[float, float]
) -> None:
    """Legs at 1 m, the riser's seat there, the head's 100 mm higher, its plate at most 150 to 220 mm over that."""
    things = ('accessory "box"', 'tie-down "bolt"')
    hung = "".join(f"part {named}\n  mass 9 kg\n  cog 20 mm up\n" for named in things)
    parts = PARTS.replace("height 100..150 mm", "height 150..220 mm") + hung
    text = f'rig A\n  sticks "s"\n  riser "r"\n  head "h"\n  {line}\n'
    assert same(at_rest(text, parts=parts)[3:], (9, 9, *height))


def test_what_is_beside_the_sticks_on_the_ground_does_not_count() -> None:
    assert same(at_rest('rig A\n  sticks "s"\n  accessory "box", 9 kg, on ground\n'), (5, 5, 0.3, 0.3))


def test_what_is_left_out_is_left_out_alone() -> None:
    text = (
        'rig A\n  sticks "s"\n  ballast "bag", on ground\n  accessory "box", 2 kg, on "bag"\n'
        '  also accessory "hook", 1 kg, on sticks\n'
    )
    kept = at_rest(text)
    assert [term.m_low for term in kept] == [5, 9, 1]
    assert [term.m_low for term in at_rest(text, "bag")] == [5, 1]


def test_a_spreader_is_where_its_centre_is_written_else_anywhere_up_to_the_bowl() -> None:
    text = 'rig A\n  sticks "s"\n  spreader "web"\n'
    assert same(at_rest(text), (5, 5, 0.3, 0.3), (1, 1, 0.05, 0.05))
    unsaid = PARTS.replace("  mass 1 kg\n  cog 50 mm up", "  mass 1 kg")
    assert same(at_rest(text, parts=unsaid), (5, 5, 0.3, 0.3), (1, 1, 0, 1))


def test_what_is_missing_is_named_from_the_ground_up_then_what_hangs_then_what_is_carried() -> None:
    text = (
        'rig A\n  sticks "s", legs at 1000 mm\n  spreader "web"\n  riser "r"\n  head "h"\n  camera "c"\n'
        '  ballast "bag", hung at 300 mm\n  monitor "m", at ?\n' + UNREAD
    )
    parts = (
        'part sticks "s"\n  mass ?\n  cog ?\npart riser "r"\n  height ?\npart head "h"\n  mass ?\n  height ?\n'
        'part camera "c"\n  mass ?\n  cog 0 mm up\npart spreader "web"\n  mass ?\npart ballast "bag"\n  mass ?\n'
        'part monitor "m"\n  mass ?\n  cog 0 mm up\n'
    )
    assert amount(made(text, parts=parts), "standing_cog_up").missing == (
        'sticks "s": mass',
        'sticks "s": cog',
        'riser "r": height',
        'riser "r": mass',
        'head "h": height',
        'head "h": mass',
        'ballast "bag": mass',
        'spreader "web": mass',
        'camera "c": mass',
        'monitor "m": mass',
        'monitor "m": its place on the rig',
        "rig A: line 27, which could not be read",
    )
