"""Above a proof stand its lists; of a folder of many only those that something is told of."""

from __future__ import annotations

from kitproof.showing.text import MOST_NAMED, headings


def named(count: int) -> dict[str, str]:
    return {f"{number}.kitlist": f"list {number}" for number in range(count)}


def test_few_lists_are_all_named() -> None:
    lists = named(MOST_NAMED)
    assert headings(lists, (), "with nothing found") == list(lists.values())


def test_of_many_those_are_named_in_which_something_is_found() -> None:
    lists = named(MOST_NAMED + 2)
    assert headings(lists, ("3.kitlist", "5.kitlist"), "with nothing found") == [
        "list 3",
        "list 5",
        f"{MOST_NAMED} lists more, with nothing found",
    ]


def test_one_list_more_is_one_list() -> None:
    lists = named(MOST_NAMED + 1)
    assert headings(lists, [path for path in lists if path != "0.kitlist"], "with nothing found")[-1] == (
        "1 list more, with nothing found"
    )
