"""Rows that head a section, and words that name a rig."""

from __future__ import annotations

import re

from kitproof.sheets.cells import Row, Sheet
from kitproof.sheets.headings import key
from kitproof.sheets.kind_words import SECTION_WORDS
from kitproof.sheets.plain_text import for_quotes

LONGEST = 60
_RIG = re.compile(
    r"(?:rig|build|camera|cam)\s+(?P<after>[a-z]|\d{1,2})(?:\s+(?:build|rig|camera|cam|package|kit|body))?"
    r"|(?P<before>[a-z])\s+(?:camera|cam|rig|build)(?:\s+(?:build|rig|package|kit|body))?"
    r"|rig\s+(?P<words>\w[\w\s]{1,30})"
)
_SEVERAL = re.compile(r"[,&+/]|\b(?:and|or|both|all|spares?|either|any|none|tbc)\b|\?")


def rig_headed(text: str) -> str:
    """The rig that a section's heading names ("A CAMERA", "Rig B", "Cam C build"); "" where it names none."""
    found = _RIG.fullmatch(key(text))
    if found is None:
        return ""
    return (found["after"] or found["before"] or "").upper() or " ".join(found["words"].split())


def rig_said(text: str) -> str:
    """The one rig that a cell under a heading for rigs names, as it can stand in quotes; "" where it names none or
    several."""
    words = for_quotes(text)
    if not words or len(words) > LONGEST or _SEVERAL.search(words.casefold()):
        return ""
    return rig_headed(words) or (words.upper() if len(words) == 1 else words)


def heads_a_section(row: Row, sheet: Sheet) -> bool:
    """Whether a row with one cell reads as a heading: by its words, in capitals, ending in a colon, or set across."""
    filled = [(at, cell) for at, cell in enumerate(row.cells) if cell.text]
    if len(filled) != 1 or filled[0][1].number is not None or filled[0][1].day is not None:
        return False
    at, text = filled[0][0], filled[0][1].words
    if len(text) > LONGEST:
        return False
    capitals = text.isupper() and sum(map(str.isalpha, text)) >= 3
    across = any(top == row.number and left == at and right - left >= 2 for top, left, _, right in sheet.merged)
    return key(text) in SECTION_WORDS or bool(rig_headed(text)) or text.endswith(":") or capitals or across
