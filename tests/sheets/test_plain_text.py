"""Text of cells as it may stand in a list."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from kitproof.reading.characters import plain
from kitproof.sheets.plain_text import for_quotes, on_one_line


def test_text_of_a_cell_stays_on_its_line() -> None:
    assert on_one_line("a\nb\x0bc\u2028d\x85e\x00f\u202eg\ufeff") == "a b c d e f g"


@given(st.text())
def test_any_text_can_stand_in_quotes_and_is_one_name_then(text: str) -> None:
    """The reading of lists blots names out: nothing but the name is left of the line."""
    name = for_quotes(text)
    line = plain(f'"{name}", and')
    assert line.text == '"' + "_" * len(name) + '", and'
    assert line.forbidden is None
