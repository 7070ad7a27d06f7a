"""Which rule book holds for a list: found upward from it, its own rules among the shipped ones, mistakes said whole."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from kitproof.books import Asked, Books, settings_file, shipped_book, shipped_rules
from kitproof.rulebook.errors import BadRules
from kitproof.rulebook.house import NAMES, OF_A_PATTERN, TABLES
from kitproof.rulebook.rules import RuleBook
from kitproof.rulebook.settings import Settings
from tests.house.repository import ROOT
from tests.proofing.lists import book as shipped

RULE = """\
title    "the case is heavy"
about    case
limit    heavy 20 kg
fails    sum(held.part.mass * held.count for held in holds) > heavy
says     "It holds more than {heavy}."
doubt    "whether it holds more than {heavy}"
because  "Backs are not spare parts."
"""


@pytest.fixture
def house(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A house's folder, the current one, with a list in a folder of its own."""
    (tmp_path / "jobs").mkdir()
    (tmp_path / "own" / "backs").mkdir(parents=True)
    (tmp_path / "own" / "backs" / "heavy-case.rule").write_text(RULE, "utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def book_of(
    house: Path, settings: str | bytes = "", asked: Asked | None = None, name: str = "jobs/a.kitlist"
) -> RuleBook:
    data = settings.encode() if isinstance(settings, str) else settings
    (house / "kitproof.toml").write_bytes(data)
    return Books(asked or Asked(), shipped_rules()).for_list(house / name)


def refused(house: Path, settings: str | bytes, asked: Asked | None = None) -> list[str]:
    with pytest.raises(BadRules) as caught:
        book_of(house, settings, asked)
    return [str(error) for error in caught.value.errors]


# Where settings are found


def test_with_no_settings_the_book_is_as_shipped(house: Path) -> None:
    found = Books(Asked(), shipped_rules()).for_list(house / "jobs" / "a.kitlist")
    assert list(found.rules) == list(shipped().rules)
    assert (found.house, found.by_list, found.places) == (Settings(), (), {})


def test_settings_are_found_upward_and_the_nearest_ones_hold(house: Path) -> None:
    (house / "kitproof.toml").write_text("", "utf-8")
    assert settings_file(house / "jobs") == house / "kitproof.toml"
    (house / "jobs" / "pyproject.toml").write_text("[tool.kitproof]\n", "utf-8")
    assert settings_file(house / "jobs") == house / "jobs" / "pyproject.toml"
    (house / "jobs" / "kitproof.toml").write_text("", "utf-8")
    assert settings_file(house / "jobs") == house / "jobs" / "kitproof.toml"


@pytest.mark.parametrize("other", ["[project]\nname = 'a'\n", "not = = toml", "\udcff[tool.other]"])
def test_a_project_file_that_is_not_about_us_is_passed_over(house: Path, other: str) -> None:
    (house / "jobs" / "pyproject.toml").write_bytes(other.encode("utf-8", "surrogateescape"))
    (house / "kitproof.toml").write_text("", "utf-8")
    assert settings_file(house / "jobs") == house / "kitproof.toml"


def test_a_project_file_that_is_about_us_and_broken_is_said(house: Path) -> None:
    (house / "jobs" / "pyproject.toml").write_bytes(b'[tool.kitproof]\nretired = ["chart-rises"]\na = = 1\n')
    with pytest.raises(BadRules, match=r"jobs/pyproject\.toml, line 3, column 5: this is not TOML as it should be"):
        Books(Asked(), shipped_rules()).for_list(house / "jobs" / "a.kitlist")


def test_one_file_may_be_asked_for_by_name(house: Path) -> None:
    (house / "other.toml").write_text('retired = ["chart-rises"]\n', "utf-8")
    found = book_of(house, "", Asked(house="other.toml"))
    assert "chart-rises" not in found.rules
    assert found.house.place("retired", "chart-rises") == "other.toml, line 1"


def test_a_file_asked_for_by_name_must_be_there(house: Path) -> None:
    assert refused(house, "", Asked(house="othr.toml")) == [
        "othr.toml, line 1, column 1: this file cannot be read: no such file or directory"
    ]


def test_a_settings_file_that_is_not_utf_8(house: Path) -> None:
    told = ["kitproof.toml, line 2, column 1: this file is not UTF-8 text"]
    assert refused(house, b'# a remark\nretired = ["caf\xe9"]\n') == told


# What is set


def test_limits_grades_and_retired_rules(house: Path) -> None:
    settings = 'retired = ["chart-rises"]\n[grades]\noff-the-chart = "note"\n[limits]\nbeyond_chart_reach = "150 %"\n'
    settings += 'longest_under_tension = "30 h"\n'
    found = book_of(house, settings)
    assert list(found.retired) == ["chart-rises"]
    assert found.rules["off-the-chart"].grade == "note"
    assert found.numbers["beyond_chart_reach"] == 1.5
    limit = next(each for each in found.limits if each.name == "longest_under_tension")
    assert (limit.values[0].value, limit.set_by_house) == (108_000, True)


