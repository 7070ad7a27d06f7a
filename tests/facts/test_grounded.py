"""How high above the ground things are that hang on the head or the sticks, worked out by hand.

The sticks stand at 1000 mm, the head on them from there to the plate at 1100 mm.
"""

from __future__ import annotations

import math

import pytest

from kitproof.facts.grounded import finite
from kitproof.facts.mass import resting
from tests.model.texts import made, subject

PARTS = """
part sticks "s"
  mass 5 kg
  cog 300 mm up
  legs 1000 mm

part head "h"
  mass 3 kg
  cog 50 mm up
  height 100 mm

part accessory "box"
  mass 1 kg
  cog 20 mm up
  size 100 x 100 x 60 mm

part accessory "pole"
  mass 1 kg
  cog 40..50 mm up

part accessory "odd"
  mass 1 kg
  cog ?

part pan bar "bar"
  mass 1 kg
  cog 0 mm up

part ballast "bag"
  mass 1 kg
  cog 150 mm up
"""
SUPPORT = 'rig A\n  sticks "s"\n  head "h"\n'
BOX = '  accessory "box", {}\n'
POLE = '  accessory "pole", {}\n'
ODD = '  accessory "odd", {}\n'


def heights(lines: str) -> list[tuple[float, float]]:
    """From where to where the centre of each thing that hangs may be, in m, in the order of its lines."""
    rig = subject(made(SUPPORT + lines, parts=PARTS))
    found, _, _ = resting(rig, rig.build.standing[0].part, 1.0)
    return [(term.r_low, term.r_high) for term in found[2:]]


@pytest.mark.parametrize(("place", "both"), [((-1.0, 2.0), True), ((0.0, math.inf), False), ((-math.inf, 0.0), False)])
def test_a_place_is_finite_where_both_its_ends_are(place: tuple[float, float], both: bool) -> None:
    assert finite(place) is both


@pytest.mark.parametrize(
    ("line", "height"),
    [
        (BOX.format("on head"), (1.0 + 0.02, 1.1 + 0.02)),
        (BOX.format("on head, at 30..40 mm up"), (1.03 + 0.02, 1.04 + 0.02)),
        (BOX.format("on head, at 300 mm up"), (1.3 + 0.02,) * 2),
        (BOX.format("on head, at 20 mm forward"), (1.0 + 0.02,) * 2),
        (BOX.format('on "h"'), (1.0 + 0.02, 1.1 + 0.02)),
        (BOX.format("on sticks"), (0.02, 1.0 + 0.02)),
        ('  ballast "bag"\n', (0.15, 1.0 + 0.15)),
        (BOX.format("on sticks, at 400 mm up"), (0.4 + 0.02,) * 2),
        (ODD.format("on head, at 50 mm up"), (0.0, 1.1)),
        (ODD.format("on head, at 600 mm up"), (0.0, 1.6)),
        (ODD.format("on head, at 1200..1300 mm down"), (-0.3, 1.1)),
        ('  pan bar "bar"\n', (1.0, 1.1)),
        ('  ballast "bag", hung at 200..300 mm\n', (0.2, 0.3)),
        ('  ballast "bag", on ground\n', (0.15, 0.15)),
        ('  ballast "bag", on "no such part"\n', (0.15, 1.1 + 0.15)),
    ],
)
def test_where_one_thing_hangs(line: str, height: tuple[float, float]) -> None:
    assert heights(line) == [pytest.approx(height)]


@pytest.mark.parametrize("order", [(0, 1, 2), (2, 1, 0), (1, 0, 2), (0, 2, 1), (1, 2, 0), (2, 0, 1)])
def test_a_thing_is_as_high_as_what_it_is_on_whatever_the_order_of_their_lines(order: tuple[int, ...]) -> None:
    lines = (
        BOX.format("on head, at 400 mm up"),
        POLE.format('on "box", at 500 mm up'),
        ODD.format('on "pole", at 100 mm up'),
    )
    high = (1.4 + 0.02, 1.4 + 0.5 + 0.05, 1.4 + 0.5 + 0.1)
    found = heights("".join(lines[each] for each in order))
    assert [top for _, top in found] == pytest.approx([high[each] for each in order])
    assert [low for low, _ in found] == pytest.approx([(high[0], high[1] - 0.01, 0.0)[each] for each in order])


@pytest.mark.parametrize("first", [True, False])
def test_a_thing_on_what_is_anywhere_along_the_legs_is_as_much_above_any_of_it(first: bool) -> None:
    box, pole = BOX.format("on sticks"), POLE.format('on "box", at 100 mm up')
    found = heights(box + pole if first else pole + box)
    assert found[first] == pytest.approx((0.1 + 0.04, 1.0 + 0.1 + 0.05))


@pytest.mark.parametrize("first", [True, False])
def test_what_is_on_its_own_kind_is_on_the_other_one(first: bool) -> None:
    box, pole = BOX.format("on head, at 400 mm up"), POLE.format("on accessory, at 100 mm up")
    found = heights(box + pole if first else pole + box)
    assert found[first] == pytest.approx((1.5 + 0.04, 1.5 + 0.05))


def test_on_a_thing_without_a_place_said_it_is_within_that_ones_outline() -> None:
    """The box is 60 mm high and stands 400 mm above the bowl."""
    _, pole = heights(BOX.format("on head, at 400 mm up") + POLE.format('on "box"'))
    assert pole == pytest.approx((1.4 + 0.04, 1.46 + 0.05))


@pytest.mark.parametrize(("up", "top"), [(50, 1.1), (400, 1.4)])
def test_on_a_thing_of_no_known_size_it_is_anywhere_up_to_the_plate_or_to_that_one(up: int, top: float) -> None:
    _, box = heights(POLE.format(f"on head, at {up} mm up") + BOX.format('on "pole"'))
    assert box == pytest.approx((0.02, top + 0.02))


def test_a_place_of_which_the_height_is_asked_about_may_be_any() -> None:
    assert heights(BOX.format("on head, at 20 mm forward, ? up")) == [pytest.approx((0.02, 1.1 + 0.02))]
    assert all(math.isfinite(end) for end in heights(ODD.format("on sticks"))[0])
