"""Text of cells as it may stand in a list: on one line, and with no quote that could close a name."""

from __future__ import annotations

import re

_NOT_IN_LINES = re.compile("[\x00-\x1f\x7f-\x9f\u2028\u2029\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff\ud800-\udfff]+")
_QUOTES = re.compile('["“”„″]')


def on_one_line(text: str) -> str:
    """Text with nothing in it that could end a line or turn it round."""
    return " ".join(_NOT_IN_LINES.sub(" ", text).split())


def for_quotes(text: str) -> str:
    """Text on one line with no double quote of any kind in it, so that it can stand in quotes."""
    return _QUOTES.sub("'", on_one_line(text))