def test_waivers_units_and_what_cannot_be_told(house: Path) -> None:
    found = book_of(house, 'never_waived = ["chart-rises"]\nunits = ["lb", "kg"]\ncannot_tell_counts = ["wrong"]\n')
    assert found.never_waived == {"chart-rises"}
    assert found.units == ("lb", "kg")
    assert found.cannot_tell_counts == ("wrong",)
    assert shipped_book().cannot_tell_counts == ("stop",)


def test_command_line_over_file_over_shipped(house: Path) -> None:
    settings = '[grades]\nchart-rises = "watch"\noff-the-chart = "note"\n[limits]\nlongest_under_tension = "30 h"\n'
    asked = Asked(Settings({"longest_under_tension": "36 h"}, {"chart-rises": "stop"}, ("slide-left-on",)))
    found = book_of(house, settings, asked)
    grades = [found.rules[name].grade for name in ("chart-rises", "off-the-chart", "sticks-overloaded")]
    assert grades == ["stop", "note", "stop"]
    assert [each.values[0].written for each in found.limits if each.name == "longest_under_tension"] == ["36 h"]
    assert list(found.retired) == ["slide-left-on"]
    assert found.house.place("limits", "longest_under_tension") == "the command line"
    assert found.house.place("grades", "off-the-chart") == "kitproof.toml, line 3"


def test_some_lists_have_settings_of_their_own(house: Path) -> None:
    settings = '[[for]]\nlists = ["jobs/second-*.kitlist"]\nretired = ["chart-rises"]\n'
    assert "chart-rises" in book_of(house, settings).rules
    found = book_of(house, settings, name="jobs/second-unit.kitlist")
    assert "chart-rises" not in found.rules
    assert [pattern for pattern, _ in found.by_list] == ["jobs/second-*.kitlist"]


def test_lists_that_share_their_settings_share_their_book(house: Path) -> None:
    (house / "kitproof.toml").write_text('[[for]]\nlists = ["jobs/b.kitlist"]\nretired = ["chart-rises"]\n', "utf-8")
    books = Books(Asked(), shipped_rules())
    found = [books.for_list(house / "jobs" / f"{name}.kitlist") for name in "abc"]
    assert found[0] is found[2]
    assert found[0] is not found[1]


# What is refused


def test_unknown_names_are_said_with_the_nearest_whatever_list_they_are_for(house: Path) -> None:
    settings = """\
retired = ["chart-rise"]
never_waived = ["off-the-charts"]
cannot_tell_counts = ["wrogn"]
[limits]
longest_under_tensio = "30 h"
storage_under_tension = "30 kg"
[grades]
sticks-overload = "stop"
chart-rises = "wrogn"
[[for]]
lists = ["nothing-like-it"]
retired = ["slide-left-of"]
cannot_tell_counts = ["noet"]
[for.limits]
beyond_chart_reech = 2
[for.grades]
chart-rises = "wach"
"""
    grades = "a grade is one of stop, wrong, watch, note, and"
    assert refused(house, settings) == [
        "kitproof.toml, line 1, column 13: there is no rule chart-rise. The nearest is chart-rises.",
        "kitproof.toml, line 2, column 18: there is no rule off-the-charts. The nearest is off-the-chart.",
        f"kitproof.toml, line 3, column 24: {grades} wrogn is not",
        "kitproof.toml, line 5, column 1: there is no limit called longest_under_tensio. "
        "The nearest is longest_under_tension.",
        "kitproof.toml, line 6, column 1: storage_under_tension is a time, and 30 kg is a mass",
        "kitproof.toml, line 8, column 1: there is no rule sticks-overload. The nearest is sticks-overloaded.",
        f"kitproof.toml, line 9, column 1: chart-rises: {grades} wrogn is not",
        "kitproof.toml, line 12, column 13: there is no rule slide-left-of. The nearest is slide-left-on.",
        f"kitproof.toml, line 13, column 24: {grades} noet is not",
        "kitproof.toml, line 15, column 1: there is no limit called beyond_chart_reech. "
        "The nearest is beyond_chart_reach.",
        f"kitproof.toml, line 17, column 1: chart-rises: {grades} wach is not",
    ]


def test_unknown_names_of_the_command_line_are_said_too(house: Path) -> None:
    asked = Asked(Settings({"longest": "3 h"}, {"chart-rises": "bad"}, ("chart-rise",)), ("ownn",))
    assert refused(house, "", asked) == [
        "the command line: chart-rises: a grade is one of stop, wrong, watch, note, and bad is not",
        "the command line: there is no folder of rules ownn. The nearest is own.",
        "the command line: there is no limit called longest.",
        "the command line: there is no rule chart-rise. The nearest is chart-rises.",
    ]


@pytest.mark.parametrize(
    ("settings", "told"),
    [
        ('rules = ["own", "ownn"]', "line 1, column 18: there is no folder of rules ownn. The nearest is own."),
        ('rules = ["jobs"]', "line 1, column 11: there is no rule in the folder jobs: a rule is a file "
         "GROUP/NAME.rule in it"),
        ('rules = ["a/b/c"]', "line 1, column 11: there is no folder of rules a/b/c."),
    ],
)  # fmt: skip
def test_a_folder_must_be_there_and_hold_rules(house: Path, settings: str, told: str) -> None:
    assert refused(house, settings) == [f"kitproof.toml, {told}"]


