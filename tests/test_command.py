"""The command line: what it prints where, and the status that it ends with."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from kitproof.command import main
from kitproof.cores import ENOUGH
from kitproof.showing.rules_text import rule_lines
from kitproof.showing.text import plain
from tests.house.repository import ROOT, RULES, short
from tests.proofing.lists import book

SAMPLES = ROOT / "samples"
FAULTS = SAMPLES / "nine-bells-faults.kitlist"
MENDED = SAMPLES / "nine-bells-mended.kitlist"
FOLDERS = sorted({path.parent for top in (SAMPLES, RULES) for path in top.rglob("*.kitlist")})
ON = ("--on", "2027-03-01")
WATCH = 'part head "Tollgate 16"\n  mass 3 kg\n\nwaive camera-left-on in list\n  because "none"\n'
NOTE = "# nothing yet\n"
RULE_NAMES = sorted(path.stem for path in RULES.rglob("*.rule"))
ESCAPE = "\x1b["


def run(*words: str | Path, typed: str | bytes | None = None) -> Result:
    return CliRunner().invoke(main, [str(word) for word in words], input=typed, catch_exceptions=False)


def kitproof(*words: str | Path, **surroundings: str) -> subprocess.CompletedProcess[str]:
    """The command in a process of its own."""
    return subprocess.run(
        [sys.executable, "-m", "kitproof", *map(str, words)],
        env={**os.environ, "PYTHONUTF8": "1", **surroundings},
        capture_output=True,
        text=True,
        encoding="utf-8",
        timeout=120,
        check=False,
    )


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty folder to work in."""
    monkeypatch.chdir(tmp_path)
    return tmp_path


# The first words


def test_alone_it_says_in_ten_lines_what_it_is_for_and_what_to_try() -> None:
    result = run()
    assert (result.exit_code, result.stderr) == (0, "")
    assert 8 <= len(result.stdout.splitlines()) <= 12
    assert "kitproof proof " in result.stdout
    assert max(map(len, result.stdout.splitlines())) <= 80


def test_what_it_says_to_try_first_can_be_tried() -> None:
    words = re.search(r"Start with: +kitproof (.+)", run().stdout)
    assert words
    result = subprocess.run(
        [sys.executable, "-m", "kitproof", *words[1].split()], cwd=ROOT, capture_output=True, timeout=120, check=False
    )
    assert (result.returncode, result.stderr) == (1, b"")


@pytest.mark.parametrize("words", [["--help"], ["proof", "--help"], ["numbers", "-h"], ["why", "--help"]])
def test_help_is_given(words: list[str]) -> None:
    result = run(*words)
    assert result.exit_code == 0
    assert "Usage: " in result.stdout


# Exit status


@pytest.mark.parametrize(
    ("typed", "at", "status"),
    [
        (NOTE, "wrong", 0),
        (NOTE, "watch", 0),
        (NOTE, "note", 1),
        (WATCH, "wrong", 0),
        (WATCH, "watch", 1),
        (WATCH, "note", 1),
    ],
)
def test_a_list_is_sent_back_at_the_grade_asked_for(typed: str, at: str, status: int) -> None:
    assert run("proof", "-", "--send-back-at", at, *ON, typed=typed).exit_code == status


@pytest.mark.parametrize("at", ["stop", "wrong", "watch", "note"])
def test_a_list_with_a_stop_is_sent_back_at_every_grade(at: str) -> None:
    result = run("proof", FAULTS, "--send-back-at", at, *ON)
    assert result.exit_code == 1
    assert f"Send it back, at grade {at}." in result.stdout


def test_a_wrong_list_is_not_sent_back_at_stop() -> None:
    assert run("proof", "-", "--send-back-at", "stop", *ON, typed="????\n").exit_code == 0
    assert run("proof", "-", *ON, typed="????\n").exit_code == 1


def test_a_mended_list_ends_with_nothing_to_send_back() -> None:
    result = run("proof", MENDED, *ON)
    assert (result.exit_code, result.stderr) == (0, "")
    assert "Nothing to send back" in result.stdout


