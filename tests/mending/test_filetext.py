"""Bytes to text and back: whatever the bytes."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from kitproof.mending.filetext import FileText, opened
from kitproof.mending.layout import neatened
from kitproof.reading.decoding import decode


@given(st.binary())
def test_back_to_the_same_bytes(data: bytes) -> None:
    found = opened(data)
    assert found is None or found.with_text(found.text) == data


@given(st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\ufeff")))
def test_utf_8_reads_as_the_reader_reads_it(text: str) -> None:
    assert opened(text.encode()) == FileText(text)
    assert decode(text.encode())[0] == text


def test_a_mark_is_kept() -> None:
    found = opened(b"\xef\xbb\xbfrig  A\n")
    assert found is not None
    assert found.with_text(neatened(found.text)) == b"\xef\xbb\xbfrig A\n"


def test_utf_16_is_not_changed() -> None:
    assert opened("rig A".encode("utf-16")) is None


def test_a_line_that_is_not_utf_8_stays_to_the_byte() -> None:
    data = b'list "Nuit am\xe9ricaine"   \n  wind   4m/s\n'
    found = opened(data)
    assert found is not None
    assert found.with_text(neatened(found.text)) == b'list "Nuit am\xe9ricaine"   \n  wind      4 m/s\n'
