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


def verdicts(count: int, stops: int) -> str:
    """How many verdicts there are, and how many of them are of the grade stop: 7 verdicts, 2 of them stops."""
    many = "1 verdict" if count == 1 else f"{count} verdicts"
    if not stops:
        return many
    if count == 1:
        return f"{many}, a stop"
    return (
        f"{many}, all of them stops"
        if stops == count
        else f"{many}, {stops} of them {'a stop' if stops == 1 else 'stops'}"
    )


def from_whom(title: str) -> str:
    """Whom an order is from, by its title: "From Harrowby" and "Lenses, from Harrowby" are from Harrowby."""
    after = f" {title}".replace(" From ", " from ").rpartition(" from ")[2].strip()
    return after or title
