"""What hangs on the lens mount and on the rods, as facts of a rig."""

from __future__ import annotations

import math

import pytest

from kitproof.facts.part import PartSubject
from kitproof.facts.values import Amount, Truth, Verdict
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


@pytest.mark.parametrize(
    ("said", "truth"),
    [
        ("  quick release manual lock\n", Truth.TRUE),
        ("  quick release safety catch\n", Truth.TRUE),
        ("", Truth.MISSING),
    ],
)
def test_a_quick_release_is_made_safe_by_hand_where_the_book_says_so(said: str, truth: Truth) -> None:
    parts = PARTS.replace('part head "small head"\n', f'part head "small head"\n{said}')
    head = subject(made(RIG, parts=parts)).value("head")
    assert isinstance(head, PartSubject)
    found = head.value("safety_by_hand")
    assert isinstance(found, Verdict)
    assert found.truth is truth


def test_what_is_put_on_the_rods_bends_them_and_what_is_not_does_not() -> None:
    """1 kg at the end of two rods of 300 mm, 15/13 mm, of aluminium, E 70 GPa: F L³ over 3 E I, shared by two."""
    rods = 'part rods "r"\n  mass 0.3 kg\n  length 300 mm\n  diameter 15 mm\n  wall 1 mm\n  made of aluminium\n'
    box = 'part accessory "box"\n  mass 1 kg\n'
    on = amount(made(RIG + '  rods "r"\n  accessory "box", on rods, at 300 mm forward\n' + rods + box), "rod_sag")
    inertia = math.pi / 64 * (0.015**4 - 0.013**4)
    assert on.low == on.high == pytest.approx(G / 2 * 0.3**3 / (3 * 70e9 * inertia))
    off = amount(made(RIG + '  rods "r"\n  accessory "box", on camera\n' + rods + box), "rod_sag")
    assert (off.low, off.high) == (0, 0)
