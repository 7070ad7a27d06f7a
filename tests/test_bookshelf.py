"""The parts books by which a sheet is matched: which are found, what they describe, how a list uses them."""

from __future__ import annotations

from pathlib import Path

import pytest

from kitproof.bookshelf import NoBooksError, books_for, parts_of, used_from
from tests.sheets.made import BOOK, PARTS

SMALL = 'part monitor "Vetch 7"\n  mass      900 g\n'


@pytest.fixture
def house(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    for name, text in {
        "kitproof.toml": "",
        "order.csv": "Qty,Item\n",
        "stock/house.kitlist": BOOK,
        "small.kitlist": SMALL,
        "order.kitlist": f'list "Order"\n\n{SMALL}',
        "deep/er/far.kitlist": SMALL,
        ".kept/old.kitlist": SMALL,
    }.items():
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(text, "utf-8")
    return tmp_path


def test_books_beside_the_sheet_and_one_folder_below_are_found(house: Path) -> None:
    """Lists are none, nor what is hidden or lies deeper."""
    assert books_for(Path("order.csv"), ()) == [Path("small.kitlist"), Path("stock/house.kitlist")]


def test_books_that_are_named_count_alone_and_a_folder_is_searched(house: Path) -> None:
    assert books_for(Path("order.csv"), ["small.kitlist"]) == [Path("small.kitlist")]
    assert books_for(Path("order.csv"), ["deep"]) == [Path("deep/er/far.kitlist")]


def test_with_none_it_says_how_to_name_one(house: Path) -> None:
    with pytest.raises(NoBooksError, match="--books FILE"):
        books_for(Path("deep/order.csv").parent / "er" / "more" / "order.csv", ())
    with pytest.raises(NoBooksError, match=r'The nearest here is "small\.kitlist"'):
        books_for(Path("order.csv"), ["smal.kitlist"])


def test_the_first_book_to_describe_a_name_counts(house: Path) -> None:
    parts = parts_of([Path("small.kitlist"), Path("stock/house.kitlist")])
    assert set(parts) == set(PARTS)
    assert parts["Vetch 7"].mass is not None
    assert parts_of([Path("stock/house.kitlist"), Path("small.kitlist")])["Vetch 7"].mass is None


def test_parts_of_a_book_that_is_used_are_there_too(house: Path) -> None:
    (house / "both.kitlist").write_text('use "small.kitlist"\n\npart lens "Dunlin 50"\n', "utf-8")
    assert set(parts_of([Path("both.kitlist")])) == {"Vetch 7", "Dunlin 50"}


def test_a_file_that_describes_nothing_is_no_book(house: Path) -> None:
    with pytest.raises(NoBooksError, match="describes no part"):
        parts_of([Path("kitproof.toml")])
    with pytest.raises(NoBooksError, match="cannot be read"):
        parts_of([Path("nowhere.kitlist")])


def test_books_are_used_from_where_the_list_lies(house: Path) -> None:
    books = [Path("stock/house.kitlist")]
    assert used_from(Path(), books) == (["stock/house.kitlist"], [])
    assert used_from(Path("deep"), books) == (["../stock/house.kitlist"], [])


def test_a_book_that_a_list_there_cannot_use_is_said(house: Path) -> None:
    (house / "deep" / "kitproof.toml").touch()
    paths, said = used_from(Path("deep"), [Path("small.kitlist")])
    assert paths == [str((house / "small.kitlist").resolve())]
    assert said == ['"small.kitlist" lies outside the folder "deep": a list in it cannot use it. Put a copy there.']
