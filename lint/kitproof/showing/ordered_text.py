"""What is ordered from whom, as lines for people and as JSON."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from kitproof.facts.promises import in_words
from kitproof.facts.values import Amount
from kitproof.proofing.ordered import FromSupplier, OrderedPart
from kitproof.showing.text import Line, Piece, wrapped


def ordered_lines(suppliers: Sequence[FromSupplier]) -> list[Line]:
    """The orders of one list, supplier by supplier."""
    lines: list[Line] = []
    for each in suppliers:
        title = f"ordered from {each.supplier}" if each.supplier else "ordered, and not said from whom"
        lines += [(), (Piece(title, "title"),)]
        for part in each.lines:
            lines += [(Piece(line),) for line in wrapped(f"  {_said(part)}", indent="      ")]
    return lines


def _said(part: OrderedPart) -> str:
    spare = f", {part.spare} of them spare" if part.spare else ""
    days = in_words(part.days.first, part.days.last) if part.days else "on days that are not known"
    stock = f"; promised {_count(part.promised)} of {part.have}" if part.promised is not None else ""
    return f'{part.count} x "{part.name}"{spare}, {days}{stock}'


def _count(amount: Amount) -> str:
    if amount.low == amount.high:
        return f"{amount.low:g}"
    return f"{amount.low:g} or more" if math.isinf(amount.high) else f"{amount.low:g} to {amount.high:g}"


def ordered_json(suppliers: Sequence[FromSupplier]) -> list[dict[str, Any]]:
    return [{"list": s.path, "from": s.supplier or None, "lines": [_line(each) for each in s.lines]} for s in suppliers]


def _line(part: OrderedPart) -> dict[str, Any]:
    promised = part.promised
    return {
        "part": part.name,
        "kind": part.kind,
        "ordered": part.count,
        "spare": part.spare,
        "first": part.days.first.isoformat() if part.days else None,
        "last": part.days.last.isoformat() if part.days else None,
        "have": part.have,
        "promised": None
        if promised is None
        else {
            "low": promised.low,
            "high": None if math.isinf(promised.high) else promised.high,
            "missing": list(promised.missing),
        },
    }
