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
