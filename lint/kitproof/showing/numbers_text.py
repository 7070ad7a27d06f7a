"""The facts of rigs as a table for people."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

from kitproof.facts.registry import FACTS
from kitproof.facts.values import Amount, Words
from kitproof.proofing.numbers import CombinationNumbers, RigNumbers, StageNumbers
from kitproof.proofing.ordered import FromSupplier
from kitproof.rulebook.messages import Units
from kitproof.showing.amounts import value_text
from kitproof.showing.ordered_text import ordered_lines
from kitproof.showing.text import WIDTH, Line, Piece, paragraph, wrapped
from kitproof.showing.worked_text import worked_lines
from kitproof.words.dimensions import Dimension

NAME, VALUE = 23, 22
SAYS = WIDTH - NAME - VALUE


def numbers_lines(
    rigs: Sequence[RigNumbers], units: Units, heading: str, orders: Sequence[FromSupplier] = ()
) -> list[Line]:
    """Every rig, combination by combination: a table, or how each number came about where that was worked out; then
    what is ordered from whom."""
    lines: list[Line] = [(Piece(line),) for line in wrapped(heading, indent="  ")]
    for rig in rigs:
        for each in rig.combinations:
            title = _title(rig, each)
            lines += [(), *(_worked(title, each, units) if each.worked else _table(title, each, units))]
    return [*lines, *ordered_lines(orders), (), (Piece("Worked out on paper; nothing was load-tested."),)]


def _worked(title: str, shown: CombinationNumbers, units: Units) -> list[Line]:
    """How each number of a combination came about, and what the columns of its stages are made of."""
    lines = [*worked_lines(title, shown.worked, units), *_stages(shown.stages, units)]
    for name, head in STAGE_HEADS if shown.stages else ():
        fact = FACTS["stage"][name]
        lines += [(), (Piece(head, "title"),), *paragraph("Is", fact.says)]
        lines += paragraph("By", fact.formula.replace("_", " ")) if fact.formula else []
        lines += paragraph("Source", fact.source)
    return lines


def _title(rig: RigNumbers, shown: CombinationNumbers) -> str:
    """A rig, and which of its combinations it is."""
    if rig.of < 2:
        return f"rig {rig.name}"
    with_what = ", ".join(f"{slot} {name}" for slot, name in shown.choice.items())
    most = "the one that loads the head most, " if len(rig.combinations) == 1 else ""
    return f"rig {rig.name}: of {rig.of} combinations {most}with {with_what}"


def _table(title: str, shown: CombinationNumbers, units: Units) -> list[Line]:
    lines: list[Line] = [(Piece(each, "title"),) for each in textwrap.wrap(title, WIDTH)]
    missing: dict[str, None] = {}
    for name, (value, dimension) in shown.facts.items():
        lines += _row(name, value, dimension, units)
        missing |= dict.fromkeys(value.missing)
    lines += _stages(shown.stages, units)
    for each in missing:
        lines += [(Piece(line),) for line in textwrap.wrap(f"Not known: {each}", WIDTH, subsequent_indent="  ")]
    return lines


STAGE = (("carried", 18), ("slide_needed", 20), ("counterbalance_step", 8), ("left_over", 0))
"""The columns of the stages, with their widths."""

HEADS = ("carried", "slide at", "step", "torque if the slide stays")
STAGE_HEADS = tuple((name, head) for (name, _), head in zip(STAGE, HEADS, strict=True))


def _stages(stages: Sequence[StageNumbers], units: Units) -> list[Line]:
    """Building up, stage by stage: what is carried, where the slide must stand, the counterbalance step, and the torque
    if the slide is left where it was."""
    if not stages:
        return []
    lines: list[Line] = [(), (Piece("Building up, balanced again after each:", "title"),)]
    lines.append(
        (Piece("  ".ljust(2)), *(Piece(head.ljust(w), "word") for head, (_, w) in zip(HEADS, STAGE, strict=True)))
    )
    for stage in stages:
        lines.append((Piece(f"after {stage.after}"),))
        cells = [_cell(stage, name, units).ljust(width) for name, width in STAGE]
        lines.append((Piece("  "), *(Piece(cell) for cell in cells)))
    return lines


def _cell(stage: StageNumbers, name: str, units: Units) -> str:
    value, dimension = stage.facts[name]
    if isinstance(value, Amount) and value.missing:
        return "not known"
    return value_text(name, value, dimension, units)


def _row(name: str, value: Amount | Words, dimension: Dimension | None, units: Units) -> list[Line]:
    says = textwrap.wrap(FACTS["rig"][name].says, SAYS)
    left = textwrap.wrap(value_text(name, value, dimension, units), VALUE - 2) or [""]
    rows: list[Line] = []
    for number in range(max(len(says), len(left))):
        head = name.replace("_", " ") if number == 0 else ""
        amount = left[number] if number < len(left) else ""
        meaning = says[number] if number < len(says) else ""
        rows.append((Piece(head.ljust(NAME), "word"), Piece(amount.ljust(VALUE)), Piece(meaning, "place")))
    return rows
