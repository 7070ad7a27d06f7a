"""Golden files: lists and all that is shown for them, in one file whose name is the claim that it proves.

A file is a run of sections. `--- NAME.kitlist` is a file that is there when the commands run; `--- kitproof WORDS: 1`
is a command, the exit status that it ends with, and the whole of what it prints.
"""

from __future__ import annotations

import contextlib
import re
import tempfile
from dataclasses import dataclass
from pathlib import Path

from click.testing import CliRunner

from kitproof.command import main

HERE = Path(__file__).resolve().parent
STAGES = ("reading", "model", "facts", "proofing", "comparing", "showing")

_SECTION = re.compile(r"^--- (?P<heading>.+)\n", re.MULTILINE)
_COMMAND = re.compile(r"kitproof (?P<words>.+?)(?:: (?P<status>\d|\?))?")


@dataclass(frozen=True)
class Golden:
    """One golden file: what stands in it, file by file, and the commands that are run."""

    files: dict[str, str]
    commands: tuple[str, ...]

    def shown(self) -> str:
        """The file as it should be: the lists as they are, and every command with what it gives now."""
        parts = [f"--- {name}\n{text}" for name, text in self.files.items()]
        with tempfile.TemporaryDirectory() as folder, contextlib.chdir(folder):
            for name, text in self.files.items():
                path = Path(name)
                path.parent.mkdir(parents=True, exist_ok=True)
                path.write_bytes(text.encode())
            parts += [_ran(words) for words in self.commands]
        return "".join(parts)


def _ran(words: str) -> str:
    result = CliRunner().invoke(main, words.split(), catch_exceptions=False)
    return f"--- kitproof {words}: {result.exit_code}\n{result.output}"


def read(path: Path) -> Golden:
    """A golden file taken apart; what a command printed is left out, since it is run anew."""
    pieces = _SECTION.split(path.read_bytes().decode())
    if pieces[0]:
        raise ValueError(f"{path.name} does not start with a section")
    files: dict[str, str] = {}
    commands: list[str] = []
    for heading, text in zip(pieces[1::2], pieces[2::2], strict=True):
        command = _COMMAND.fullmatch(heading)
        if command:
            commands.append(command["words"])
        else:
            files[heading] = text
    return Golden(files, tuple(commands))


def golden_files() -> list[Path]:
    return sorted(HERE.rglob("*.txt"))
