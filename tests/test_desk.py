"""The desk: what stops the command with status 2, what it says of settings, and what is in force where."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from kitproof.command import main

LIST = 'part head "Tollgate 16"\n  mass 3 kg\n  chart 5 kg at 100 mm, 8 kg at 200 mm\n'
RULE = """\
title    "a part is heavy"
grade    note
about    part
limit    heavy 2 kg
fails    mass > heavy
says     "{name} is {mass}, more than {heavy}."
doubt    "whether {name} is heavy"
because  "Backs are not spare parts."
"""
UNUSED = f"{RULE}limit    idle 3 kg\n"
NOTHING = "Nothing was proofed: the rule book is used whole or not at all.\n"


def run(*words: str) -> Result:
    return CliRunner().invoke(main, list(words), catch_exceptions=False)


@pytest.fixture
def house(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The current folder, with a list and an own rule."""
    (tmp_path / "own" / "backs").mkdir(parents=True)
    (tmp_path / "own" / "backs" / "heavy-part.rule").write_text(RULE, "utf-8")
    (tmp_path / "a.kitlist").write_text(LIST, "utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def settings(house: Path, text: str) -> None:
    (house / "kitproof.toml").write_text(text, "utf-8")


def rules_found(*words: str) -> list[str]:
    result = run("proof", "--as", "json", "a.kitlist", *words)
    assert result.stderr == ""
    return sorted({each["rule"] for each in json.loads(result.stdout)["findings"]})


@pytest.mark.parametrize(
    "words", [("proof", "a.kitlist"), ("numbers", "a.kitlist"), ("rules",), ("why", "chart-rises")]
)
def test_settings_that_cannot_be_used_stop_every_command(house: Path, words: tuple[str, ...]) -> None:
    settings(house, '# ours\nretired = ["chart-rise"]\n')
    result = run(*words)
    told = "kitproof.toml, line 2, column 13: there is no rule chart-rise. The nearest is chart-rises.\n"
    assert (result.exit_code, result.stdout, result.stderr) == (2, "", told + NOTHING)


def test_the_mistakes_of_all_houses_are_said_once_each(house: Path) -> None:
    settings(house, 'retired = ["chart-rise"]\n')
    (house / "two").mkdir()
    (house / "two" / "kitproof.toml").write_text("retird = 1\n", "utf-8")
    for name in ("b", "two/c"):
        (house / f"{name}.kitlist").write_text(LIST, "utf-8")
    result = run("proof", ".")
    assert result.exit_code == 2
    assert result.stderr.splitlines()[:-1] == [
        "kitproof.toml, line 1, column 13: there is no rule chart-rise. The nearest is chart-rises.",
        "two/kitproof.toml, line 1, column 1: retird is nothing that a house sets. The nearest is retired.",
    ]


def test_a_list_is_proofed_by_its_houses_rules(house: Path) -> None:
    assert rules_found() == ["chart-rises"]
    settings(house, 'rules = ["own"]\n')
    assert rules_found() == ["chart-rises", "heavy-part"]
    assert rules_found("--retire", "chart-rises") == ["heavy-part"]
    assert rules_found("--limit", "heavy", "4 kg") == ["chart-rises"]


def test_settings_hold_for_the_lists_that_they_name(house: Path) -> None:
    settings(house, 'rules = ["own"]\n[[for]]\nlists = ["b*"]\nretired = ["chart-rises"]\n')
    (house / "b.kitlist").write_text(LIST, "utf-8")
    result = run("proof", "--as", "json", "a.kitlist", "b.kitlist")
    found = {(each["list"], each["rule"]) for each in json.loads(result.stdout)["findings"]}
    assert found == {
        ("a.kitlist", "chart-rises"),
        ("a.kitlist", "heavy-part"),
        ("b.kitlist", "heavy-part"),
    }


def test_grades_decide_what_is_sent_back(house: Path) -> None:
    settings(house, 'rules = ["own"]\nretired = ["chart-rises"]\n')
    assert run("proof", "a.kitlist").exit_code == 0
    assert run("proof", "a.kitlist", "--grade", "heavy-part", "wrong").exit_code == 1


def test_a_waiver_that_the_house_does_not_take_holds_nothing_back(house: Path) -> None:
    (house / "a.kitlist").write_text(LIST + '\nwaive chart-rises in list\n  because "as printed"\n', "utf-8")
    assert run("proof", "a.kitlist").exit_code == 0
    settings(house, 'never_waived = ["chart-rises"]\n')
    assert run("proof", "a.kitlist").exit_code == 1
    assert rules_found() == ["chart-rises", "waiver-not-allowed"]


def test_units_of_the_house_are_printed_where_a_list_asks_for_none(house: Path) -> None:
    settings(house, 'rules = ["own"]\nunits = ["lb"]\n')
    assert "is 6.61 lb, more than 4.41 lb" in run("proof", "a.kitlist").stdout
    (house / "a.kitlist").write_text('list "A"\n  units kg, mm\n\n' + LIST, "utf-8")
    assert "is 3 kg, more than 2 kg" in run("proof", "a.kitlist").stdout


WAITING = 'part head "Tollgate 16"\n  height 120 mm\n'


def test_what_cannot_be_told_counts_at_the_grades_that_the_house_names(house: Path) -> None:
    (house / "a.kitlist").write_text(WAITING, "utf-8")
    settings(house, 'rules = ["own"]\n[grades]\nheavy-part = "wrong"\n')
    assert run("proof", "a.kitlist").exit_code == 0
    settings(house, 'rules = ["own"]\ncannot_tell_counts = ["wrong"]\n[grades]\nheavy-part = "wrong"\n')
    assert run("proof", "a.kitlist").exit_code == 1


# What is in force


SET = """\
rules = ["own"]
retired = ["chart-rises"]
never_waived = ["off-the-chart"]
units = ["kg"]
cannot_tell_counts = ["stop", "wrong"]
[limits]
heavy = "4 kg"
[grades]
off-the-chart = "note"
[[for]]
lists = ["b*"]
limits = {heavy = "5 kg"}
cannot_tell_counts = []
"""


def test_rules_says_what_is_in_force_and_from_where(house: Path) -> None:
    settings(house, SET)
    result = run("rules", "--grade", "sticks-overloaded", "wrong")
    assert (result.exit_code, result.stderr) == (0, "")
    lines = result.stdout.splitlines()
    at = lines.index("  heavy-part                    note  a part is heavy")
    assert lines[at + 1] == "      own/backs/heavy-part.rule"
    assert not any(line.startswith("  chart-rises") for line in lines)
    at = lines.index("  heavy-part.heavy is 4 kg")
    assert lines[at + 1] == "      set by kitproof.toml, line 7"
    at = lines.index("  head-packed-under-tension.longest_under_tension is 24 h")
    assert lines[at + 1] == "      as shipped"
    told = " ".join(" ".join(lines[next(n for n, line in enumerate(lines) if line.startswith("Set")) :]).split())
    assert (
        told
        == (
            "Set sticks-overloaded has the grade wrong (the command line) "
            "Set off-the-chart has the grade note (kitproof.toml, line 9) "
            "Set heavy is 4 kg (kitproof.toml, line 7) "
            "Set chart-rises is retired (kitproof.toml, line 2) "
            "Set off-the-chart is never waived (kitproof.toml, line 3) "
            "Set what cannot be told counts at stop, wrong (kitproof.toml, line 5) "
            "Set units are kg where a list asks for none "
            "For b*: heavy is 5 kg (kitproof.toml, line 12) "
            "For b*: what cannot be told never counts (kitproof.toml, line 13)"
        )
        or "Set off-the-chart has the grade note" in told
    )
    assert max(map(len, lines)) <= 80


def test_rules_says_what_is_in_force_for_one_list(house: Path) -> None:
    settings(house, SET)
    assert "  heavy-part.heavy is 4 kg" in run("rules", "a.kitlist").stdout
    assert "  heavy-part.heavy is 5 kg" in run("rules", "b.kitlist").stdout


def test_rules_as_data(house: Path) -> None:
    settings(house, SET)
    data = json.loads(run("rules", "--as", "json").stdout)
    own = next(each for each in data["rules"] if each["name"] == "heavy-part")
    assert own["file"] == "own/backs/heavy-part.rule"
    assert next(each for each in data["rules"] if each["name"] == "off-the-chart")["file"] is None
    assert {"name": "heavy-part.heavy", "value": "4 kg", "source": "set by kitproof.toml, line 7"} in data["limits"]
    assert data["retired"] == ["chart-rises"]


def test_a_dated_limit_is_as_it_holds_on_the_day(house: Path) -> None:
    dated = 'limit    heavy 3 kg from 2027-06-01 seen 2027-03-02 "the carrier\'s table"\n'
    (house / "own" / "backs" / "heavy-part.rule").write_text(RULE + dated, "utf-8")
    settings(house, 'rules = ["own"]\n')
    before, after = (run("rules", "--on", day).stdout for day in ("2027-05-31", "2027-06-01"))
    assert "  heavy-part.heavy is 2 kg\n      as shipped\n" in before
    assert "  heavy-part.heavy is 3 kg\n      as shipped from 2027-06-01, the carrier's table\n" in after


def test_what_to_look_at_in_own_rules_is_said_by_rules_alone(house: Path) -> None:
    (house / "own" / "backs" / "heavy-part.rule").write_text(UNUSED, "utf-8")
    settings(house, 'rules = ["own"]\n')
    result = run("rules")
    told = "own/backs/heavy-part.rule, line 9, column 10: no rule uses idle\n"
    assert (result.exit_code, result.stderr) == (0, told)
    assert json.loads(run("rules", "--as", "json").stdout)["retired"] == []
    assert run("proof", "a.kitlist").stderr == ""