def test_a_verdict_on_a_stop_rule_that_waits_sends_back_and_on_another_does_not() -> None:
    """`cannot tell` counts like a finding for stop rules, and for those only."""
    rig = (
        'part head "H"\n  mass 3 kg\n  height 120 mm\n  takes slide wide\n  chart {chart}\n'
        "  tilt axis 45 mm below plate\n  counterbalance 0 to 20 N·m, stepless\n  drag 0.1 to 3 N·m\n\n"
        'part slide "S"\n  mass 1 kg\n  cog 10 mm up\n  height 20 mm\n  sits on slide wide\n'
        "  takes screw 3/8-16\n  travel {travel}\n\n"
        'part camera "C"\n  mass 4 kg\n  cog 50 mm up\n  sits on screw 3/8-16\n\n'
        'rig A\n  head "H"\n  slide "S"\n  camera "C"\n'
    )
    known = {"chart": "18 kg at 125 mm", "travel": "60 mm back to 60 mm forward"}
    assert run("proof", "-", *ON, typed=rig.format(**known)).exit_code == 0
    stop = run("proof", "-", *ON, typed=rig.format(**{**known, "chart": "?"}))
    other = run("proof", "-", *ON, typed=rig.format(**{**known, "travel": "?"}))
    assert (stop.exit_code, other.exit_code) == (1, 0)
    assert "1 not decided" in stop.stdout
    assert "2 not decided" in other.stdout


# Where lists come from


def test_standard_input_has_the_name_it_is_given() -> None:
    result = run("proof", "-", "--called", "orders/pier.kitlist", *ON, typed="????\n")
    assert "orders/pier.kitlist, line 1" in result.stdout
    assert "standard input, line 1" in run("proof", "-", *ON, typed="????\n").stdout


def test_standard_input_uses_the_files_beside_it(desk: Path) -> None:
    (desk / "book.kitlist").write_text('part accessory "slate"\n  mass 1,2 kg\n', "utf-8")
    assert "book.kitlist, line 2" in run("proof", "-", *ON, typed='use "book.kitlist"\n').stdout


def test_a_name_for_standard_input_needs_standard_input() -> None:
    result = run("proof", MENDED, "--called", "x")
    assert (result.exit_code, result.stdout) == (2, "")
    assert "--called" in result.stderr


def test_folders_are_searched_and_hidden_ones_left_out(desk: Path) -> None:
    for name in ("a.kitlist", "deep/down/b.kitlist", ".hidden/c.kitlist", "deep/.d.kitlist", "deep/e.txt"):
        (desk / name).parent.mkdir(parents=True, exist_ok=True)
        (desk / name).write_text("????\n", "utf-8")
    result = run("proof", ".", *ON, "--as", "json")
    found = {each["where"]["path"] for each in json.loads(result.stdout)["findings"]}
    assert found == {"a.kitlist", "deep/down/b.kitlist"}


def test_a_hidden_list_that_is_named_is_proofed(desk: Path) -> None:
    (desk / ".d.kitlist").write_text("????\n", "utf-8")
    assert run("proof", ".d.kitlist", *ON).exit_code == 1


def test_a_list_named_twice_is_proofed_once(desk: Path) -> None:
    (desk / "a.kitlist").write_text("????\n", "utf-8")
    result = run("proof", "a.kitlist", "a.kitlist", ".", *ON, "--as", "json")
    assert result.stdout == run("proof", "a.kitlist", *ON, "--as", "json").stdout


def test_a_path_that_is_not_there_is_said_with_the_nearest() -> None:
    result = run("proof", SAMPLES / "nine-bells-fault.kitlist")
    assert (result.exit_code, result.stdout) == (2, "")
    assert "nine-bells-faults.kitlist" in result.stderr


def test_one_path_that_is_not_there_stops_all(desk: Path) -> None:
    result = run("proof", MENDED, "nothing.kitlist")
    assert (result.exit_code, result.stdout) == (2, "")
    assert "nothing.kitlist" in result.stderr


def test_no_path_says_what_to_type() -> None:
    result = run("proof")
    assert (result.exit_code, result.stdout) == (2, "")
    assert "kitproof proof " in result.stderr


def test_a_folder_with_no_list_is_said(desk: Path) -> None:
    result = run("proof", ".")
    assert (result.exit_code, result.stdout) == (2, "")
    assert ".kitlist" in result.stderr


# What is asked for wrongly


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["proof", "x", "--on", "yesterday"], '"yesterday" is not a day'),
        (["proof", "x", "--on", "2027-13-01"], "2027-03-08"),
        (["proof", "x", "--as", "paper"], "'text', 'json'"),
        (["proof", "x", "--send-back-at", "severe"], "'stop', 'wrong', 'watch', 'note'"),
        (["prof", "x"], "'proof'"),
        (["why", "overlaod-at-height"], "overload-at-height"),
        (["numbers", str(MENDED), "--rig", "Z"], '"Z"'),
    ],
)
def test_what_cannot_be_run_ends_with_two_and_says_what_may_be_typed(words: list[str], said: str) -> None:
    result = run(*words)
    assert (result.exit_code, result.stdout) == (2, "")
    assert said in result.stderr
    assert not re.search(r"\binvalid\b|unexpected|Traceback", result.stderr, re.IGNORECASE)


