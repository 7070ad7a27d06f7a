"""What was said of rigs before: never another proof than judging every rig anew gives, and no rig judged in vain."""

from __future__ import annotations

import pickle
import re
from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from kitproof.model.kitlist import KitList
from kitproof.proofing import again
from kitproof.proofing.again import Memory
from kitproof.proofing.findings import Proof
from kitproof.proofing.judging import judged_rig
from kitproof.proofing.proof import proof
from kitproof.rulebook.rules import RuleBook
from tests.house.repository import ROOT
from tests.proofing.lists import DAY, book, proofed, read_bytes

STOCK = (ROOT / "samples" / "stock" / "thrapley.kitlist").read_text()
UNITS = ("second-unit-faults", "nine-bells-faults")


def _entries(text: str) -> list[str]:
    return [each for each in re.split(r"\n(?=\w)", text) if not each.startswith(("#", "use", "list"))]


def _text() -> str:
    """The rigs and orders of two samples in one list of two dozen parts and four rigs, with the parts they name."""
    entries = [each for name in UNITS for each in _entries((ROOT / "samples" / f"{name}.kitlist").read_text())]
    rigs = [each for each in entries if each.startswith(("rig Ridge", "rig Far", "rig A\n"))]
    orders = [each for each in entries if each.startswith(("order", "case", "move"))][:3]
    named = set(re.findall(r'"([^"]+)"', "\n".join((*rigs, *orders))))
    parts = [each for each in _entries(STOCK) if each.startswith("part") and each.split('"')[1] in named]
    chargers = [each for each in _entries(STOCK) if each.startswith("part charger")][:1]
    return 'list "Again"\n  dates 2027-03-01 to 2027-03-05\n\n' + "\n".join((*parts, *chargers, *rigs, *orders))


TEXT = _text()
NUMBER = re.compile(r"(?<=[ .])\d+(?=[ .]|$)")


@st.composite
def edited(draw: st.DrawFn, text: str) -> str:
    """The text with one line changed, moved, taken out or said twice."""
    lines = text.split("\n")
    at = draw(st.integers(0, len(lines) - 1))
    change = draw(st.sampled_from(("figure", "out", "twice", "move", "blank")))
    if change == "figure":
        lines[at] = NUMBER.sub(lambda _: str(draw(st.integers(1, 900))), lines[at], count=1)
    elif change == "out":
        del lines[at]
    elif change == "twice":
        lines.insert(at, lines[at])
    elif change == "move":
        lines.insert(draw(st.integers(0, len(lines) - 1)), lines.pop(at))
    else:
        lines.insert(at, "")
    return "\n".join(lines)


def _again(kitlist: KitList, memory: Memory, day: date = DAY) -> tuple[Proof, Memory]:
    """The proof by a memory, and the memory of the next run, as it comes back from where it is kept."""
    made = proof(kitlist, book_named(), day, memory=memory)
    return made, Memory(*pickle.loads(pickle.dumps((memory.ground, memory.now))))


def book_named() -> RuleBook:
    """The book of tests with a name, as those of the command have."""
    return replace(book(), name="shipped")


@settings(max_examples=12)
@given(st.data())
def test_any_edits_give_the_proof_that_judging_anew_gives(data: st.DataObject) -> None:
    text, memory = TEXT, Memory()
    for _ in range(data.draw(st.integers(2, 4))):
        kitlist = read_bytes(text.encode())
        made, memory = _again(kitlist, memory)
        assert made == proofed(kitlist)
        text = data.draw(edited(text))


def _judged(text: str, memory: Memory, monkeypatch: pytest.MonkeyPatch, day: date = DAY) -> tuple[list[str], Memory]:
    """Which rigs are judged anew."""
    met: list[str] = []

    def counting(setting, by, rig):  # type: ignore[no-untyped-def]  # as the function it stands for
        met.append(rig.name)
        return judged_rig(setting, by, rig)

    with monkeypatch.context() as patched:
        patched.setattr(again, "judged_rig", counting)
        _, after = _again(read_bytes(text.encode()), memory, day)
    return met, after


def test_only_the_rigs_that_a_change_reaches_are_judged_again(monkeypatch: pytest.MonkeyPatch) -> None:
    every, memory = _judged(TEXT, Memory(), monkeypatch)
    assert every == ["Ridge", "Far bank", "A"]
    assert _judged(TEXT, memory, monkeypatch)[0] == []
    slope = TEXT.replace("ground slope  up to 8°", "ground slope  up to 7°")
    assert _judged(slope, memory, monkeypatch)[0] == ["Ridge"]
    sticks = re.sub(r'(part sticks "Wendle mast 100"\n  mass +)[\d.]+', r"\g<1>9.9", TEXT)
    assert sticks != TEXT
    # In rig A two parts do not mate, and any part of the books might have joined them: all of them were looked at.
    assert _judged(sticks, memory, monkeypatch)[0] == ["Ridge", "A"]


def test_what_a_fact_looks_at_elsewhere_in_the_list_is_held_too(monkeypatch: pytest.MonkeyPatch) -> None:
    """A title may name what the list is for, which the rules of scope ask after for every rig."""
    _, memory = _judged(TEXT, Memory(), monkeypatch)
    assert _judged(TEXT.replace('"Again"', '"Gimbal"'), memory, monkeypatch)[0] == ["Ridge", "Far bank", "A"]


POWERED = """
part battery "B"
  energy 98 Wh
  voltage 14.4 V
part camera "C"
  draws 60 W
part charger "Four at once"
  charges at once 4
  charges in 3 h

rig A
  camera "C"
  battery "B"
  day 10 h
"""


def test_a_charger_that_is_ordered_is_held_for_the_batteries_of_a_rig(monkeypatch: pytest.MonkeyPatch) -> None:
    first, memory = _judged(POWERED, Memory(), monkeypatch)
    assert first == ["A"]
    ordered = POWERED + '\norder "Thrapley"\n  1 x "Four at once"\n'
    assert _judged(ordered, memory, monkeypatch)[0] == ["A"]
    assert _judged(POWERED + "\n# nothing new\n", memory, monkeypatch)[0] == []


def test_another_day_or_another_book_is_another_memory(monkeypatch: pytest.MonkeyPatch) -> None:
    _, memory = _judged(TEXT, Memory(), monkeypatch)
    assert len(_judged(TEXT, memory, monkeypatch, DAY + timedelta(days=1))[0]) == 3
    kitlist = read_bytes(TEXT.encode())
    proof(kitlist, book(), DAY, memory=memory)  # a book without a name is like no other
    assert memory.changed
    assert proof(kitlist, book(), DAY, memory=memory) == proofed(kitlist)


def test_half_a_character_is_never_the_same() -> None:
    assert again.seen(("a", 1.0)) == again.seen(("a", 1.0))
    assert again.seen("\ud800") is None
