"""A rule file as bare text: its words and what stands after each, read without the package that is under test."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

from tests.house.repository import RULES

GRADES = ("stop", "wrong", "watch", "note")
_LINE = re.compile(r"^(?P<word>[a-z]+)\s+(?P<rest>.*)$")
_QUOTED = re.compile(r'"([^"]*)"')


@dataclass(frozen=True)
class RuleText:
    """The lines of one rule: (word, rest of the line). A line that starts with a space goes on the one before."""

    path: Path
    lines: tuple[tuple[str, str], ...]

    @property
    def name(self) -> str:
        return self.path.stem

    @property
    def group(self) -> str:
        return self.path.parent.name

    def all(self, word: str) -> list[str]:
        return [rest for each, rest in self.lines if each == word]

    def said(self, word: str) -> list[str]:
        """What stands in quotes after a word."""
        return [text for rest in self.all(word) for text in _QUOTED.findall(rest)]

    @property
    def title(self) -> str:
        return self.said("title")[0]

    @property
    def grade(self) -> str:
        return (self.all("grade") or ["wrong"])[0]


def read(path: Path) -> RuleText:
    """Reads one rule file."""
    lines: list[tuple[str, str]] = []
    for line in path.read_text("utf-8").splitlines():
        match = _LINE.match(line)
        if match:
            lines.append((match["word"], match["rest"].strip()))
        elif lines and line.startswith(" ") and line.strip():
            word, rest = lines[-1]
            lines[-1] = (word, f"{rest} {line.strip()}")
    return RuleText(path, tuple(lines))


def rules() -> list[RuleText]:
    """Every rule that ships, by group and name."""
    return [read(path) for path in sorted(RULES.glob("*/*.rule"))]
