"""What texts say, wherever their words stand: two that read as the same have the same meaning."""

from __future__ import annotations

from typing import Any

from kitproof.reading.document import Document

PLACES = frozenset(("start", "end", "row", "rows", "line", "name_start", "name_end", "value_start", "value_end"))
"""What a document's nodes say of where something stands."""


def meaning(node: Any) -> object:
    """What a node of a document, or a tuple of them, says, with no places."""
    names = getattr(node, "__struct_fields__", None)
    if names is not None:
        return (type(node).__name__, *(_said(name, getattr(node, name)) for name in names if name not in PLACES))
    if isinstance(node, tuple):
        return tuple(meaning(each) for each in node)
    return node


def _said(name: str, value: Any) -> object:
    """A waiver's subject is kept as typed, and any spaces between its words will do; of rows unread the count."""
    if name == "subject":
        return " ".join(value.split())
    return len(value) if name == "unread" else meaning(value)


def same(one: Document, other: Document) -> bool:
    """Whether two documents say the same: their entries, and what of them could not be read."""
    stray_one, stray_other = (tuple(slip for _, slip in each.slips) for each in (one, other))
    return meaning((one.entries, stray_one)) == meaning((other.entries, stray_other))
