"""Formulas in a workbook whose results were never saved: their cells read as empty, which must be said."""

from __future__ import annotations

import re
from collections.abc import Mapping

MOST_NAMED = 3

_WITHOUT_RESULT = re.compile(
    rb"""<c\b[^>]*?\br=["']([A-Z]{1,3}\d{1,7})["'][^>]*>\s*"""
    rb"""<f\b(?:[^>]*/>|[^>]*>[^<]*</f>)\s*(?:<v\s*/>|<v>\s*</v>)?\s*</c>"""
)


def without_results(parts: Mapping[str, bytes]) -> str:
    """What there is to say of formulas with no result, by the parts of an XLSX file; "" where there are none."""
    cells = [
        found.decode()
        for name, text in sorted(parts.items())
        if "worksheets/" in name and b"<f" in text
        for found in _WITHOUT_RESULT.findall(text)
    ]
    if not cells:
        return ""
    which = ", ".join(cells[:MOST_NAMED]) + (" …" if len(cells) > MOST_NAMED else "")
    what = "A formula has" if len(cells) == 1 else f"{len(cells)} formulas have"
    return f"{what} no result saved and read as empty: {which}. Open it in an office program and save it again."
