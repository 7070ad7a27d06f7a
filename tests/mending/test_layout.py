"""Neatening: one layout, the same meaning, the same comments, and what cannot be read left as it is."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.mending.layout import neatened
from kitproof.mending.sameness import same
from kitproof.reading.characters import split_lines
from kitproof.reading.entries import read
from tests.reading.samples import fragments, good_texts

TOP = Path(__file__).parents[2]
LISTS = [
    *good_texts(),
    *(each.read_bytes().decode("utf-8-sig", "replace") for each in sorted(TOP.glob("samples/**/*.kitlist"))),
]
FRAGMENTS = st.one_of(
    st.sampled_from(("", " ", "   ", "\t", "\n", "\n\n", "\r\n", "\r", " # why", "\u00a0")),
    st.sampled_from(fragments()),
    st.text(max_size=3),
)


@st.composite
def untidy(draw: st.DrawFn) -> str:
    """A list with spaces, ends of lines and words put in and taken out."""
    text = draw(st.sampled_from(LISTS))
    lines = text.split("\n")
    first = draw(st.integers(0, len(lines) - 1))
    text = "\n".join(lines[first : first + draw(st.integers(1, 30))])
    for _ in range(draw(st.integers(1, 8))):
        start = draw(st.integers(0, len(text)))
        end = min(len(text), start + draw(st.integers(0, 3)))
        put = draw(FRAGMENTS)
        text = text[:start] + put + text[end:]
    return text


def comments(text: str) -> list[str]:
    """What stands after the first # of each line, near enough: names with a # in them stay where they are too."""
    return [line[line.index("#") :].rstrip(" \t") for line in split_lines(text)[0] if "#" in line]


@given(st.one_of(st.text(), untidy()))
def test_it_reads_as_the_same_document(text: str) -> None:
    assert same(read(text, "a"), read(neatened(text), "a"))


@given(st.one_of(st.text(), untidy()))
def test_twice_is_the_same_as_once(text: str) -> None:
    once = neatened(text)
    assert neatened(once) == once


@given(untidy())
def test_comments_and_what_is_not_read_stay(text: str) -> None:
    neat = neatened(text)
    assert comments(neat) == comments(text)
    lines = split_lines(neat)[0]
    document = read(text, "a")
    for entry in document.entries:
        for row in (*entry.unread, *(slip.row for slip in entry.slips)):
            assert document.lines[entry.line + row - 1] in lines


@given(untidy(), st.sampled_from(("\n", "\r\n", "\r")))
def test_line_ends_are_kept(text: str, end: str) -> None:
    text = end.join(split_lines(text)[0])
    assert set(split_lines(neatened(text))[1]) <= {end if len(split_lines(text)[1]) > 1 else "\n", ""}


@pytest.mark.parametrize(
    ("untidy", "neat"),
    [
        ("part  head   'F12'\n mass 6.4kg\n", "part head 'F12'\n  mass      6.4 kg\n"),
        ('rig A\n\n\n\thead "F"# why\n', 'rig A\n\n  head      "F"  # why\n'),
        ("rig A\n  tilts -30 ° to 20°\n", "rig A\n  tilts     -30° to 20°\n"),
        ('rig A\n  lens support "L",at 3mm up , on head\n', 'rig A\n  lens support  "L", at 3 mm up, on head\n'),
        ('order\n 2x"A" ,spare 1', 'order\n  2 x "A", spare 1\n'),
        ('part case "C"\n  inside 320x260x60mm\n', 'part case "C"\n  inside    320 x 260 x 60 mm\n'),
        ('list "L"\n  site temperature -5°C to 30°C\n', 'list "L"\n  site temperature  -5 °C to 30 °C\n'),
        (
            'use "a"\nuse "b"\n# on A\nrig A\n left   standing\n',
            'use "a"\n\nuse "b"\n\n# on A\nrig A\n  left standing\n',
        ),
        ("\n\n# top\n\n\nrig A\n   # of A\n# of B\nrig B\n\n\n", "# top\n\nrig A\n  # of A\n\n# of B\nrig B\n"),
        ('rig A\n wnid    4m/s\n head "F', 'rig A\n wnid    4m/s\n head "F\n'),
        ('part adapter "A"\n  sits on screw 3/8-16\n', 'part adapter "A"\n  sits on   screw 3/8-16\n'),
        (
            "waive  tips-on-slope in rig   B\n  until 2027-01-01\n",
            "waive tips-on-slope in rig B\n  until     2027-01-01\n",
        ),
        ("", ""),
        (" \n\n", ""),
    ],
)
def test_layout(untidy: str, neat: str) -> None:
    assert neatened(untidy) == neat


@pytest.mark.parametrize("name", ["stock/thrapley", "nine-bells-mended", "second-unit-mended", "islands-flight-mended"])
def test_the_samples_are_neat(name: str) -> None:
    text = (TOP / "samples" / f"{name}.kitlist").read_text("utf-8")
    assert neatened(text) == text
