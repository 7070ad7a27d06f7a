"""Text to document: entries, fields and values, each with its place in the text. No meaning beyond the line.

Lark is loaded when the first value is read, pint when the first unusual unit is.
"""

from __future__ import annotations

from kitproof.reading.decoding import decode
from kitproof.reading.document import Document, Quantity
from kitproof.reading.entries import read
from kitproof.reading.rewriting import rewritten
from kitproof.reading.single import read_quantity
from kitproof.words.nearest import nearest

__all__ = ["Document", "Quantity", "decode", "nearest", "read", "read_quantity", "rewritten"]
