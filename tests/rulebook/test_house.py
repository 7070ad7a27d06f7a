"""A house's settings file: what may be set, and every mistake at its line with the nearest name."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.rulebook.errors import BadRules
from kitproof.rulebook.house import NO_HOUSE, House, has_settings, over_settings, read_house
from kitproof.rulebook.settings import Settings
from kitproof.rulebook.toml_places import TomlPlaces

WHOLE = """\
# what we set
units = ["kg", "lb"]
retired = ["ordered-not-used"]
rules = ["own", "shared/rules"]
never_waived = ["overload-at-height"]
cannot_tell_counts = ["stop", "wrong"]

[limits]
longest_under_tension = "30 h"
packing.as_good_as_level = "8°"
beyond_chart_reach = 1.5

[grades]
chart-rises = "watch"

[[for]]
lists = ["second-unit/*.kitlist"]
retired = ["slide-left-on"]
[for.limits]
longest_under_tension = "12 h"

[[for]]
lists = ["trials/*.kitlist", "bench.kitlist"]
cannot_tell_counts = []
"""


def mistakes(text: str, path: str = "kitproof.toml") -> list[tuple[int, str, str]]:
    """Each mistake: its line, what stands at its place, and what is said."""
    with pytest.raises(BadRules) as caught:
        read_house(text, path)
    lines = text.split("\n")
    errors = caught.value.errors
    assert {each.path for each in errors} == {path}
    return [(each.line, lines[each.line - 1][each.column - 1 : each.to_column - 1], each.says) for each in errors]


def test_all_that_can_be_set() -> None:
    house = read_house(WHOLE, "kitproof.toml")
    settings = house.settings
    assert settings.units == ("kg", "lb")
    assert settings.retired == ("ordered-not-used",)
    assert settings.never_waived == ("overload-at-height",)
    assert settings.cannot_tell_counts == ("stop", "wrong")
    assert settings.limits == {
        "longest_under_tension": "30 h",
        "packing.as_good_as_level": "8°",
        "beyond_chart_reach": "1.5",
    }
    assert settings.grades == {"chart-rises": "watch"}
    assert [name for name, _ in house.rules] == ["own", "shared/rules"]
    assert [pattern for pattern, _ in house.by_list] == ["second-unit/*.kitlist", "trials/*.kitlist", "bench.kitlist"]


def test_every_name_that_is_set_knows_its_place() -> None:
    house = read_house(WHOLE, "kitproof.toml")
    assert house.settings.place("limits", "packing.as_good_as_level") == "kitproof.toml, line 10"
    assert house.settings.place("retired", "ordered-not-used") == "kitproof.toml, line 3"
    assert house.settings.place("cannot_tell_counts", "wrong") == "kitproof.toml, line 6"
    assert house.by_list[0][1].place("limits", "longest_under_tension") == "kitproof.toml, line 20"
    assert house.by_list[0][1].place("retired", "slide-left-on") == "kitproof.toml, line 18"
    assert house.rules[1] == ("shared/rules", ("kitproof.toml", 4, 18, 30))


def test_the_same_may_stand_in_a_project_file() -> None:
    text = (
        '[project]\nname = "units"\n\n[tool.kitproof]\nretired = ["chart-rises"]\n[tool.kitproof.limits]\na.b = "3 h"\n'
    )
    house = read_house(text, "pyproject.toml")
    assert house.settings.retired == ("chart-rises",)
    assert house.settings.place("limits", "a.b") == "pyproject.toml, line 7"


def test_an_empty_file_sets_nothing() -> None:
    assert read_house("", "kitproof.toml") == NO_HOUSE == House()


def test_a_list_has_what_its_pattern_sets_over_the_rest() -> None:
    house = read_house(WHOLE, "kitproof.toml")
    other, second, trial = (
        house.for_list(path) for path in ("main.kitlist", "second-unit/b.kitlist", "trials/c.kitlist")
    )
    assert other == house.settings
    assert second.limits["longest_under_tension"] == "12 h"
    assert second.limits["packing.as_good_as_level"] == "8°"
    assert second.retired == ("ordered-not-used", "slide-left-on")
    assert second.cannot_tell_counts == ("stop", "wrong")
    assert second.place("limits", "longest_under_tension") == "kitproof.toml, line 20"
    assert trial.cannot_tell_counts == ()


def test_of_two_patterns_that_fit_the_later_one_holds() -> None:
    text = '[[for]]\nlists = ["a*"]\ngrades = {x = "note"}\n[[for]]\nlists = ["*b"]\ngrades = {x = "stop"}\n'
    house = read_house(text, "kitproof.toml")
    assert [house.for_list(path).grades for path in ("ab", "ac", "cb", "c")] == [
        {"x": "stop"},
        {"x": "note"},
        {"x": "stop"},
        {},
    ]


def test_one_name_may_stand_without_brackets() -> None:
    assert read_house('retired = "chart-rises"', "kitproof.toml").settings.retired == ("chart-rises",)


def test_what_the_command_line_asks_for_goes_over_the_file() -> None:
    file = Settings({"a": "1 h", "b": "2 h"}, {"x": "stop"}, ("y",), places={("limits", "a"): ("f", 3, 1, 2)})
    line = Settings({"a": "9 h"}, {"x": "note"}, ("z",))
    whole = over_settings(file, line)
    assert whole.limits == {"a": "9 h", "b": "2 h"}
    assert whole.grades == {"x": "note"}
    assert whole.retired == ("y", "z")


def test_what_the_command_line_sets_is_not_said_to_be_from_the_file() -> None:
    file = Settings({"a": "1 h"}, places={("limits", "a"): ("kitproof.toml", 3, 1, 2)})
    assert over_settings(file, Settings({"a": "9 h"})).place("limits", "a") == "the command line"


MISTAKES = [
    ('[limit]\na = "1 h"', 1, "limit", "limit is nothing that a house sets. The nearest is limits."),
    ('retird = ["a"]', 1, "retird", "retird is nothing that a house sets. The nearest is retired."),
    ('# retired\nretired = [3]', 2, "retired", 'retired is a list of names in quotes: retired = ["…"]'),
    ("grades = 3", 1, "grades", "grades is a table of names, each with its value: [grades]"),
    ("[limits]\na = true", 2, "a", 'a should be written in quotes, such as "30 h"'),
    ("[limits]\nb = 1\na.b = [1]", 3, "a.b", 'a.b should be written in quotes, such as "30 h"'),
    ("[limits.a]\nb = 2027-03-01", 2, "b", 'a.b should be written in quotes, such as "30 h"'),
    ('limits = {"a.b" = true}', 1, "a.b", 'a.b should be written in quotes, such as "30 h"'),
    ('units = ["kg", "kgg"]', 1, "kgg", "there is no unit kgg. The nearest is kg."),
    ("for = 3", 1, "for", "write each as a table of its own: [[for]]"),
    ('[[for]]\nretired = ["a"]', 1, "for", 'say for which lists: lists = ["second-unit/*.kitlist"]'),
    ("[[for]]\nlists = []", 1, "for", 'say for which lists: lists = ["second-unit/*.kitlist"]'),
    ("[[for]]\nlists = [1]", 2, "lists", 'lists is a list of names in quotes: lists = ["…"]'),
    (
        '[[for]]\nlists = ["a"]\nunits = ["kg"]',
        3,
        "units",
        "units cannot be set for some lists only: set it for all, above every [[for]]",
    ),
    (
        "[[for]]\nlists = ['a\\b']",
        2,
        "a\\b",
        "write a list's path from this file's folder, with forward slashes",
    ),
    ('[[for]]\nlists = ["/a"]', 2, "/a", "write a list's path from this file's folder, with forward slashes"),
    ('[[for]]\nlists = ["../a"]', 2, "../a", "write a list's path from this file's folder, with forward slashes"),
    ('[[for]]\nlists = ["a"]\nretird = ["b"]', 3, "retird",
     "retird is nothing that a house sets for some lists only. The nearest is retired."),
    ("limits = [", 1, "l", "this is not TOML as it should be written"),
    ("a = = b", 1, "=", "this is not TOML as it should be written"),
    ('units = "kg"\nunits = "lb"', 2, "u", "this is set already, further up"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "line", "marked", "says"), MISTAKES, ids=[each[0] for each in MISTAKES])
def test_a_mistake_is_said_at_its_line(text: str, line: int, marked: str, says: str) -> None:
    assert mistakes(text) == [(line, marked, says)]


def test_a_mistake_for_some_lists_is_placed_in_their_own_table() -> None:
    text = '[limits]\nx = "1 h"\n\n[[for]]\nlists = ["a"]\n[for.limits]\nx = "2 h"\n\n'
    text += '[[for]]\nlists = ["b"]\nlimits = {x = true}\n'
    assert [(line, marked) for line, marked, _ in mistakes(text)] == [(11, "x")]


def test_a_mistake_in_a_project_file_is_placed_in_our_table() -> None:
    text = '[project]\nretird = 1\n[tool.other]\nretird = 1\n[tool.kitproof]\nretird = ["a"]\n'
    assert [(line, marked) for line, marked, _ in mistakes(text, "pyproject.toml")] == [(6, "retird")]


def test_all_mistakes_are_said_in_one_go() -> None:
    text = 'retird = ["a"]\nunits = ["kgg"]\n[limits]\na = true\n[[for]]\nlsts = ["a"]\n'
    assert [line for line, _, _ in mistakes(text)] == [1, 2, 4, 5, 6]


@pytest.mark.parametrize("text", ["tool = 3", "[tool]\nkitproof = 3"])
def test_our_table_in_a_project_file_must_be_one(text: str) -> None:
    if has_settings(text):
        assert [says for _, _, says in mistakes(text, "pyproject.toml")] == ["write it as a table: [tool.kitproof]"]
    else:
        assert text == "tool = 3"


@pytest.mark.parametrize(
    ("text", "has"),
    [
        ('[tool.kitproof]\nretired = ["a"]', True),
        ("[tool.other]\na = 1", False),
        ("tool = 3", False),
        ("", False),
        ("[tool.kitproof]\nretired = [", True),
        ("[tool.kitproof.limits]\na = = 1", True),
        ("[[tool.kitproof.for]]\n= 1", True),
        ("[tool.other]\na = = 1", False),
        ("[tool.kitprooof]\na = = 1", False),
    ],
)
def test_a_project_file_has_settings_where_a_line_opens_our_table(text: str, has: bool) -> None:
    assert has_settings(text) is has


def test_a_number_may_stand_without_quotes_and_is_not_rounded() -> None:
    house = read_house("[limits]\na = 30\nb = 0.00000001\nc = -2.5\n", "kitproof.toml")
    assert house.settings.limits == {"a": "30", "b": "0.00000001", "c": "-2.5"}


NASTY = st.text(alphabet="[]{}=\".,'#\n abforlistsunits3", max_size=60)


@given(st.one_of(NASTY, st.builds(lambda start, rest: start + rest, st.sampled_from(WHOLE.split("\n")), NASTY)))
def test_any_text_is_settings_or_said_to_be_none(text: str) -> None:
    has_settings(text)
    for path in ("kitproof.toml", "pyproject.toml"):
        try:
            assert isinstance(read_house(text, path), House)
        except BadRules as bad:
            lines = text.split("\n")
            for each in bad.errors:
                assert 1 <= each.line <= len(lines)
                assert each.column >= 1


def test_nesting_without_end_is_no_toml() -> None:
    assert mistakes("a = " + "[" * 100_000)[0][2] == "this is not TOML as it should be written"


def test_a_remark_is_no_place_but_a_sign_in_quotes_is_no_remark() -> None:
    places = TomlPlaces('a = ["x#y"] # b = 1\nb = 1\n', (), "for")
    assert places.place("b") == (2, 1, 2)
    assert places.place("a", "x#y") == (1, 7, 10)
    assert places.place("c") == (1, 1, 2)
    assert TomlPlaces("", (), "for").place("c") == (1, 1, 2)
