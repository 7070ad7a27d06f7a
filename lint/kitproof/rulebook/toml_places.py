"""Where keys and names stand in a TOML text: TOML's own reader gives values and no places."""

from __future__ import annotations

import re
from collections.abc import Iterator

from msgspec import Struct

BARE = r"(?:\"[^\"]*\"|'[^']*'|[\w-]+)"
DOTTED = rf"{BARE}(?:\s*\.\s*{BARE})*"
HEADER = re.compile(rf"^\s*(?P<marks>\[\[?)\s*(?P<path>{DOTTED})\s*\]")
KEY = re.compile(rf"^\s*(?P<path>{DOTTED})\s*=")

Path = tuple[str, ...]


class Written(Struct, frozen=True):
    """A header or a key: its whole path, which `[[…]]` table it stands in (-1 for none), its place, its last line."""

    path: Path
    table: int
    line: int
    column: int
    to_column: int
    last_line: int


class TomlPlaces:
    """Places in one text. `root` is the table that all paths start from, `repeated` the array of tables in it."""

    def __init__(self, text: str, root: Path, repeated: str) -> None:
        self.lines = [_without_remark(line) for line in text.split("\n")]
        self.root, self.repeated = root, (*root, repeated)
        self.written = list(self._scan())

    def place(self, *path: str, number: int = -1) -> tuple[int, int, int]:
        """Line, column, and the column just after, of what a path names: its own key, a word in the value of a key
        above it, or else that key; the first character of the text where nothing of it is written. `number` is which
        of the repeated tables is meant."""
        wanted = (*self.root, *(part for each in path for part in each.split(".")))
        near = [each for each in self.written if wanted[: len(each.path)] == each.path and len(each.path) > 0]
        near = [each for each in near if each.table == number] or near
        if not near:
            return 1, 1, 2
        best = max(near, key=lambda each: len(each.path))
        if len(best.path) == len(wanted):
            return best.line, best.column, best.to_column
        return self._word(path[-1], best) or (best.line, best.column, best.to_column)

    def _word(self, word: str, within: Written) -> tuple[int, int, int] | None:
        for wanted in (word, word.rsplit(".", 1)[-1]):
            for number in range(within.line, within.last_line + 1):
                start = within.to_column - 1 if number == within.line else 0
                found = re.compile(rf"(?<![\w-]){re.escape(wanted)}(?![\w-])").search(self.lines[number - 1], start)
                if found:
                    return number, found.start() + 1, found.end() + 1
        return None

    def _scan(self) -> Iterator[Written]:
        header: Path = ()
        table = -1
        found: list[tuple[Path, int, int, int, int, bool]] = []
        for number, line in enumerate(self.lines, 1):
            opens, key = HEADER.match(line), KEY.match(line)
            if opens:
                header = _parts(opens["path"])
                if opens["marks"] == "[[" and header == self.repeated:
                    table += 1
                here = table if header[: len(self.repeated)] == self.repeated else -1
                found.append((header, here, number, opens.start("path") + 1, opens.end("path") + 1, True))
            elif key:
                here = table if header[: len(self.repeated)] == self.repeated else -1
                path = (*header, *_parts(key["path"]))
                found.append((path, here, number, key.start("path") + 1, key.end("path") + 1, False))
        for at, (path, here, number, start, end, is_header) in enumerate(found):
            ends = (other[2] - 1 for other in found[at + 1 :] if other[5] or not is_header)
            yield Written(path, here, number, start, end, next(ends, len(self.lines)))


def _parts(dotted: str) -> Path:
    """The parts of a key, quoted ones too: a name of ours in quotes, "a.b", is two parts as well."""
    pieces = [re.sub(r"^([\"'])(.*)\1$", r"\2", each.group()) for each in re.finditer(BARE, dotted)]
    return tuple(part for piece in pieces for part in piece.split("."))


def _without_remark(line: str) -> str:
    """A line up to its remark; a `#` in quotes is none."""
    quote = ""
    for at, sign in enumerate(line):
        if quote:
            quote = "" if sign == quote else quote
        elif sign in "\"'":
            quote = sign
        elif sign == "#":
            return line[:at]
    return line
