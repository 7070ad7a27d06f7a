"""Stretches replaced, and nothing else."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.reading.document import Where
from kitproof.reading.entries import read
from kitproof.reading.rewriting import rewritten

TEXT = 'rig A\r\n  head "x"   # kept\r\n  tilts -30° to 20°\r\n'
DOCUMENT = read(TEXT, "a")


def at(line: int, column: int, to_line: int, to_column: int) -> Where:
    return Where("a", line, column, to_line, to_column)


def test_several_on_one_line_and_one_over_lines() -> None:
    changes = [
        (at(2, 3, 2, 7), "camera"),
        (at(2, 8, 2, 11), '"Tern S2"'),
        (at(2, 20, 3, 8), "|"),
        (at(1, 5, 1, 5), "B"),
    ]
    assert rewritten(DOCUMENT, changes) == 'rig BA\r\n  camera "Tern S2"   # kept| -30° to 20°\r\n'


def test_a_line_taken_out_and_one_put_at_the_end() -> None:
    changes = [(at(2, 1, 3, 1), ""), (at(4, 1, 4, 1), "  left standing\n")]
    assert rewritten(DOCUMENT, changes) == "rig A\r\n  tilts -30° to 20°\r\n  left standing\n"


def test_no_change_is_the_text() -> None:
    assert rewritten(DOCUMENT, []) == TEXT


def test_overlapping_changes_are_refused() -> None:
    with pytest.raises(ValueError, match="same words"):
        rewritten(DOCUMENT, [(at(2, 3, 2, 7), "a"), (at(2, 6, 2, 9), "b")])


@pytest.mark.parametrize("where", [(9, 1, 9, 1), (1, 99, 1, 99), (0, 1, 1, 1), (2, 9, 2, 3)])
def test_a_place_outside_the_text_is_refused(where: tuple[int, int, int, int]) -> None:
    with pytest.raises(ValueError, match=r"outside|ends before"):
        rewritten(DOCUMENT, [(at(*where), "")])


@given(st.data())
def test_one_change_leaves_the_rest_as_it_was(data: st.DataObject) -> None:
    text = data.draw(st.text(alphabet=st.sampled_from('ab \r\n"#'), max_size=40))
    document = read(text, "a")
    line = data.draw(st.integers(1, len(document.lines)))
    start = data.draw(st.integers(0, len(document.lines[line - 1])))
    end = data.draw(st.integers(start, len(document.lines[line - 1])))
    offset = sum(map(len, _kept(text)[: line - 1]))
    changed = rewritten(document, [(at(line, start + 1, line, end + 1), "new")])
    assert changed == text[: offset + start] + "new" + text[offset + end :]


def _kept(text: str) -> list[str]:
    """The lines with their ends, worked out another way."""
    marked = text.replace("\r\n", "\0").replace("\r", "\r\1").replace("\n", "\n\1").replace("\0", "\r\n\1")
    return marked.split("\1")