# Rules that have mistakes

MISTAKEN = {
    "own/unknown-fact.rule": 'title "t"\nabout rig\nfails load_shar > 100 %\n',
    "own/wrong-dimension.rule": 'title "t"\nabout rig\nfails carried > cog_up\n',
    "own/no-such-grade.rule": 'title "t"\ngrade grave\nabout rig\nfails carried > 1 kg\n',
    "own/no-such-subject.rule": 'title "t"\nabout boat\nfails carried > 1 kg\n',
    "own/half.rule": 'title "t"\nabout rig\nfails carried >\n',
}
REST = 'says "It is so."\ndoubt "whether it is so"\nbecause "It is."\nfix advise "Do it."\nsource "common practice"\n'


@pytest.fixture
def mistaken(desk: Path) -> Path:
    for name, text in MISTAKEN.items():
        path = desk / "rules" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text + REST, "utf-8")
    return desk / "rules"


def test_every_mistake_of_every_rule_file_is_said_at_its_place_and_nothing_is_proofed(mistaken: Path) -> None:
    result = run("proof", FAULTS, "--rules", mistaken, *ON)
    assert (result.exit_code, result.stdout) == (2, "")
    said = [line for line in result.stderr.splitlines() if ".rule, line " in line]
    places = {re.sub(r".*/(own/.+\.rule), line (\d+).*", r"\1 \2", line) for line in said}
    assert places == {
        "own/unknown-fact.rule 3",
        "own/wrong-dimension.rule 3",
        "own/no-such-grade.rule 2",
        "own/no-such-subject.rule 2",
        "own/half.rule 3",
    }
    assert all(re.search(r", line \d+, column \d+: ", line) for line in said)
    assert "Nothing was proofed" in result.stderr


def test_a_folder_of_rules_that_is_right_is_used(mistaken: Path) -> None:
    for path in mistaken.rglob("*.rule"):
        path.unlink()
    (mistaken / "own" / "heavy.rule").write_text('title "t"\nabout rig\nfails carried > 1 kg\n' + REST, "utf-8")
    result = run("proof", MENDED, "--rules", mistaken, *ON)
    assert (result.exit_code, result.stderr) == (1, "")
    assert "Rule   heavy" in result.stdout


# What is printed


def test_json_is_all_that_stands_on_standard_output() -> None:
    result = run("proof", FAULTS, MENDED, "--as", "json", *ON)
    assert json.loads(result.stdout)["schema"] == "kitproof/findings/1"
    assert result.stderr == ""


def test_output_goes_to_a_file_that_is_named(desk: Path) -> None:
    plain = run("proof", MENDED, *ON)
    filed = run("proof", MENDED, *ON, "-o", "found.txt")
    assert (filed.exit_code, filed.stdout) == (0, "")
    assert (desk / "found.txt").read_text("utf-8") == plain.stdout


def test_a_file_that_cannot_be_written_is_said(desk: Path) -> None:
    result = run("proof", MENDED, *ON, "-o", "nowhere/found.txt")
    assert (result.exit_code, result.stdout) == (2, "")
    assert "nowhere/found.txt" in result.stderr


@pytest.mark.parametrize("path", FOLDERS, ids=short)
def test_every_line_is_at_most_eighty_columns(path: Path) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(ROOT)
        lines = run("proof", path.relative_to(ROOT), *ON).stdout.splitlines()
    assert lines
    assert [line for line in lines if len(line) > 80 or line != line.rstrip()] == []


@pytest.mark.parametrize("path", [FAULTS, MENDED], ids=short)
@pytest.mark.parametrize("more", [(), ("--worked",)], ids=["plain", "worked"])
def test_every_line_of_numbers_is_at_most_eighty_columns(path: Path, more: tuple[str, ...]) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(ROOT)
        lines = run("numbers", path.relative_to(ROOT), *more, *ON).stdout.splitlines()
    assert len(lines) > 40
    assert [line for line in lines if len(line) > 80] == []


def test_every_rule_is_told_in_full_within_eighty_columns() -> None:
    told = {name: plain(rule_lines(rule, book())) for name, rule in book().rules.items()}
    assert [name for name, text in told.items() if name not in text] == []
    assert [line for text in told.values() for line in text.splitlines() if len(line) > 80] == []
    assert run("why", "slide-missing").stdout == told["slide-missing"]


