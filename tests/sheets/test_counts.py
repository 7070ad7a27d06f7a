"""How many, as people write it; and what cannot be read for certain."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.sheets.cells import Cell
from kitproof.sheets.counts import Counted, counted, within


def read(text: str) -> Counted | None:
    return counted(Cell(text))


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("2", 2), ("2.0", 2), ("x2", 2), ("2x", 2), ("2 x", 2), ("× 2", 2), ("2no", 2), ("2 No.", 2), ("2 off", 2),
        ("2 pcs", 2), ("two", 2), ("TWO x", 2), ("pair", 2), ("a pair", 2), ("2 pairs of", 4), ("one pair", 2),
        ("a dozen", 12), ("half a dozen", 6), ("a couple of", 2), ("twenty", 20), ("twenty-one", 21), ("forty two", 42),
    ],
)  # fmt: skip
def test_figures_and_words_are_read(text: str, count: int) -> None:
    found = read(text)
    assert found is not None
    assert (found.count, found.doubt) == (count, "")


def test_every_number_in_words_is_the_next_one() -> None:
    words = (
        "one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen "
        "eighteen nineteen twenty"
    )
    assert [read(word) for word in words.split()] == [Counted(number) for number in range(1, 21)]
    assert [read(word) for word in ("thirty", "forty", "fifty")] == [Counted(30), Counted(40), Counted(50)]


@pytest.mark.parametrize("text", ["six one", "twenty twelve", "twelve three", "twenty a"])
def test_words_that_make_no_number_together_are_in_doubt(text: str) -> None:
    found = read(text)
    assert found is not None
    assert found.doubt


@pytest.mark.parametrize(
    ("text", "count", "spare"),
    [("4 + 2 spare", 6, 2), ("4 plus 2 spares", 6, 2), ("6 (2 spare)", 6, 2), ("6, of which 2 spares", 6, 2)],
)
def test_spares_are_read(text: str, count: int, spare: int) -> None:
    assert read(text) == Counted(count, spare)


@pytest.mark.parametrize(
    "text",
    ["tbc", "?", "1.5", "2-3", "2 or 3", "1,000", "-2", "set", "some", "a", "2 (3 spare)", "two hundred", "9" * 30],
)
def test_what_is_in_doubt_is_said_and_never_guessed(text: str) -> None:
    found = read(text)
    assert found is not None
    assert text.casefold() in found.doubt.casefold()


def test_a_formula_is_no_count() -> None:
    found = read("=SUM(B2:B9)")
    assert found is not None
    assert "never run" in found.doubt


@pytest.mark.parametrize("text", ["", "  ", "-", "–", "n/a"])
def test_a_cell_that_says_nothing_is_none(text: str) -> None:
    assert read(text) is None


@pytest.mark.parametrize("text", ["0", "nil", "None", "zero", "not required", "not needed", "cancelled"])
def test_that_none_is_wanted_is_no_doubt(text: str) -> None:
    assert read(text) == Counted(0)


def test_pairs_are_remembered() -> None:
    assert [each.pairs for text in ("a pair", "3 pairs", "two") if (each := read(text))] == [1, 3, 0]


@pytest.mark.parametrize(
    ("name", "rest", "count"),
    [
        ("2 x Vetch 7", "Vetch 7", 2), ("2no Vetch 7", "Vetch 7", 2), ("x2 Vetch 7", "Vetch 7", 2),
        ("two Vetch 7", "Vetch 7", 2), ("two x Vetch 7", "Vetch 7", 2),
        ("a pair of Sorrel 98", "Sorrel 98", 2), ("Vetch 7 x2", "Vetch 7", 2),
        ("Vetch 7 (x2)", "Vetch 7", 2), ("Vetch 7, 2 off", "Vetch 7", 2), ("2 Vetch 7", "Vetch 7", 2),
    ],
)  # fmt: skip
def test_a_count_may_stand_in_the_name(name: str, rest: str, count: int) -> None:
    assert (rest, count) in [(text, each.count) for text, each in within(name)]


def test_a_name_with_no_count_has_none_in_it() -> None:
    assert within("Vetch 7") == []


@given(st.text(max_size=30))
def test_any_text_is_read_or_in_doubt(text: str) -> None:
    found = read(text)
    assert found is None or (found.count >= found.spare >= 0 and (not found.doubt or found.count == 0))


@given(st.integers(1, 100_000))
def test_every_whole_number_is_read_as_itself(number: int) -> None:
    assert read(str(number)) == read(f"x{number}") == read(f"{number} no.") == Counted(number)
