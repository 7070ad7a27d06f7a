"""Small words go by how many there are."""

from __future__ import annotations

import pytest

from kitproof.words.phrases import another, from_whom, verdicts, with_article


@pytest.mark.parametrize(
    ("count", "stops", "says"),
    [
        (1, 0, "1 verdict"),
        (1, 1, "1 verdict, a stop"),
        (7, 0, "7 verdicts"),
        (7, 1, "7 verdicts, 1 of them a stop"),
        (7, 2, "7 verdicts, 2 of them stops"),
        (7, 7, "7 verdicts, all of them stops"),
    ],
)
def test_verdicts_are_counted_with_their_stops(count: int, stops: int, says: str) -> None:
    assert verdicts(count, stops) == says


@pytest.mark.parametrize(
    ("word", "one", "other"),
    [
        ("head", "a head", "another head"),
        ("adapter", "an adapter", "another adapter"),
        ("sticks", "sticks", "other sticks"),
        ("rods", "rods", "other rods"),
    ],
)
def test_sticks_and_rods_are_spoken_of_in_the_plural(word: str, one: str, other: str) -> None:
    assert (with_article(word), another(word)) == (one, other)


@pytest.mark.parametrize(
    ("title", "whom"),
    [
        ("From Harrowby", "Harrowby"),
        ("Lenses, from Harrowby", "Harrowby"),
        ("From Harrowby, lenses from Tollgate Hire", "Tollgate Hire"),
        ("Harrowby", "Harrowby"),
        ("Fromage Films", "Fromage Films"),
        ("From ", "From "),
        ("", ""),
    ],
)
def test_an_order_is_from_whom_its_title_says(title: str, whom: str) -> None:
    assert from_whom(title) == whom
