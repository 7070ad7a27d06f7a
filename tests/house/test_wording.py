"""What must not stand in any file: marks of unfinished work, tests put aside, paths of somebody's machine."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.house.repository import DOCUMENTS, ROOT, short, written_files

# Each pattern is written so that it does not match the line it stands in.
UNFINISHED = re.compile(r"\b(?:TO[D]O|FIX[M]E|XX[X]|HA[C]K|Not[I]mplemented(?:Error)?)\b")
PUT_ASIDE = re.compile(r"\b(?:x[f]ail\(|mark\.s[k]ip\b|pytest\.s[k]ip\(|importor[s]kip)")
MACHINE = re.compile(r"(?<![\w.~/:<-])/(?:home|root|tmp|work|mnt|opt|Users)/[\w.]")


def texts() -> list[Path]:
    return [*(ROOT / name for name in DOCUMENTS if (ROOT / name).exists()), *written_files()]


@pytest.mark.parametrize(
    ("pattern", "example"),
    [
        (UNFINISHED, "TO" + "DO: later"),
        (PUT_ASIDE, "@pytest.mark." + "skip"),
        (MACHINE, "see /" + "home/someone/list"),
    ],
    ids=["unfinished work", "tests put aside", "machine paths"],
)
def test_no_file_holds(pattern: re.Pattern[str], example: str) -> None:
    assert pattern.search(example), "the pattern must find what it is for"
    found = [
        f"{short(path)}:{number} {line.strip()}"
        for path in texts()
        for number, line in enumerate(path.read_bytes().decode("utf-8", "replace").splitlines(), 1)
        if pattern.search(line)
    ]
    assert found == []
