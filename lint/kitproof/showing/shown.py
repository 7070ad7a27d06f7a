"""What every way of showing a proof is given, and where things are for those who show it elsewhere."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cached_property

from msgspec import Struct

from kitproof.model.kitlist import KitList
from kitproof.proofing.findings import Finding, Proof
from kitproof.reading.document import Where
from kitproof.rulebook.rules import Rule


class Shown(Struct, frozen=True, dict=True):
    """A proof with all that its showing needs.

    `lists` are those proofed, `rules` every rule in force for one of them by name, `send_back_at` the grade that sends
    a list back. `paths` leads from a file as it is named in the proof to its name from the top of its repository, with
    `/` between folders: services look there, from wherever Kitproof was run.
    """

    proof: Proof
    lists: Sequence[KitList]
    rules: Mapping[str, Rule]
    send_back_at: str = "wrong"
    paths: Mapping[str, str] = {}

    @cached_property
    def lines(self) -> Mapping[str, Sequence[str]]:
        """The lines of every file that was read."""
        return {document.path: document.lines for each in self.lists for document in each.documents}

    @cached_property
    def headings(self) -> Mapping[str, str]:
        """Path, issue and title of each list by its path."""
        return {each.path: each.heading for each in self.lists}

    def path(self, path: str) -> str:
        """A file's name from the top of its repository; as it is named in the proof where that is not known."""
        return self.paths.get(path, path.replace("\\", "/"))

    def utf16(self, where: Where) -> tuple[int, int]:
        """The columns of a place in UTF-16 code units, from 1, the second just after the last."""
        return self._units(where.path, where.line, where.column), self._units(
            where.path, where.to_line, where.to_column
        )

    def _units(self, path: str, line: int, column: int) -> int:
        lines = self.lines.get(path, ())
        before = lines[line - 1][: column - 1] if 0 < line <= len(lines) else ""
        return column + sum(ord(each) > 0xFFFF for each in before)


def live(finding: Finding) -> bool:
    """Whether a finding is neither accepted by a waiver nor known before."""
    return finding.waived is None and not finding.known


def waits(finding: Finding) -> bool:
    """Whether it waits for an answer and does not send the list back meanwhile."""
    return finding.outcome == "cannot tell" and not finding.counts
