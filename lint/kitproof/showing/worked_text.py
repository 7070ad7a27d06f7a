"""Numbers worked: each fact with its formula in words and in numbers, what it rests on, and what widens it most."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Mapping, Sequence

from kitproof.facts.values import Amount
from kitproof.proofing.figures import Figure
from kitproof.proofing.worked import LARGEST, Worked
from kitproof.rulebook.messages import Units, amount_text
from kitproof.showing.amounts import units_for, value_text
from kitproof.showing.text import WIDTH, Line, Piece, paragraph

NAME = re.compile(r"[a-z]+(?:_[a-z]+)*")


def worked_lines(title: str, facts: Sequence[Worked], units: Units) -> list[Line]:
    """One combination of a rig, fact by fact."""
    lines: list[Line] = [(Piece(each, "title"),) for each in textwrap.wrap(title, WIDTH)]
    values = {each.fact.name: _value(each, units) for each in facts}
    for each in facts:
        lines += [(), *_fact(each, values, units)]
    return lines


def _fact(worked: Worked, values: Mapping[str, str], units: Units) -> list[Line]:
    fact = worked.fact
    lines: list[Line] = [(Piece(fact.name.replace("_", " "), "title"), Piece(f"  {values[fact.name]}"))]
    lines += paragraph("Is", fact.says)
    if fact.formula:
        lines += paragraph("By", fact.formula.replace("_", " "))
        numbers = NAME.sub(lambda found: values.get(found.group(), found.group()).replace("_", " "), fact.formula)
        if numbers != fact.formula:
            lines += paragraph("", numbers)
    for number, figure in enumerate(worked.rests_on):
        lines += paragraph("" if number else "From", _figure(figure, units))
    if worked.widest is not None:
        lines += paragraph("Wide", _widest(worked, worked.widest, units))
    for name in worked.value.missing:
        lines += paragraph("Ask", name)
    return [*lines, *paragraph("Source", fact.source)]


def _value(worked: Worked, units: Units) -> str:
    return value_text(worked.fact.name, worked.value, worked.fact.type.dimension, units)


def _figure(figure: Figure, units: Units) -> str:
    known = figure.ends[1] < float("inf")
    amount = Amount(*figure.ends, () if known else (figure.label,))
    said = "" if figure.said else ", not written: a stand-in"
    where = f"{figure.where.path}, line {figure.where.line}"
    return f"{figure.label} {amount_text(amount, units_for('', figure.dimension, units))}{said} ({where})"


def _widest(worked: Worked, figure: Figure, units: Units) -> str:
    if worked.saved > LARGEST:
        return f"most by {figure.label}, which is not known"
    dimension = worked.fact.type.dimension
    saved = amount_text(Amount(worked.saved, worked.saved), units_for(worked.fact.name, dimension, units))
    return f"most by {figure.label}: known exactly, it would narrow this by {saved}"
