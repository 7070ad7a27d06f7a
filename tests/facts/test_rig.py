"""What a list says of the conditions of a rig, if only `?`, is told from what it leaves out."""

from __future__ import annotations

import pytest

from kitproof.facts.values import Truth, Verdict, Words
from tests.model.texts import RIG, made, subject

CONDITIONS = {
    "tilts": "-20° to 20°",
    "push": "40 N",
    "drag": "3 N·m",
    "day": "10 h",
    "site temperature": "-5..30 °C",
    "ground slope": "up to 5°",
    "wind": "6 m/s",
}
EVERY = pytest.mark.parametrize("word", CONDITIONS)


def said(text: str, word: str, rig: str = "A") -> Truth:
    found = subject(made(text), rig).value(f"{word.replace(' ', '_')}_said")
    assert isinstance(found, Verdict)
    return found.truth


@EVERY
@pytest.mark.parametrize("how", ["as it is", "?", "many"])
def test_what_is_written_is_said_be_it_a_question_mark_or_not_to_be_read(word: str, how: str) -> None:
    value = CONDITIONS[word] if how == "as it is" else how
    assert said(f"{RIG}  {word}  {value}\n", word) is Truth.TRUE


@EVERY
def test_what_is_left_out_is_not_said(word: str) -> None:
    assert said(RIG, word) is Truth.FALSE


@pytest.mark.parametrize("value", ["6 m/s", "?", "strong"])
def test_a_condition_of_the_whole_list_is_said_for_its_rigs(value: str) -> None:
    assert said(f'list "x"\n  wind  {value}\n{RIG}', "wind") is Truth.TRUE


def test_what_the_list_says_for_its_rigs_stands_where_the_list_says_it() -> None:
    kitlist = made(f'list "x"\n  wind  6 m/s\n  floor  hard\n{RIG}  floor  soft\n\nrig B like A\n')
    lines = {rig: [subject(kitlist, rig).place(word).line for word in ("wind", "floor")] for rig in "AB"}
    own = next(number for number, line in enumerate(kitlist.documents[0].lines, 1) if "soft" in line)
    wind = next(number for number, line in enumerate(kitlist.documents[0].lines, 1) if "m/s" in line)
    assert lines == {"A": [wind, own], "B": [wind, own]}


def test_a_condition_of_the_list_that_cannot_be_read_is_not_known_to_its_rigs() -> None:
    wind = subject(made(f'list "x"\n  wind  strong\n{RIG}'), "A").amount("wind")
    assert wind.missing == ("the list: wind",)


def test_a_rig_like_another_says_what_the_other_says() -> None:
    text = f"{RIG}  tilts ?\n\nrig B like A\n  push 40 N\n"
    assert (said(text, "tilts", "B"), said(text, "push", "B"), said(text, "push", "A")) == (
        Truth.TRUE,
        Truth.TRUE,
        Truth.FALSE,
    )


@pytest.mark.parametrize("word", ["floor hard", "floor ?", "left standing"])
def test_words_and_marks_are_said_as_well(word: str) -> None:
    assert said(f"{RIG}  {word}\n", word.removesuffix(" hard").removesuffix(" ?")) is Truth.TRUE


@pytest.mark.parametrize(
    ("listed", "own", "missing"),
    [
        ("", "", "rig A: ground slope"),
        ("  ground slope ?\n", "", "the list: ground slope"),
        ("", "  ground slope ?\n", "rig A: ground slope"),
        ("  ground slope up to 3°\n", "  ground slope ?\n", "rig A: ground slope"),
    ],
)
def test_a_condition_that_is_not_known_is_missing_where_it_would_be_said(listed: str, own: str, missing: str) -> None:
    found = subject(made(f'list "x"\n{listed}{RIG}{own}'), "A").amount("ground_slope")
    assert found.missing == (missing,)


def test_conditions_in_words_are_those_words_or_missing() -> None:
    said_hard, not_said = (subject(made(f"{RIG}{line}"), "A") for line in ("  floor hard\n  left standing\n", ""))
    assert said_hard.value("floor") == Words("hard")
    assert not_said.value("floor") == Words(None, ("rig A: floor",))
    assert said_hard.value("left_standing") == Verdict(Truth.TRUE)
    assert not_said.value("left_standing") == Verdict(Truth.FALSE)
