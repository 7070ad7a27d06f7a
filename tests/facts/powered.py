"""Rigs with a camera and a battery, for tests of what they draw and how long they last."""

from __future__ import annotations

from kitproof.facts.build import combinations
from kitproof.facts.rig import RigSubject
from tests.model.texts import setting
from tests.proofing.lists import read_bytes

CAMERA = 'part camera "C"\n  mass 3 kg\n  power 11..17 V\n  draws 40 W, 60 W at most\n'
BATTERY = """
part battery "B"
  mass 0.8 kg
  energy 100 Wh
  voltage 14.4 V
  delivers 140 W
  chemistry lithium-ion
"""
CHARGER = """
part charger "Two-way"
  mass 2 kg
  charges at once 2
  charges in 3 h
"""
BOOK = CAMERA + BATTERY + CHARGER


def rig(text: str = "", battery: str = '"B"', book: str = BOOK, after: str = "") -> RigSubject:
    """The first combination of a rig with a camera and a battery; `text` are more of its lines. A line may
    be one that cannot be read; nothing else may be wrong with it."""
    whole = f'{book}\nrig A\n  camera "C"\n  battery {battery}\n{text}\n{after}'
    kitlist = read_bytes(whole.encode())
    assert {each.slip.kind for each in kitlist.slips} <= {"unreadable-line"}
    return RigSubject(setting(kitlist), next(combinations(kitlist.rigs[0])))
