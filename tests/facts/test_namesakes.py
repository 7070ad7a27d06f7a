"""Lists of one name that are proofed together: which is the older issue, and which is named twice."""

from __future__ import annotations

import pytest

from kitproof.facts.namesakes import namesakes
from kitproof.facts.promises import beside
from kitproof.facts.registry import FACTS
from kitproof.facts.subject import Setting
from kitproof.model.kitlist import KitList
from tests.model.texts import DAY
from tests.proofing.lists import read_bytes


def a_list(title: str, issue: int | None, path: str) -> KitList:
    """It orders a lens, so that each list is told of every other."""
    text = 'part lens "L"\n' + (f'list "{title}"\n' if title else "")
    text += (f"  issue {issue}\n" if issue else "") + 'order\n  1 x "L"\n'
    return read_bytes(text.encode(), path)


def said(lists: list[KitList]) -> list[tuple[str, str]]:
    """Kind and words of what is said of the first of some lists."""
    found = namesakes(Setting(lists[0], DAY, {}, FACTS, beside(lists)[0]))
    return [(each.slip.kind, each.slip.wanted) for each in found]


@pytest.mark.parametrize(
    ("mine", "other", "words"),
    [
        (("A", 1), ("A", 2), [("older-issue", "issue 2")]),
        (("A", 2), ("A", 1), []),
        (("A", 2), ("A", 2), [("list-named-twice", "other.kitlist, line 2")]),
        (("A", None), ("A", 2), [("list-named-twice", "other.kitlist, line 2")]),
        (("A", None), ("A", None), [("list-named-twice", "other.kitlist, line 2")]),
        (("A", 1), ("B", 2), []),
        (("", None), ("", None), []),
    ],
)
def test_a_list_is_told_of_a_newer_issue_and_of_another_of_its_name(
    mine: tuple[str, int | None], other: tuple[str, int | None], words: list[tuple[str, str]]
) -> None:
    assert said([a_list(*mine, "mine.kitlist"), a_list(*other, "other.kitlist")]) == words


def test_each_other_list_of_the_name_is_told_of() -> None:
    """The older issue comes first and is nothing to this one; those after it are."""
    lists = [a_list("A", issue, f"{number}.kitlist") for number, issue in enumerate((2, 1, 2, 3))]
    assert said(lists) == [("list-named-twice", "2.kitlist, line 2"), ("older-issue", "issue 3")]


def test_it_is_said_at_the_name_as_it_is_typed() -> None:
    """Of `list "Harbour"`, the second line, the name with its marks is from the sixth character to the fourteenth."""
    lists = [a_list("Harbour", 1, "a.kitlist"), a_list("Harbour", 1, "b.kitlist")]
    (found,) = namesakes(Setting(lists[0], DAY, {}, FACTS, beside(lists)[0]))
    assert (found.where.path, found.where.line, found.where.column, found.where.to_column) == ("a.kitlist", 2, 6, 15)
    assert (found.slip.row, found.slip.start, found.slip.end, found.slip.said) == (0, 5, 14, 'list "Harbour"')
