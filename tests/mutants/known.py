"""`survivors.toml`: mutants that no test can tell from the code, or need not, each with the reason."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable
from pathlib import Path
from typing import NamedTuple

FILE = Path(__file__).with_name("survivors.toml")


class Known(NamedTuple):
    module: str
    function: str
    was: str
    now: str
    nth: int
    reason: str

    @property
    def name(self) -> tuple[str, str, str, str, int]:
        return self.module, self.function, self.was, self.now, self.nth


def read(text: str) -> list[Known]:
    """The survivors that a file lists."""
    entries = tomllib.loads(text).get("survivor", [])
    return [
        Known(each["module"], each["function"], each["was"], each["now"], each.get("nth", 1), each["reason"])
        for each in entries
    ]


def known() -> list[Known]:
    return read(FILE.read_text(encoding="utf-8"))


def entry(name: tuple[str, str, str, str, int]) -> str:
    """How a survivor would be written down, its reason left open."""
    module, function, was, now, nth = name
    lines = ["[[survivor]]", f'module = "{module}"', f'function = "{function}"']
    lines += [f"was = {_quoted(was)}", f"now = {_quoted(now)}", *([f"nth = {nth}"] if nth > 1 else []), 'reason = ""']
    return "\n".join(lines)


def _quoted(text: str) -> str:
    """A text as TOML has it: in single quotes, which take everything as it is, unless it has one itself."""
    if "'" not in text and "\n" not in text:
        return f"'{text}'"
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n")
    return f'"{escaped}"'


def stale(entries: Iterable[Known], there: set[tuple[str, str, str, str, int]], modules: set[str]) -> list[Known]:
    """Entries of these modules that are no mutants any more."""
    return [each for each in entries if each.module in modules and each.name not in there]
