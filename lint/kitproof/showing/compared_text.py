"""Two lists compared, as text for people."""

from __future__ import annotations

import textwrap

from kitproof.comparing.compare import Compared, Comparison
from kitproof.rulebook.messages import Units
from kitproof.showing import compared_words as say
from kitproof.showing.text import WIDTH, Line, Piece, paragraph, wrapped
from kitproof.showing.wording import ON_PAPER

NAME = 24


def compared_lines(compared: Comparison, units: Units) -> list[Line]:
    """What is not as it was: thing by thing with its numbers, then the findings."""
    lines = [*paragraph("Before", compared.was), *paragraph("Now", compared.now)]
    for each in compared.things:
        lines += [(), *_thing(each, units)]
    names = [line for each in say.renamed(compared) for line in paragraph("Name", f"{each}.")]
    lines += [(), *names] if names else []
    if compared.same:
        lines += [(), *((Piece(each),) for each in wrapped(say.NOTHING))]
    lines += [(), *_findings(compared)]
    return [*lines, *((Piece(each),) for said in (say.SAME_RULES, ON_PAPER) for each in wrapped(said))]


def _thing(thing: Compared, units: Units) -> list[Line]:
    lines: list[Line] = [(Piece(each, "title"),) for each in textwrap.wrap(say.heading(thing), WIDTH)]
    for difference in thing.differences:
        lines += _hung("  ", say.difference(difference), "    ")
    for moved in thing.numbers if thing.now is not None else ():
        name, said = say.moved(moved, units)
        lines += _hung(f"  {name}".ljust(NAME), said, " " * NAME)
    return lines


def _hung(start: str, text: str, indent: str) -> list[Line]:
    found = textwrap.wrap(text, WIDTH, initial_indent=start, subsequent_indent=indent, break_on_hyphens=False)
    return [(Piece(each),) for each in found]


def _findings(compared: Comparison) -> list[Line]:
    lines: list[Line] = []
    for each in compared.findings.stepped:
        lines += paragraph(say.STEPS[each.step], say.finding(each), each.finding.grade if each.step != "went" else "")
    return [*lines, (Piece(say.stayed(compared)),)]
