"""What is found in a changed list: at a first look with what is known of rigs that did not change, at a second anew.

The first look proves nothing: what looks worth it is proofed in full, and that alone counts.
"""

from __future__ import annotations

from functools import cached_property

from kitproof.facts.subject import Setting
from kitproof.model.rigs import Rig
from kitproof.proofing.hits import Hit
from kitproof.proofing.judging import judged_plain, judged_rig
from kitproof.proofing.proof import Examined, examined_by
from kitproof.reading.document import Document, Entry
from kitproof.rulebook.rules import RuleBook

APART = ("order", "move", "case", "waive", "rig")
"""Entries of which nothing is counted into a rig; of the rigs themselves those count that it is like."""

Known = dict[tuple[str, ...], list[Hit]]
"""What the rules said of a rig, by all of the text that bears on it, in all the texts that were tried."""


class Looks:
    """Two looks at one list: the first may take over what is known of a rig, the second judges every one here."""

    def __init__(self, setting: Setting, book: RuleBook, known: Known) -> None:
        self.setting, self.book, self.known = setting, book, known

    @cached_property
    def first(self) -> Examined:
        """What the list will most likely come to. Places in it may be those of another text."""
        of_rigs = [hit for _, hits, _ in self._rigs for hit in hits]
        return examined_by(self.setting, self.book, [*of_rigs, *self._plain])

    @cached_property
    def second(self) -> Examined:
        """The proof of the list as it stands, nothing of it taken over."""
        of_rigs = [
            hit
            for rig, hits, here in self._rigs
            for hit in (hits if here else judged_rig(self.setting, self.book, rig))
        ]
        return examined_by(self.setting, self.book, [*of_rigs, *self._plain])

    @cached_property
    def _plain(self) -> list[Hit]:
        return judged_plain(self.setting, self.book)

    @cached_property
    def _rigs(self) -> list[tuple[Rig, list[Hit], bool]]:
        """Each rig with what the rules say of it, and whether that was judged in this list."""
        document = self.setting.kitlist.documents[0]
        entries = {each.name: each for each in reversed(document.entries) if each.kind == "rig"}
        shared = tuple(_text(document, each) for each in document.entries if each.kind not in APART)
        found: list[tuple[Rig, list[Hit], bool]] = []
        for rig in self.setting.kitlist.rigs:
            key = (*_texts_of(document, entries, rig.name), *shared)
            here = key not in self.known
            if here:
                self.known[key] = judged_rig(self.setting, self.book, rig)
            found.append((rig, self.known[key], here))
        return found


def _texts_of(document: Document, rigs: dict[str, Entry], name: str) -> tuple[str, ...]:
    """The text of a rig and of those that it is like, in turn."""
    texts: list[str] = []
    entry = rigs.get(name)
    seen: set[str] = set()
    while entry is not None and entry.name not in seen:
        seen.add(entry.name)
        texts.append(_text(document, entry))
        entry = rigs.get(entry.like)
    return tuple(texts)


def _text(document: Document, entry: Entry) -> str:
    return "\n".join(document.lines[entry.line - 1 : entry.line - 1 + entry.rows])
