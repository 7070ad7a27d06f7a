"""Kept answers: the same as a fresh run gives, whatever has changed since, and given with nothing heavy loaded."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from kitproof import kept

LIST = """\
list "One"
use "book.kitlist"
rig A
  sticks "S"
  head "H"
  camera "C"
"""
BOOK = """\
part sticks "S"
  mass 4 kg
  takes bowl 100 mm
part head "H"
  mass 3 kg
  sits on bowl 100 mm
  rated 5 kg at 100 mm
part camera "C"
  mass 9 kg
  cog 0 mm forward, 100 mm up
"""
PROBE = """
import json, sys
from kitproof.start import start
sys.argv = ["kitproof", *sys.argv[1:]]
try:
    start()
except SystemExit as end:
    status = end.code or 0
else:
    status = 0
print(json.dumps([status, "click" in sys.modules]), file=sys.stderr)
"""


@pytest.fixture
def job(tmp_path: Path) -> Path:
    folder = tmp_path / "above" / "job"
    folder.mkdir(parents=True)
    (folder / "a.kitlist").write_text(LIST)
    (folder / "book.kitlist").write_text(BOOK)
    return folder


def asked(job: Path, *words: str, keep: str = "kept") -> tuple[str, int, bool]:
    """What is printed, the exit status, and whether it was worked out (and not only printed again)."""
    folder = str(job.parent.parent / keep) if keep else ""
    result = subprocess.run(
        [sys.executable, "-c", PROBE, *words],
        cwd=job,
        env={**os.environ, kept.FOLDER: folder},
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
    )
    status, worked_out = json.loads(result.stderr.splitlines()[-1])
    return result.stdout, status, worked_out


def nothing(job: Path) -> None:
    pass


def edit_list(job: Path) -> None:
    (job / "a.kitlist").write_text(LIST.replace("A", "B"))


def edit_book(job: Path) -> None:
    (job / "book.kitlist").write_text(BOOK.replace("9 kg", "2 kg"))


def lose_book(job: Path) -> None:
    (job / "book.kitlist").unlink()


def add_list(job: Path) -> None:
    (job / "b.kitlist").write_text(LIST.replace("One", "Two"))


def add_settings(job: Path) -> None:
    (job.parent / "kitproof.toml").write_text('retired = ["overload-at-height"]\n')


def link_book(job: Path) -> None:
    (job / "other").write_text(BOOK.replace("9 kg", "8 kg"))
    (job / "book.kitlist").unlink()
    (job / "book.kitlist").symlink_to("other")


CHANGES = [edit_list, edit_book, lose_book, add_list, add_settings, link_book]


@pytest.mark.parametrize("words", [("proof", "."), ("proof", ".", "--as", "json")], ids=["text", "json"])
def test_the_same_question_is_answered_the_same_with_nothing_loaded(job: Path, words: tuple[str, ...]) -> None:
    first, second = asked(job, *words), asked(job, *words)
    assert first[:2] == second[:2]
    assert (first[2], second[2]) == (True, False)
    assert first[0]


@pytest.mark.parametrize("change", CHANGES, ids=lambda each: each.__name__)
def test_whatever_changes_the_answer_is_that_of_a_fresh_run(job: Path, change: Callable[[Path], None]) -> None:
    before = asked(job, "proof", ".")
    change(job)
    after = asked(job, "proof", ".")
    assert after == asked(job, "proof", ".", keep="")
    assert after[0] != before[0]


def test_a_house_rule_that_changes_is_seen(job: Path) -> None:
    (job / "kitproof.toml").write_text('rules = ["own"]\n')
    rule = job / "own" / "mine" / "no-cameras.rule"
    rule.parent.mkdir(parents=True)
    text = 'title "no"\nabout rig\nfails camera is there\nsays "One."\nbecause "So it is."\n'
    rule.write_text(text)
    assert "One." in asked(job, "proof", ".")[0]
    rule.write_text(text.replace("One.", "Another."))
    assert "Another." in asked(job, "proof", ".")[0]


@pytest.mark.parametrize(
    "words", [("--on", "2027-01-01"), ("--send-back-at", "note"), ("--retire", "overload-at-height")]
)
def test_other_words_are_another_question(job: Path, words: tuple[str, ...]) -> None:
    asked(job, "proof", ".")
    assert asked(job, "proof", ".", *words) == asked(job, "proof", ".", *words, keep="")


def test_what_writes_a_file_is_done_each_time(job: Path) -> None:
    for _ in range(2):
        assert asked(job, "proof", ".", "-o", "out.txt")[2]
        (job / "out.txt").unlink()


@pytest.mark.parametrize("damage", [b"", b"\0" * 60])
def test_a_damaged_answer_is_worked_out_again(job: Path, damage: bytes) -> None:
    before = asked(job, "proof", ".")
    for each in (job.parent.parent / "kept").iterdir():
        each.write_bytes(damage)
    assert asked(job, "proof", ".") == before


def test_a_folder_that_cannot_be_written_is_no_fault(job: Path) -> None:
    (job.parent.parent / "kept").write_text("a file in the way")
    assert asked(job, "proof", ".")[:2] == asked(job, "proof", ".", keep="")[:2]
