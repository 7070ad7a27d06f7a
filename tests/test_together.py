"""Lists named in one run of the command share one stock, in whatever order they are named."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from kitproof.command import main

BOOK = 'part head "Ash"\n  mass 4 kg\n  have 3\n\npart kit "Ash set"\n  includes 2 x "Ash"\n'
A = 'list "A"\n  dates 2027-03-08 to 2027-03-19\nuse "book.kitlist"\norder "From Harrow"\n  2 x "Ash"\n'
B = 'list "B"\n  dates 2027-03-19 to 2027-03-22\nuse "book.kitlist"\norder "From Harrow"\n  1 x "Ash set"\n'
C = 'list "C"\n  dates 2027-03-20 to 2027-03-29\nuse "book.kitlist"\norder "From Harrow"\n  1 x "Ash"\n'


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    for name, text in {"book": BOOK, "a": A, "b": B, "c": C}.items():
        Path(f"{name}.kitlist").write_text(text, encoding="utf-8")


def clashes(*paths: str) -> list[dict[str, Any]]:
    result = CliRunner().invoke(main, ["proof", *paths, "--as", "json", "--on", "2027-03-01"], catch_exceptions=False)
    return [each for each in json.loads(result.stdout)["findings"] if each["rule"] == "promised-twice"]


@pytest.mark.parametrize("paths", [("a.kitlist", "b.kitlist"), ("b.kitlist", "a.kitlist"), (".",)])
def test_each_list_concerned_is_told_of_the_other(paths: tuple[str, ...]) -> None:
    found = clashes(*paths)
    assert [(each["list"], each["where"]["from"]["line"], each["see"][0]["path"]) for each in found] == [
        ("a.kitlist", 5, "b.kitlist"),
        ("b.kitlist", 5, "a.kitlist"),
    ]
    assert [each["says"] for each in found] == [
        'The stock has 3 x "Ash", and up to 4 are promised on one day: on 2027-03-19, 2 in this list and 2 in list '
        f'"{other}".'
        for other in ("B", "A")
    ]


@pytest.mark.parametrize(
    "paths", [("a.kitlist",), ("b.kitlist",), ("a.kitlist", "c.kitlist"), ("b.kitlist", "c.kitlist")]
)
def test_lists_that_do_not_take_too_many_from_each_other_are_not_told(paths: tuple[str, ...]) -> None:
    assert clashes(*paths) == []


def test_a_list_named_twice_over_is_one_list() -> None:
    assert clashes("a.kitlist", "./a.kitlist") == []


def test_a_waiver_accepts_it_in_its_own_list_only() -> None:
    Path("a.kitlist").write_text(
        f'{A}waive promised-twice in part "Ash"\n  until 2027-03-30\n  because "one is hired in"\n  by "hire desk"\n',
        encoding="utf-8",
    )
    found = clashes("a.kitlist", "b.kitlist")
    assert {each["list"]: each["waived"] is not None for each in found} == {"a.kitlist": True, "b.kitlist": False}


def test_reversed_dates_are_found_at_the_word_and_the_rest_is_judged() -> None:
    Path("b.kitlist").write_text(B.replace("2027-03-19 to 2027-03-22", "2027-03-22 to 2027-03-19"), encoding="utf-8")
    words = ["proof", ".", "--as", "json", "--on", "2027-03-01"]
    found = json.loads(CliRunner().invoke(main, words, catch_exceptions=False).stdout)["findings"]
    turned = [each["where"] for each in found if each["rule"] == "figures-contradict"]
    assert [(each["path"], each["from"]["line"], each["from"]["column"]) for each in turned] == [("b.kitlist", 2, 9)]
    # With all that B orders on one of its days, A has one too few, and C has just enough.
    asked = {each["list"]: each["missing"] for each in found if each["rule"] == "promised-twice"}
    assert asked == {path: ['list "B": dates'] for path in ("a.kitlist", "b.kitlist")}
