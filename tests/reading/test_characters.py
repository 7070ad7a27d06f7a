"""Lines, quotes, comments and look-alike characters; no column moves."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.reading.characters import plain, split_lines


@pytest.mark.parametrize(
    ("text", "lines"),
    [
        ("", ("",)),
        ("a", ("a",)),
        ("a\n", ("a", "")),
        ("a\r\nb\rc\nd", ("a", "b", "c", "d")),
        ("a\x0bb\x0cc\x85d\u2028e", ("a\x0bb\x0cc\x85d\u2028e",)),
    ],
)
def test_only_newlines_and_carriage_returns_end_a_line(text: str, lines: tuple[str, ...]) -> None:
    assert split_lines(text)[0] == lines


@given(st.text(alphabet=st.sampled_from('a\r\n\u2028 "#')))
def test_lines_and_ends_joined_are_the_text(text: str) -> None:
    lines, ends = split_lines(text)
    assert "".join(line + end for line, end in zip(lines, ends, strict=True)) == text


@given(st.text(alphabet=st.sampled_from("ab1 \"'“”„‘’#×–−\u00a0")))
def test_a_plain_line_keeps_its_columns(line: str) -> None:
    made = plain(line)
    assert len(made.text) <= len(line)
    assert all(made.text[i] == line[i] for i in range(made.end) if line[i] in "ab1" and made.text[i] != "_")


@pytest.mark.parametrize(
    ("line", "text"),
    [
        ('mass 6 kg # said "so"', "mass 6 kg"),
        ('"a # b" x', '"_____" x'),
        ("“a” or 'b\"c'", '"_" or "___"'),
        ("'the crew's box'", '"______________"'),
        ('12" x 8″', '12" x 8"'),
        ('“5" plate”', '"________"'),
        ('“a" and “b”', '"_" and "_"'),
        ("note don't", "note don't"),
        ("3 × 4 – −5…", "3 x 4 - -5…"),
        ("6\u00a0kg\t", "6 kg"),
        ('"open # no quote', '"open'),
    ],
)
def test_plain(line: str, text: str) -> None:
    assert plain(line).text == text


@pytest.mark.parametrize("mark", ["\x00", "\x1b", "\x7f", "\x85", "\u2028", "\u202e", "\ud800"])
def test_a_character_that_no_line_may_have_is_found(mark: str) -> None:
    assert plain(f'mass "{mark}"').forbidden == 6
    assert plain(f"mass # {mark}").forbidden is None
