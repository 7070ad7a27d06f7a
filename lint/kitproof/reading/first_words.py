"""The word that begins an entry."""

from __future__ import annotations

import re

from kitproof.reading.characters import LONGEST_LINE, plain
from kitproof.words.kinds import ENTRIES

ENTRY_WORDS = (*ENTRIES, "part")
_ENTRY = re.compile(rf"(?ai:{'|'.join(ENTRY_WORDS)})(?![\w-])")


def entry_word(text: str) -> str:
    """The word of the entry that a line in column 1 begins; "" where it begins none."""
    if len(text) > LONGEST_LINE:
        return ""
    match = _ENTRY.match(plain(text).text)
    return match[0].casefold() if match else ""
