"""What is shown for a list stays as it was until somebody looks at the change: `python -m tests.golden.rewrite`."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.golden.cases import HERE, STAGES, golden_files, read

DAY = "--on 2027-03-01"


@pytest.mark.parametrize("path", golden_files(), ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_what_is_shown_is_as_it_was(path: Path) -> None:
    assert read(path).shown() == path.read_bytes().decode()


@pytest.mark.parametrize("path", golden_files(), ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_a_golden_file_is_whole(path: Path) -> None:
    """It names its claim, has a list, and runs a command whose outcome does not hang on today's day."""
    golden = read(path)
    assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+){2,}", path.stem)
    assert golden.files
    assert golden.commands
    assert [words for words in golden.commands if words.startswith(("proof", "numbers")) and DAY not in words] == []
    assert [name for name in golden.files if ".." in name or name.startswith("/")] == []


def test_every_golden_file_stands_in_the_folder_of_a_stage() -> None:
    strays = [path for path in HERE.rglob("*") if path.is_file() and path.suffix not in (".txt", ".py", ".pyc")]
    assert strays == []
    assert {path.parent.relative_to(HERE).as_posix() for path in golden_files()} == set(STAGES)


def test_no_golden_file_is_there_twice() -> None:
    inputs = [(tuple(golden.files.items()), golden.commands) for golden in map(read, golden_files())]
    assert len(set(inputs)) == len(inputs)
