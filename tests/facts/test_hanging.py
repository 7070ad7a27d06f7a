"""What hangs on the lens mount and on the rods, as facts of a rig."""

from __future__ import annotations

import math

import pytest

from kitproof.facts.values import Amount
from kitproof.words.units import G
from tests.model.texts import PARTS, RIG, amount, made, subject

MOUNT = PARTS.replace('part camera "big camera"\n', 'part camera "big camera"\n  lens moment 10 N m\n')
TORQUE = 3 * 0.100 * G
"""The long lens: 3 kg, 100 mm ahead of its mount."""


def test_a_lens_asks_for_a_share_of_what_the_mount_bears() -> None:
    found = amount(made(RIG, parts=MOUNT), "lens_share")
    assert (found.low, found.high, found.missing) == (pytest.approx(TORQUE / 10), pytest.approx(TORQUE / 10), ())


def test_a_mount_of_which_nothing_is_known_bears_any_share() -> None:
    assert amount(made(RIG), "lens_share") == Amount(-math.inf, math.inf, ('camera "big camera": lens moment',))


@pytest.mark.parametrize("line", ['  camera    "big camera"\n', '  lens      "long lens"\n'])
def test_there_is_no_share_without_a_camera_or_without_a_lens(line: str) -> None:
    assert subject(made(RIG.replace(line, ""), parts=MOUNT)).value("lens_share") is None


@pytest.mark.parametrize(("said", "lacks"), [("length 300 mm", "diameter"), ("diameter 15 mm", "length")])
def test_rods_sag_by_anything_unless_length_and_diameter_are_known(said: str, lacks: str) -> None:
    rods = f'part rods "long rods"\n  mass 0.3 kg\n  {said}\n  sits on rods 15/100\n'
    found = amount(made(RIG + '  rods "long rods"\n' + rods), "rod_sag")
    assert (found.low, found.high) == (0, math.inf)
    assert found.missing == (f'rods "long rods": {lacks}',)


def test_what_a_lens_support_bears_holds_the_torque_of_the_lens() -> None:
    """Away from the mount by an unknown way, it is asked where it stands."""
    support = 'part lens support "prop"\n  mass 0.2 kg\n'
    found = amount(made(RIG + '  lens support "prop", at ?\n' + support), "support_bears")
    assert found.high == math.inf
    assert 'lens support "prop": its place on the rig' in found.missing
    assert subject(made(RIG)).value("support_bears") is None
