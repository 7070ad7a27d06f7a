"""Small words around the trade's words."""

from __future__ import annotations

PLURAL = ("sticks", "rods")
"""Kinds of part that are spoken of in the plural."""


def with_article(word: str) -> str:
    """A word with its article: a head, an adapter, sticks."""
    if word in PLURAL:
        return word
    return f"{'an' if word[:1] in 'aeiou' else 'a'} {word}"


def another(word: str) -> str:
    """Another one of it: another head, other sticks."""
    return f"other {word}" if word in PLURAL else f"another {word}"
