"""Questions are sentences that can be sent."""

from __future__ import annotations

import pytest

from kitproof.proofing.proof import setting_of
from kitproof.proofing.questions import questions
from kitproof.showing.questions_text import asked
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
