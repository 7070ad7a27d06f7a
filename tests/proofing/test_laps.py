"""Time by what it was spent on, and its table."""

from __future__ import annotations

from click.testing import CliRunner

from kitproof.command import main
from kitproof.proofing.hits import RULE
from kitproof.proofing.laps import Laps
from kitproof.showing.time_text import time_lines
from tests.house.readme_parts import sample
from tests.house.repository import ROOT


def test_all_time_is_spent_on_something() -> None:
    times = iter([0.0, 1.0, 3.0, 7.0])
    laps = Laps(lambda: next(times))
    for name in ("reading", "showing", "reading"):
        laps.lap(name)
    assert laps.spent == {"reading": 5.0, "showing": 2.0}


def test_stages_come_in_turn_and_rules_by_what_they_took() -> None:
    spent = {"loading": 1.0, f"{RULE} small": 1.0, f"{RULE} large": 6.0, "findings": 1.0, "showing": 1.0}
    lines = [line.split() for line in time_lines(spent)]
    assert [line[0] for line in lines] == ["Time:", "loading", "rules,", "findings", "showing", "The", "large", "small"]
    assert lines[0][1] == "10.000"
    assert [line[-1] for line in lines[1:5]] == ["10%", "70%", "10%", "10%"]


def test_no_time_at_all_is_no_fault() -> None:
    assert next(time_lines({})) == "Time: 0.000 s\n"


def test_the_command_says_it_beside_what_it_prints() -> None:
    path = str(ROOT / sample())
    plain = CliRunner().invoke(main, ["proof", path])
    timed = CliRunner().invoke(main, ["proof", path, "--show-time"])
    assert (timed.exit_code, timed.stdout) == (plain.exit_code, plain.stdout)
    for word in ("loading", "rule book and reading", "rules, with", "findings", "showing", "of "):
        assert word in timed.stderr
    assert plain.stderr == ""
