"""What pushes a rig over: the push that is said, and the house's own where it is left standing."""

from __future__ import annotations

import math

import pytest

from kitproof.facts.pushing import pushes
from tests.model.texts import RIG, made, subject

PLATE = (1.5, 2.0)


@pytest.mark.parametrize(
    ("said", "moment", "missing"),
    [
        ("", (0, 0), ()),
        ("  push 20..60 N\n", (20 * 1.5, 60 * 2.0), ()),
        ("  push ?\n", (0, math.inf), ("rig A: push",)),
        ("  left standing\n", (40 * 1.5, 40 * 2.0), ()),
        ("  push 20..60 N\n  left standing\n", (40 * 1.5, 60 * 2.0), ()),
        ("  push 50 N\n  left standing\n", (50 * 1.5, 50 * 2.0), ()),
    ],
)
def test_a_push_at_the_plate(said: str, moment: tuple[float, float], missing: tuple[str, ...]) -> None:
    """Force × height of the plate, 1.5 to 2 m; left standing, a rig must bear at least the 40 N of the house."""
    found, lacks = pushes(subject(made(RIG + said)), PLATE)
    assert found == pytest.approx(moment)
    assert lacks == missing


def test_a_wind_that_is_not_known_may_push_by_anything_and_no_wind_by_nothing() -> None:
    assert pushes(subject(made(RIG + "  wind ?\n")), PLATE) == ((0, math.inf), ("rig A: wind",))
    assert pushes(subject(made(RIG + "  wind 0 m/s\n")), PLATE) == ((0, 0), ())


WIND_PARTS = """
part camera "camera"
  mass 1 kg
  cog 0 mm up
  size 100 x 200 x 300 mm

part monitor "monitor"
  mass 1 kg
  cog 0 mm up
  size 20 x 100 x 200 mm

part lens "lens"
  mass 1 kg
  cog 0 mm up
"""
WINDY = 'rig A\n  camera "camera"\n  wind 10 m/s\n'
MONITOR = '  monitor "monitor", at 400 mm up\n'
BY_AREA = 0.5 * 1.225 * 10**2 * 1.28
"""N per m² of a flat plate square to a wind of 10 m/s."""
CAMERA = BY_AREA * 0.2 * 0.3 * (1.5 + 0.15)
ABOVE = BY_AREA * 0.1 * 0.2 * (1.5 + 0.4 + 0.1)
SIZE = {"camera": "  size 100 x 200 x 300 mm\n", "monitor": "  size 20 x 100 x 200 mm\n"}


def blown(lines: str = WINDY, plate: tuple[float, float] = (1.5, 1.5), **of: str) -> tuple[object, tuple[str, ...]]:
    """What `pushes` gives; `of` puts a line of a part in the place of its size."""
    parts = WIND_PARTS
    for name, line in of.items():
        parts = parts.replace(SIZE[name], line)
    return pushes(subject(made(lines, parts=parts)), plate)


def near(low: float, high: float) -> object:
    return pytest.approx((low, high))


def test_the_wind_meets_at_least_the_greatest_side_and_at_most_all_of_them() -> None:
    """Each the longer of along and across, times its height; at half its height above its seat."""
    assert blown() == (near(CAMERA, CAMERA), ())
    assert blown(WINDY + MONITOR) == (near(CAMERA, CAMERA + ABOVE), ())


def test_a_sail_area_that_is_said_stands_for_the_whole() -> None:
    said = SIZE["monitor"] + "  sail area 0.05 m²\n"
    above = BY_AREA * 0.05 * (1.5 + 0.4 + 0.1)
    assert blown(WINDY + MONITOR, monitor=said) == (near(above, above), ())
    both = BY_AREA * 0.1 * (1.5 + 0.15) + above
    assert blown(WINDY + MONITOR, monitor=said, camera=SIZE["camera"] + "  sail area 0.1 m²\n") == (
        near(both, both),
        (),
    )


def test_a_sail_area_that_is_asked_about_leaves_the_sides() -> None:
    asked = SIZE["monitor"] + "  sail area ?\n"
    assert blown(WINDY + MONITOR, monitor=asked) == (near(CAMERA, CAMERA + ABOVE), ())


def test_hung_below_the_head_the_wind_meets_it_lower_and_never_below_the_ground() -> None:
    below = BY_AREA * 0.2 * 0.3
    assert blown(WINDY + "  underslung\n") == (near(below * 1.35, below * 1.35), ())
    assert blown(WINDY + "  underslung\n", plate=(0.1, 0.3)) == (near(0.0, below * 0.15), ())
    assert blown(WINDY + "  underslung\n", plate=(0.05, 0.1)) == (near(0.0, 0.0), ())


def test_what_the_wind_meets_is_asked_for_where_it_is_not_known() -> None:
    lacks = 'camera "camera": size'
    assert blown(camera="") == (near(0.0, math.inf), (lacks,))
    _, missing = blown(camera="  sail area 0.1 m²\n")
    assert missing == (lacks,), "of an area that is said the height is still to be known"
    _, missing = blown(WINDY.replace('camera "camera"', 'camera "camera"\n  lens "lens", at 10 mm up'))
    assert missing == ('lens "lens": size',)
    _, missing = blown(WINDY + '  monitor "monitor", at ?\n', camera="", monitor="")
    assert missing == (lacks, 'monitor "monitor": its place on the rig', 'monitor "monitor": size')


def test_wind_is_asked_for_before_the_push() -> None:
    _, missing = pushes(subject(made(RIG + "  push ?\n  wind ?\n")), PLATE)
    assert missing == ("rig A: wind", "rig A: push")


def test_wind_and_push_are_taken_to_push_the_same_way() -> None:
    assert blown(WINDY + "  push 30 N\n") == (near(CAMERA + 45, CAMERA + 45), ())
