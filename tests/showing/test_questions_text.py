"""Questions are sentences that can be sent."""

from __future__ import annotations

import pytest

from kitproof.model.parts import Part
from kitproof.proofing.proof import setting_of
from kitproof.proofing.questions import Question, questions
from kitproof.reading.document import Where
from kitproof.showing.questions_text import ASKED, asked
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


@pytest.mark.parametrize("field", sorted(set(ASKED) - {"its_place_on_the_rig", "in_no_parts_book"}))
def test_there_is_such_a_field_of_a_part(field: str) -> None:
    assert field in {each.name for kind in KINDS for each in fields_of("part", kind).values()}


@pytest.mark.parametrize("kind", ["rods", "sticks", "camera"])
def test_a_question_names_the_part_that_it_is_about(kind: str) -> None:
    part = Part(kind=kind, name="Brack 7", where=Where("list", 1, 1, 1, 2))
    found = Question(asks="", part=part, field="made_of", loose=False, to="", settles=(), waits=1)
    assert asked(found) == f'What is the {kind} "Brack 7" made of?'
