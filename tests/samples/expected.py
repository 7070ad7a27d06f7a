"""The proofs of the samples that are committed, so that a change to a rule shows what appears and what vanishes, and
the numbers behind them, so that a change to a fact shows which it moves.

`python -m tests.samples.expected` writes them anew. Read the change, then keep it.
"""

from __future__ import annotations

import contextlib
import shutil
import sys
import tempfile
from pathlib import Path

from click.testing import CliRunner

from kitproof.command import main as kitproof
from tests.house.repository import ROOT

FOLDER = Path(__file__).with_name("proofs")
PATHS = {
    "nine-bells-faults": "samples/nine-bells-faults.kitlist",
    "nine-bells-mended": "samples/nine-bells-mended.kitlist",
    "second-unit-faults": "samples/second-unit-faults.kitlist",
    "second-unit-mended": "samples/second-unit-mended.kitlist",
    "islands-flight-faults": "samples/islands-flight-faults.kitlist",
    "islands-flight-mended": "samples/islands-flight-mended.kitlist",
    "season": "samples/season",
    "untidy": "samples/untidy",
    "stock": "samples/stock",
    "house": "samples/house",
    "sheets": "samples/sheets",
    "inventory": "samples/inventory",
}
FORMS = {"txt": ("proof", "text"), "json": ("proof", "json"), "numbers.txt": ("numbers", "text")}
"""What is printed of a sample, by the ending of its file."""


def endings(name: str) -> list[str]:
    """Numbers are printed of one list, and not of a folder."""
    return [ending for ending, (word, _) in FORMS.items() if word == "proof" or PATHS[name].endswith(".kitlist")]


def printed(path: str, word: str, form: str) -> str:
    """What the command prints of a copy of the samples whose root is marked: it is the same wherever it runs."""
    with tempfile.TemporaryDirectory() as folder, contextlib.chdir(folder):
        shutil.copytree(ROOT / "samples", "samples", ignore=shutil.ignore_patterns("__pycache__"))
        Path("kitproof.toml").touch()
        words = [word, path, "--on", "2027-03-01", "--as", form]
        result = CliRunner().invoke(kitproof, words, catch_exceptions=False)
    if result.stderr:
        raise RuntimeError(result.stderr)
    return result.stdout


def main() -> int:
    FOLDER.mkdir(exist_ok=True)
    for name, path in PATHS.items():
        for ending in endings(name):
            (FOLDER / f"{name}.{ending}").write_bytes(printed(path, *FORMS[ending]).encode())
    return 0


if __name__ == "__main__":
    sys.exit(main())