# A house's own rules


def test_own_rules_stand_among_the_shipped_ones(house: Path) -> None:
    found = book_of(house, 'rules = ["own"]\n[limits]\nheavy = "23 kg"\n[grades]\nheavy-case = "watch"\n')
    rule = found.rules["heavy-case"]
    assert (rule.group, rule.grade) == ("backs", "watch")
    assert set(found.rules) == {*shipped().rules, "heavy-case"}
    assert found.places == {"backs/heavy-case.rule": "own/backs/heavy-case.rule"}


def test_own_rules_may_come_by_the_command_line_once_or_twice(house: Path) -> None:
    assert "heavy-case" in book_of(house, "", Asked(rules=("own",))).rules
    assert "heavy-case" in book_of(house, 'rules = ["own"]', Asked(rules=("./own", "jobs/../own"))).rules


@pytest.mark.parametrize("group", ["support", "aaa"])
def test_an_own_rule_cannot_take_the_name_of_a_shipped_one(house: Path, group: str) -> None:
    (house / "own" / group).mkdir()
    (house / "own" / group / "chart-rises.rule").write_text(RULE, "utf-8")
    assert refused(house, 'rules = ["own"]') == [
        f"own/{group}/chart-rises.rule, line 1, column 1: a rule of this name ships already, in the group support: "
        "retire that one, and call this another"
    ]


def test_two_own_rules_cannot_have_one_name(house: Path) -> None:
    (house / "more" / "backs").mkdir(parents=True)
    (house / "more" / "backs" / "heavy-case.rule").write_text(RULE, "utf-8")
    assert refused(house, 'rules = ["own", "more"]') == [
        "more/backs/heavy-case.rule, line 1, column 1: a rule of this name is in own/backs/heavy-case.rule already: "
        "every one has a name of its own"
    ]


def test_a_mistake_in_an_own_rule_is_said_at_its_own_file(house: Path) -> None:
    file = house / "own" / "backs" / "heavy-case.rule"
    file.write_text(RULE.replace("> heavy", "> hevy"), "utf-8")
    (house / "own" / "backs" / "other.rule").write_bytes(b"title \xff")
    (house / "own" / "astray.rule").write_text(RULE, "utf-8")
    assert refused(house, 'rules = ["own"]') == [
        "own/astray.rule, line 1, column 1: name a rule file GROUP/NAME.rule, in small letters, digits and dashes, "
        "or GROUP/limits",
        "own/backs/heavy-case.rule, line 4, column 63: hevy is not known about a case. The nearest is heavy.",
        "own/backs/other.rule, line 1, column 1: this file is not UTF-8 text",
    ]


def test_a_warning_about_an_own_rule_names_its_own_file(house: Path) -> None:
    file = house / "own" / "backs" / "heavy-case.rule"
    file.write_text(RULE + "limit    idle 3 kg\n", "utf-8")
    found = book_of(house, 'rules = ["own"]')
    assert [str(each) for each in found.warnings] == ["own/backs/heavy-case.rule, line 8, column 10: no rule uses idle"]


def test_hidden_files_are_no_rules(house: Path) -> None:
    (house / "own" / ".trash").mkdir()
    (house / "own" / ".trash" / "limits").write_text("rubbish", "utf-8")
    assert "heavy-case" in book_of(house, 'rules = ["own"]').rules


def test_what_ships_has_nothing_to_look_at() -> None:
    assert shipped().warnings == ()


# The reference for houses

REFERENCE = (ROOT / "grammar" / "house.md").read_text("utf-8")


def test_the_example_of_the_reference_loads(house: Path) -> None:
    (house / "own").rename(house / "own-rules")
    example = re.search(r"```toml\n(.*?)```", REFERENCE, re.DOTALL)
    assert example
    found = book_of(house, example[1])
    assert {"heavy-case", "off-the-chart"} <= set(found.rules)
    assert found.rules["off-the-chart"].grade == "note"
    assert book_of(house, example[1], name="trials/new.kitlist").rules["off-the-chart"].grade == "wrong"
    assert {*NAMES, *TABLES, "for"} == set(re.findall(r"^\[*(\w+)[\] =]", example[1], re.MULTILINE)) - {"lists", *SET}


SET = {"storage_under_tension", "uncharted_share"}


def test_the_reference_has_every_key_and_whether_it_may_be_set_for_some_lists() -> None:
    rows = re.findall(r"^\| `(\w+)` \|.*\| *(yes)? *\|$", REFERENCE, re.MULTILINE)
    assert {key for key, _ in rows} == {*NAMES, *TABLES, "for"}
    assert {key for key, yes in rows if yes} == set(OF_A_PATTERN)


def test_the_reference_has_every_option_of_the_command_line() -> None:
    told = set(re.findall(r"`(--[a-z]+)", REFERENCE))
    assert told == {"--limit", "--grade", "--retire", "--rules", "--house"}
