"""What lies outside this proof: said, hinted at, settled, or asked for."""

from __future__ import annotations

import pytest

from kitproof.facts.values import Truth, Verdict, Words
from kitproof.words.kinds import MOUNTINGS
from tests.model.texts import RIG, made, subject


def outside(text: str) -> tuple[Truth, str | None]:
    rig = subject(made(text))
    found, mounting = rig.value("outside"), rig.value("mounting")
    assert isinstance(found, Verdict)
    assert isinstance(mounting, Words)
    return found.truth, mounting.text


@pytest.mark.parametrize("mounting", [each for each in MOUNTINGS if each != "ground"])
def test_a_rig_that_says_so_is_outside_for_certain(mounting: str) -> None:
    assert outside(f"{RIG}  mounted on {mounting}\n") == (Truth.TRUE, mounting)


def test_a_rig_that_says_nothing_is_not_outside() -> None:
    assert outside(RIG) == (Truth.FALSE, "")


@pytest.mark.parametrize("note", ["the crane comes later", "on a moving dolly", "Hanging over people"])
def test_a_word_in_a_note_is_a_sign_and_no_more(note: str) -> None:
    assert outside(f'{RIG}  note "{note}"\n')[0] is Truth.UNDECIDED


@pytest.mark.parametrize("note", ["cranesbill in the foreground", "no-crane zone", "the invertedness of it"])
def test_a_word_that_only_holds_such_a_word_is_no_sign(note: str) -> None:
    assert outside(f'{RIG}  note "{note}"\n')[0] is Truth.FALSE


def test_the_ground_settles_a_word_in_a_note() -> None:
    assert outside(f'{RIG}  note "the crane comes later"\n  mounted on ground\n')[0] is Truth.FALSE


def test_a_question_mark_is_asked_about() -> None:
    rig = subject(made(f"{RIG}  mounted on ?\n"))
    assert rig.value("outside") == Verdict(Truth.MISSING, ("rig A: what it is mounted on",))
