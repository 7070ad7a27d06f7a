"""What holds for every text: no exception, exact places, neighbours left alone, line ends that make no difference."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec import Struct
from msgspec.structs import fields, replace

from kitproof.reading.characters import LONGEST_LINE
from kitproof.reading.document import Document, Entry, Field
from kitproof.reading.entries import read
from kitproof.reading.fields import read_line
from kitproof.reading.rewriting import rewritten
from kitproof.words.shapes import Shape
from tests.reading.samples import fragments, good_texts

GOOD = good_texts()
FRAGMENTS = fragments()
BAD_LINES = ("  }{", '  note "open', "  wnid 6 m/s", "  \x00", "  mass 6,4 kg and", "  # only a comment", "")


@st.composite
def mutated(draw: st.DrawFn) -> str:
    """A good list with pieces put in, taken out and exchanged."""
    text = draw(st.sampled_from(GOOD))
    for _ in range(draw(st.integers(1, 8))):
        start = draw(st.integers(0, len(text)))
        end = min(len(text), start + draw(st.integers(0, 6)))
        put = draw(st.one_of(st.sampled_from(FRAGMENTS), st.text(max_size=4), st.just("\n")))
        text = text[:start] + put + text[end:]
    return text


@given(st.one_of(st.text(), mutated()))
def test_any_text_gives_a_document_with_exact_places(text: str) -> None:
    document = read(text, "a.kitlist")
    assert document.text == text
    for entry in document.entries:
        _check_entry(document, entry)
    for line, slip in document.slips:
        assert slip.said == document.lines[line - 1][slip.start : slip.end]


def _check_entry(document: Document, entry: Entry) -> None:
    rows = {field.row for field in entry.fields} | set(entry.unread) | {slip.row for slip in entry.slips}
    for row in range(1, entry.rows):
        line = document.lines[entry.line + row - 1]
        assert row in rows or not line.strip() or line.lstrip().startswith("#"), "a line was silently left out"
    for slip in entry.slips:
        line = document.lines[entry.line + slip.row - 1]
        assert slip.start < slip.end <= len(line)
        assert slip.said == line[slip.start : slip.end]
        assert slip.wanted
    for field in entry.fields:
        line = document.lines[entry.line + field.row - 1]
        assert field.start <= field.value_start <= field.value_end <= field.end <= len(line)
        if field.value is None:
            assert any(slip.row == field.row for slip in entry.slips)
        else:
            _check_inside(field.value, field.start, field.end)


def _check_inside(node: Any, start: int, end: int) -> None:
    """Every node lies inside the stretch of the field."""
    if isinstance(node, tuple):
        for each in node:
            _check_inside(each, start, end)
    elif isinstance(node, Struct):
        inner = {each.name: getattr(node, each.name) for each in fields(node)}
        if "start" in inner:
            assert start <= inner["start"] < inner["end"] <= end
        for each in inner.values():
            _check_inside(each, start, end)


def _moved(node: Any, by: int) -> Any:
    """The node with its columns moved, so that equal values at two places compare equal."""
    if isinstance(node, tuple) and not hasattr(node, "_fields"):
        return tuple(_moved(each, by) for each in node)
    if not isinstance(node, Struct):
        return node
    changes = {each.name: _moved(getattr(node, each.name), by) for each in fields(node)}
    columns = [name for name in changes if name in ("start", "end", "on_start", "on_end")]
    changes |= {name: getattr(node, name) + by for name in columns if name in ("start", "end") or changes["on"]}
    return replace(node, **changes)


def _good_fields() -> list[tuple[str, str, str, Field]]:
    found = []
    for text in GOOD:
        document = read(text, "a")
        for entry in document.entries:
            for field in entry.fields:
                line = document.lines[entry.line + field.row - 1]
                found.append((entry.kind, entry.part_kind, line, field))
    return found


@pytest.mark.parametrize(("kind", "part_kind", "line", "field"), _good_fields())
def test_the_text_at_a_value_reads_as_that_value(kind: str, part_kind: str, line: str, field: Field) -> None:
    assert field.value is not None
    word = "" if field.shape in (Shape.ORDERED, Shape.FLAG) else field.word + " "
    again = read_line(kind, part_kind, "    " + word + line[field.value.start : field.value.end]).field
    assert again is not None
    assert again.value is not None
    assert _moved(again.value, field.value.start - again.value.start) == field.value


def test_good_lists_have_no_slips() -> None:
    for text in GOOD:
        assert [slip for entry in read(text, "a").entries for slip in entry.slips] == []


@given(st.sampled_from(GOOD), st.data())
def test_a_bad_line_leaves_the_others_as_they_were(text: str, data: st.DataObject) -> None:
    lines = text.split("\n")
    place = data.draw(st.integers(1, len(lines) - 1))
    bad = data.draw(st.sampled_from(BAD_LINES))
    before = _all_fields(read(text, "a"))
    after = _all_fields(read("\n".join([*lines[:place], bad, *lines[place:]]), "a"))
    kept = [(line, each) for line, each in after if line != place + 1]
    assert [each for _, each in kept] == [each for _, each in before]


def _all_fields(document: Document) -> list[tuple[int, Field]]:
    return [(e.line + f.row, replace(f, row=0)) for e in document.entries for f in e.fields]


@pytest.mark.parametrize("end", ["\r\n", "\r"])
def test_other_line_ends_read_alike(end: str) -> None:
    for text in GOOD:
        assert read(text.replace("\n", end), "a").entries == read(text, "a").entries


@given(mutated())
def test_no_change_is_the_text(text: str) -> None:
    assert rewritten(read(text, "a"), []) == text


@given(mutated())
def test_a_repair_made_alone_removes_its_slip(text: str) -> None:
    document = read(text, "a")
    for entry in document.entries:
        for slip in entry.slips:
            if slip.repair is None:
                continue
            where = document.where(entry, slip.row, slip.start, slip.end)
            mended = rewritten(document, [(where, slip.repair)])
            assert mended != text
            assert (entry.line + slip.row, slip.start, slip.said) not in _all_slips(read(mended, "a"))


def _all_slips(document: Document) -> list[tuple[int, int, str]]:
    return [(e.line + slip.row, slip.start, slip.said) for e in document.entries for slip in e.slips]


def test_a_line_that_is_too_long_is_one_slip_and_its_neighbours_are_read() -> None:
    document = read(f'part head "x"\n  mass {"6" * LONGEST_LINE} kg\n  height 20 mm\n', "a")
    (entry,) = document.entries
    assert [field.word for field in entry.fields] == ["height"]
    assert [(slip.kind, slip.row) for slip in entry.slips] == [("unreadable-line", 1)]
    assert entry.unread == (1,)


def test_comments_and_blank_lines_may_stand_anywhere() -> None:
    document = read('# a\n\nrig A # b\n# c\n\n  head "x" # d\n\t# e\n  left standing#f\n', "a")
    (entry,) = document.entries
    assert [(field.word, field.row) for field in entry.fields] == [("head", 3), ("left standing", 5)]
    assert entry.slips == ()
