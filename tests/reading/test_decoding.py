"""Bytes to text."""

from __future__ import annotations

import codecs

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.reading.decoding import decode


def test_utf_8_with_and_without_a_mark() -> None:
    assert decode("é".encode()) == ("é", None, 0)
    assert decode(codecs.BOM_UTF8 + "é".encode()) == ("é", None, 0)


@pytest.mark.parametrize("end", [b"\n", b"\r\n", b"\r"])
def test_the_code_page_of_office_programs(end: bytes) -> None:
    text, slip, line = decode(b"a" + end + b"b" + end + b"Caf\xe9 \x93x\x94")
    assert text.endswith("Café “x”")
    assert line == 3
    assert slip is not None
    assert (slip.kind, slip.start, slip.end, slip.said) == ("not-utf-8", 3, 4, "é")


def test_a_line_that_is_not_utf_8_hides_nothing_of_the_others() -> None:
    text, slip, line = decode("4 N·m\n".encode() + b"Ren\xe9\n" + "8°".encode())
    assert text == "4 N·m\nRené\n8°"
    assert line == 2
    assert slip is not None
    assert (slip.start, slip.end, slip.said) == (3, 4, "é")


def test_a_byte_that_neither_has() -> None:
    text, slip, line = decode(b"\x81")
    assert (text, line) == ("\ufffd", 1)
    assert slip is not None


def test_utf_16_is_read_and_said() -> None:
    text, slip, line = decode("list".encode("utf-16"))
    assert (text, line) == ("list", 1)
    assert slip is not None
    assert slip.said == "UTF-16"


@given(st.binary())
def test_any_bytes_give_a_text(data: bytes) -> None:
    text, slip, line = decode(data)
    assert isinstance(text, str)
    assert (slip is None) == (line == 0)


@given(st.text())
def test_utf_8_comes_back_as_it_was(text: str) -> None:
    assert decode(text.encode())[0] == text.removeprefix("\ufeff")
