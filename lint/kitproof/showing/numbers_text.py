"""The facts of rigs as a table for people."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

from kitproof.facts.registry import FACTS
from kitproof.facts.values import Amount, Words
from kitproof.proofing.numbers import CombinationNumbers, RigNumbers
from kitproof.rulebook.messages import Units, amount_text
from kitproof.showing.text import WIDTH, Line, Piece
from kitproof.words.dimensions import NUMBER, Dimension
from kitproof.words.units import UNITS, Unit

NAME, VALUE = 17, 24
SAYS = WIDTH - NAME - VALUE


def numbers_lines(rigs: Sequence[RigNumbers], units: Units, heading: str) -> list[Line]:
    """Every rig with its numbers; of several combinations the one that loads the head most, and how many there are."""
    lines: list[Line] = [(Piece(heading),)]
    for rig in rigs:
        lines += [(), *_rig(rig, units)]
    lines += [(), (Piece("Worked out on paper; nothing was load-tested."),)]
    return lines


def _rig(rig: RigNumbers, units: Units) -> list[Line]:
    if not rig.combinations:
        return [(Piece(f"rig {rig.name}", "title"),), (Piece("No combination of its parts can stand."),)]
    shown = max(rig.combinations, key=_heaviest)
    title = f"rig {rig.name}"
    if len(rig.combinations) > 1:
        with_what = ", ".join(f"{slot} {name}" for slot, name in shown.choice.items())
        title += f": of {len(rig.combinations)} combinations the one that loads the head most, with {with_what}"
    lines: list[Line] = [(Piece(each, "title"),) for each in textwrap.wrap(title, WIDTH)]
    missing: dict[str, None] = {}
    for name, (value, dimension) in shown.facts.items():
        lines += _row(name, value, dimension, units)
        missing |= dict.fromkeys(value.missing)
    for each in missing:
        lines += [(Piece(line),) for line in textwrap.wrap(f"Not known: {each}", WIDTH, subsequent_indent="  ")]
    return lines


def _heaviest(numbers: CombinationNumbers) -> float:
    value = numbers.facts["load_share"][0]
    return value.high if isinstance(value, Amount) else 0.0


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


def value_text(name: str, value: Amount | Words, dimension: Dimension | None, units: Units) -> str:
    """A fact's value in the list's units; shares in percent."""
    if isinstance(value, Words):
        return value.text if value.text is not None else "not known"
    return amount_text(value, units_for(name, dimension, units))


def units_for(name: str, dimension: Dimension | None, units: Units) -> tuple[Unit, ...]:
    if dimension in (None, NUMBER):
        return (UNITS["%"] if name.endswith("_share") else Unit("", NUMBER, 1.0),)
    return tuple(UNITS[each] for each in units[dimension])
