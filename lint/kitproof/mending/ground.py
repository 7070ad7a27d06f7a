"""A list as it stands, and the same list with changes to its text: made and proofed again, its books read once."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from functools import cached_property

from msgspec import Struct, field
from msgspec.structs import replace

from kitproof.facts.subject import Setting
from kitproof.mending.filetext import FileText
from kitproof.mending.screening import Known, Looks
from kitproof.model.kitlist import KitList
from kitproof.model.making import make_list
from kitproof.model.promises import Promised
from kitproof.model.sources import Fetch, gather
from kitproof.proofing.findings import Change
from kitproof.proofing.proof import Examined, setting_of, units_of
from kitproof.reading.characters import split_lines
from kitproof.reading.document import Document
from kitproof.reading.rewriting import rewritten
from kitproof.rulebook.messages import Units
from kitproof.rulebook.rules import RuleBook


class Given(Struct, frozen=True):
    """What does not change while a list is mended: its names, what it uses, and what it is proofed with.

    `known` fills while changes are tried: see `screening`.
    """

    path: str
    identity: str
    key: str
    fetch: Fetch
    book: RuleBook
    day: date
    others: tuple[Promised, ...] = ()
    known: Known = field(default_factory=dict)


class Ground(Struct, frozen=True, dict=True):
    """A list in one text, what it says, and what is found in it. Nothing is worked out before it is asked for."""

    given: Given
    file: FileText

    @cached_property
    def kitlist(self) -> KitList:
        given = self.given
        data = self.file.with_text(self.file.text)
        return make_list(gather(given.path, given.identity, data, given.fetch), given.key)

    @property
    def document(self) -> Document:
        """The list's own file."""
        return self.kitlist.documents[0]

    @cached_property
    def setting(self) -> Setting:
        return setting_of(self.kitlist, self.given.book, self.given.day, self.given.others)

    @cached_property
    def units(self) -> Units:
        return units_of(self.kitlist, self.given.book)

    @cached_property
    def looks(self) -> Looks:
        return Looks(self.setting, self.given.book, self.given.known)

    @property
    def examined(self) -> Examined:
        """What is found in the list as it stands."""
        return self.looks.second

    def beside(self, others: tuple[Promised, ...]) -> Ground:
        """The same list, proofed beside what other lists promise of the same stock."""
        return Ground(replace(self.given, others=others), self.file)

    def changed(self, changes: Iterable[Change]) -> Ground | None:
        """The list with its text changed. None where a change lies in another file, or on a line with bytes that are
        no UTF-8, or where two changes want the same words."""
        raw = replace(self.document, text=self.file.text)
        wanted = [(each.where, each.text) for each in changes]
        if not all(where.path == self.given.path and self._same_line(where.line) for where, _ in wanted):
            return None
        try:
            text = rewritten(raw, wanted)
        except ValueError:
            return None
        return Ground(self.given, replace(self.file, text=text))

    def _same_line(self, line: int) -> bool:
        """Whether the line reads as its bytes say."""
        return self.document.lines[line - 1] == self._lines[line - 1]

    @cached_property
    def _lines(self) -> tuple[str, ...]:
        return split_lines(self.file.text)[0]
