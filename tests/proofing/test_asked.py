"""What a list says on purpose that it does not know about its cases counts like a doubt."""

from __future__ import annotations

import pytest

from kitproof.proofing.asked import asked_on_purpose
from tests.proofing.lists import proofed, read_bytes

CASE = """
part monitor "Brack 17"
  mass      4.6 kg
  size      60 x 420 x 290 mm

case "Pictures"
  mass      6 kg
  limit     12 kg
  inside    500 x 400 x 200 mm
  holds     "Brack 17"
"""


@pytest.mark.parametrize(
    ("field", "value"),
    [("mass", "6 kg"), ("limit", "12 kg"), ("inside", "500 x 400 x 200 mm")],
)
def test_what_a_case_says_as_a_question_mark_is_owed(field: str, value: str) -> None:
    assert not proofed(read_bytes(CASE.encode())).sends_back("wrong")
    text = CASE.replace(f"{field:<9} {value}", f"{field} ?", 1)
    listed = read_bytes(text.encode())
    assert asked_on_purpose(listed) == {f'case "Pictures": {field}'}
    assert proofed(listed).sends_back("wrong")


def test_what_a_case_does_not_say_at_all_is_not_owed() -> None:
    listed = read_bytes(CASE.replace("  limit     12 kg\n", "").encode())
    assert asked_on_purpose(listed) == frozenset()
    assert not proofed(listed).sends_back("wrong")


def test_a_place_that_is_asked_about_is_owed_of_a_slide_on_its_travel() -> None:
    text = 'part slide "Sallow"\n  mass 1 kg\npart monitor "Brack"\n  mass 1 kg\nrig A\n  camera "c", 3 kg\n'
    listed = read_bytes((text + '  slide "Sallow", at ?\n  monitor "Brack", at ?\n').encode())
    asked = {'slide "Sallow": its place on its travel', 'monitor "Brack": its place on the rig'}
    assert asked_on_purpose(listed) == asked