def test_all_rules_are_named_within_eighty_columns() -> None:
    lines = run("rules").stdout.split("\nlimits\n")[0].splitlines()
    assert {line.split()[0] for line in lines if line.startswith("  ") and line[2] != " "} == set(RULE_NAMES)
    assert [line for line in lines if len(line) > 80] == []


def test_what_is_said_never_promises_too_much_or_speaks_as_programmers_do() -> None:
    said = "".join(run("proof", path, *ON).stdout for path in (FAULTS, MENDED, SAMPLES / "untidy"))
    assert not re.search(r"\b(?:invalid|unexpected|token|clean|passed|ok)\b", said, re.IGNORECASE)


# A terminal, a pipe


def test_what_goes_to_no_terminal_has_no_colour() -> None:
    for surroundings in ({}, {"NO_COLOR": "1"}, {"TERM": "xterm-256color"}):
        result = kitproof("proof", FAULTS, *ON, **surroundings)
        assert (result.returncode, result.stderr) == (1, "")
        assert ESCAPE not in result.stdout


def on_a_terminal(*words: str | Path, **surroundings: str) -> str:
    """What the command prints on a terminal of its own, 80 columns wide."""
    import pty as terminal

    ours, theirs = terminal.openpty()
    wanted = {name: value for name, value in os.environ.items() if name not in ("NO_COLOR", "FORCE_COLOR")}
    process = subprocess.Popen(
        [sys.executable, "-m", "kitproof", *map(str, words)],
        env={**wanted, "PYTHONUTF8": "1", "TERM": "xterm-256color", "COLUMNS": "80", **surroundings},
        stdout=theirs,
        stderr=theirs,
    )
    os.close(theirs)
    read = b""
    while True:
        try:
            piece = os.read(ours, 4096)
        except OSError:  # the other end has been closed
            break
        if not piece:
            break
        read += piece
    os.close(ours)
    process.wait(timeout=60)
    return read.decode("utf-8").replace("\r\n", "\n")


def test_a_terminal_has_colour_and_the_same_words() -> None:
    shown = on_a_terminal("proof", FAULTS, *ON)
    assert ESCAPE in shown
    plain = run("proof", FAULTS, *ON).stdout
    assert re.sub(r"\x1b\[[0-9;]*m", "", shown).split() == plain.split()


def test_a_terminal_with_no_color_set_has_none() -> None:
    shown = on_a_terminal("proof", FAULTS, *ON, NO_COLOR="1")
    assert ESCAPE not in shown
    assert shown == run("proof", FAULTS, *ON).stdout


def test_a_file_that_is_written_from_a_terminal_has_no_colour(desk: Path) -> None:
    on_a_terminal("proof", FAULTS, *ON, "-o", "found.txt")
    assert ESCAPE not in (desk / "found.txt").read_text("utf-8")


@pytest.mark.parametrize("words", [["proof", str(FAULTS)], ["numbers", str(FAULTS)], ["rules"]])
def test_a_reader_that_goes_away_is_no_fault(words: list[str]) -> None:
    """As `kitproof … | head -1` does: the pipe is closed before anything is written."""
    read, write = os.pipe()
    os.close(read)
    process = subprocess.run(
        [sys.executable, "-m", "kitproof", *words], stdout=write, stderr=subprocess.PIPE, timeout=120, check=False
    )
    os.close(write)
    assert process.stderr == b""


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_a_shell_can_complete_what_is_typed(shell: str) -> None:
    script = subprocess.run(
        [Path(sys.executable).with_name("kitproof")],
        env={**os.environ, "_KITPROOF_COMPLETE": f"{shell}_source"},
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert (script.returncode, script.stderr) == (0, "")
    assert "_KITPROOF_COMPLETE" in script.stdout


def test_rules_are_completed_by_their_names() -> None:
    script = subprocess.run(
        [Path(sys.executable).with_name("kitproof")],
        env={**os.environ, "_KITPROOF_COMPLETE": "bash_complete", "COMP_WORDS": "kitproof why over", "COMP_CWORD": "2"},
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert "overload-at-height" in script.stdout
    assert "slide-missing" not in script.stdout


def test_many_lists_print_the_same_on_any_number_of_cores(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for number in range(ENOUGH + 1):
        (tmp_path / f"{number}.kitlist").write_text(f'list "L{number}"\n\n{WATCH}')
    printed = set()
    for hands in (1, 2):
        monkeypatch.setattr("kitproof.cores.cores", lambda hands=hands: hands)
        printed.add(run("proof", tmp_path, "--as", "json", *ON).stdout)
    assert len(printed) == 1
