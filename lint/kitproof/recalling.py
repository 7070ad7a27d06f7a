"""What was read and judged before, kept for each file and list, so that a changed list costs what was changed."""

from __future__ import annotations

import pickle
from collections.abc import Sequence
from typing import TYPE_CHECKING

from kitproof.kept import Kept
from kitproof.reading.alike import keep_patterns
from kitproof.reading.document import Document
from kitproof.reading.entries import NONE_KNOWN, Known, by_text

if TYPE_CHECKING:
    from kitproof.proofing.again import Memory


class Recall:
    """What is recalled of the files of one list, in the order asked for, and kept anew where it has changed."""

    def __init__(self, kept: Kept) -> None:
        self.kept = kept
        self.asked: list[tuple[str, Known]] = []

    def known(self, identity: str) -> Known:
        """The entries of a file as it was last read."""
        kept = self.kept.get("entries", self.kept.name(identity))
        found: Known = NONE_KNOWN if kept is None else pickle.loads(kept)
        self.asked.append((identity, found))
        return found

    def keep(self, documents: Sequence[Document]) -> None:
        """Keeps what has now been read of these files, which are those asked for."""
        for (identity, known), document in zip(self.asked, documents, strict=True):
            now = by_text(document)
            if now.keys() != known.keys():
                self.kept.put("entries", self.kept.name(identity), pickle.dumps(now))
                keep_patterns()


def memory_of(kept: Kept, identity: str) -> Memory:
    """What was said of the rigs of a list when it was last proofed."""
    from kitproof.proofing.again import Memory

    found = kept.get("rigs", kept.name(identity))
    return Memory() if found is None else Memory(*pickle.loads(found))


def keep_memory(kept: Kept, identity: str, memory: Memory) -> None:
    """Keeps what has now been said of them, where it has changed."""
    if memory.changed:
        kept.put("rigs", kept.name(identity), pickle.dumps((memory.ground, memory.now)))
