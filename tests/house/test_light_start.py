"""`kitproof --help`, `--version` and `kitproof` alone start without the heavy packages that only proofing needs."""

from __future__ import annotations

import json
import os
import subprocess
import sys

import pytest

import kitproof
from tests.house.readme_parts import sample
from tests.house.repository import ROOT

HEAVY = ("lark", "numpy", "openpyxl", "pint", "pydantic", "python_calamine", "rapidfuzz", "rich")
PROBE = """
import json, sys
from kitproof.command import main
try:
    main(sys.argv[1:], prog_name="kitproof")
except SystemExit as end:
    status = end.code or 0
else:
    status = 0
heavy = sorted({name.partition(".")[0] for name in sys.modules} & set(HEAVY))
print(json.dumps([status, heavy]), file=sys.stderr)
"""


def start(*words: str) -> tuple[int, list[str], str]:
    """Status, heavy packages imported, and what was printed."""
    probe = PROBE.replace("HEAVY", repr(HEAVY))
    nothing_kept = {**os.environ, "KITPROOF_KEEPS_IN": ""}  # else what an earlier run kept would be taken from there
    result = subprocess.run(
        [sys.executable, "-c", probe, *words],
        env=nothing_kept,
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
    )
    status, heavy = json.loads(result.stderr.splitlines()[-1])
    return status, heavy, result.stdout


@pytest.mark.parametrize(
    "words", [("--help",), ("--version",), (), ("proof", "--help"), ("from-sheet", "--help")], ids=" ".join
)
def test_a_light_start(words: tuple[str, ...]) -> None:
    status, heavy, printed = start(*words)
    assert (status, heavy) == (0, [])
    assert printed.strip()


def test_the_probe_sees_a_heavy_package() -> None:
    """Proofing a list needs the grammar, so the probe must see it; else the test above could not fail."""
    _, heavy, _ = start("proof", str(ROOT / sample()))
    assert "lark" in heavy


def test_the_version_is_the_package_s() -> None:
    _, _, printed = start("--version")
    assert kitproof.__version__ in printed
