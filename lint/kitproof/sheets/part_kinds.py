"""Which kind of part a word in a sheet means: in a column of its own, in a section's heading, or at a name's end."""

from __future__ import annotations

from kitproof.sheets.headings import key
from kitproof.sheets.kind_words import KIND_WORDS
from kitproof.words.kinds import KINDS

_BY_WORDS: dict[str, str] = {
    **{key(word): kind for kind, words in KIND_WORDS.items() for word in words},
    **{key(kind): kind for kind in KINDS},
}


def kind_said(text: str) -> str:
    """The kind that a text names and nothing else; "" where it names none."""
    words = key(text)
    return _BY_WORDS.get(words) or _BY_WORDS.get(words.removesuffix("s"), "")


def kind_at_the_end(name: str) -> str:
    """The kind that the last words of a name say: a head by "Corbane 30 fluid head"; "" where they say none."""
    words = key(name).split()
    ends = (" ".join(words[at:]) for at in range(1, len(words)))
    return next((kind for end in ends if (kind := _BY_WORDS.get(end, ""))), "")
