"""Questions are sentences that can be sent."""

from __future__ import annotations

import pytest

from kitproof.model.parts import Part
from kitproof.proofing.proof import setting_of
from kitproof.proofing.questions import Question, Verdict, questions
from kitproof.reading.document import Where
from kitproof.showing.questions_text import ASKED, asked, questions_lines
from kitproof.words.kinds import KINDS, fields_of
from tests.model.texts import RIG, made
from tests.proofing.lists import DAY, book


@pytest.mark.parametrize(
    ("text", "question"),
    [
        (f'list "x"\n  wind  ?\n{RIG}', "For all rigs: how strong a wind is to be reckoned with?"),
        (f"{RIG}  wind  ?\n", "For rig A: how strong a wind is to be reckoned with?"),
        (f'list "x"\n  ground slope  5 mm\n{RIG}', "For all rigs: how far does the ground slope where it is steepest?"),
    ],
)
def test_what_a_list_leaves_open_for_all_rigs_is_asked_once_for_all(text: str, question: str) -> None:
    found = [asked(each) for each in questions(setting_of(made(text), book(), DAY), book())]
    assert found.count(question) == 1


def shown(headings: list[str], found: list[Question]) -> list[str]:
    return ["".join(piece.text for piece in line) for line in questions_lines(headings, found)]


def question(to: str, path: str, count: int = 1) -> Question:
    settles = tuple(Verdict(f"rule-{number}", "wrong", "rig A", path) for number in range(count))
    return Question("case k: charge", "charge", None, to, settles, count, path=path)


def test_questions_are_grouped_by_who_has_the_part() -> None:
    lines = shown(["a.kitlist"], [question("Harrow", "a.kitlist"), question("", "a.kitlist"), question("Harrow", "a")])
    heads = [line for line in lines if line.startswith("To ")]
    assert heads == ["To Harrow:", "To whoever made the list:"]
    assert [line[0] for line in lines if line[:1].isdigit()] == ["1", "2", "3"]
    assert "       Settles 1 verdict: rule-0 in rig A." in lines


def test_over_several_lists_it_is_said_which_is_meant() -> None:
    lines = shown(["a", "b"], [question("Harrow", "a"), question("", "a"), question("", "b")])
    assert [line for line in lines if line.startswith("To ")] == [
        "To Harrow:",
        "To whoever made a:",
        "To whoever made b:",
    ]
    assert "       Settles 1 verdict: rule-0 in rig A of a." in lines
    assert lines.count("       Settles 1 verdict: rule-0 in rig A.") == 2


def test_of_many_verdicts_some_are_named() -> None:
    text = " ".join(line.strip() for line in shown(["a"], [question("Harrow", "a", 20)]))
    assert text.endswith("rule-11 in rig A and 8 more.")


OF_A_LINE = {"its_place_on_the_rig", "its_place_on_its_travel", "in_no_parts_book"}


@pytest.mark.parametrize("field", sorted(set(ASKED) - OF_A_LINE))
def test_there_is_such_a_field_of_a_part(field: str) -> None:
    assert field in {each.name for kind in KINDS for each in fields_of("part", kind).values()}


@pytest.mark.parametrize("kind", ["rods", "sticks", "camera"])
def test_a_question_names_the_part_that_it_is_about(kind: str) -> None:
    part = Part(kind=kind, name="Brack 7", where=Where("list", 1, 1, 1, 2))
    found = Question(asks="", part=part, field="made_of", loose=False, to="", settles=(), waits=1)
    assert asked(found) == f'What is the {kind} "Brack 7" made of?'
