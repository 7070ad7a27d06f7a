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


@pytest.mark.parametrize(
    ("text", "word"),
    [
        (f'list "Drone day"\n{RIG}', "Drone"),
        (f'list "x"\n  note "by helicopter"\n{RIG}', "helicopter"),
        (RIG.replace("rig A", 'rig "crane"'), "crane"),
        (f'{RIG}  note "a jib arm"\n', "jib"),
        (f'{RIG}  accessory "gimbal plate", 0.1 kg\n', "gimbal"),
        (f'list "Drone day"\n  note "by helicopter"\n{RIG}  note "a jib"\n', "Drone"),
        (f'{RIG}  note "a jib"\n  accessory "gimbal plate", 0.1 kg\n', "jib"),
        (f'{RIG}  accessory "arm", 0.1 kg\n  accessory "gimbal plate", 0.1 kg\n', "gimbal"),
    ],
)
def test_the_first_word_of_the_list_the_rig_and_its_parts_is_a_sign(text: str, word: str) -> None:
    """The list's name and notes come first, then the rig's, then the parts that stand."""
    rig = subject(made(text), "crane" if 'rig "crane"' in text else "A")
    assert rig.value("outside") == Verdict(Truth.UNDECIDED)
    assert rig.value("mounting") == Words(word)


def test_what_a_rig_is_mounted_on_is_named_unless_it_is_the_ground() -> None:
    assert outside(f'{RIG}  note "a jib"\n  mounted on vehicle\n') == (Truth.TRUE, "vehicle")
    assert outside(f"{RIG}  mounted on ground\n") == (Truth.FALSE, "")
