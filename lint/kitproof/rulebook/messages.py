"""Message texts with holes: `{carried}` prints a fact in the list's units, `{runtime in h}` in one unit.

Numbers are printed with three significant digits at least, and with more where two numbers that differ would print
alike: in one message, or against what the rule compares. So the numbers always still show the comparison.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property

from msgspec import Struct
from msgspec.structs import replace

from kitproof.facts.values import Amount, Held, Tagged, Thing, Truth, Verdict, Words, number
from kitproof.facts.wordings import BEYOND, ENDLESS
from kitproof.rulebook import compile
from kitproof.rulebook.compile import Amounts, Env, Values
from kitproof.rulebook.truths import NEAR, TINY, above
from kitproof.rulebook.typed import CompareNumbers, Constant, CountIn, LimitRead, Read, Typed, all_in
from kitproof.words.dimensions import NUMBER, Dimension
from kitproof.words.units import SHOWN, UNITS, Unit

Units = Mapping[Dimension, Sequence[str]]

DEFAULT_UNITS: Units = {dimension: (name,) for dimension, name in SHOWN.items()}
FEWEST, MOST = 3, 10
TRUTHS = {Truth.TRUE: "yes", Truth.FALSE: "no", Truth.UNDECIDED: "in doubt", Truth.MISSING: "not known"}
PLAIN = Unit("", NUMBER, 1.0)


class Hole(Struct, frozen=True, dict=True):
    """One hole: its text, what it reads, the unit it asks for (None for the list's), whether it prints as a share."""

    text: str
    typed: Typed
    unit: Unit | None = None
    percent: bool = False

    @cached_property
    def read(self) -> Values:
        return compile.value(self.typed)


class Rival(Struct, frozen=True, dict=True):
    """A number that the rule compares, and from which the printed ones must still be told apart."""

    dimension: Dimension
    typed: Typed

    @cached_property
    def read(self) -> Amounts:
        return compile.amount(self.typed)


class Template(Struct, frozen=True):
    """A message: pieces of text and holes in turn, and the rule's compared numbers."""

    text: str
    pieces: tuple[str | Hole, ...]
    rivals: tuple[Rival, ...] = ()

    @property
    def holes(self) -> tuple[Hole, ...]:
        return tuple(piece for piece in self.pieces if isinstance(piece, Hole))


def message(template: Template, thing: Thing, env: Env, units: Units = DEFAULT_UNITS) -> str:
    """The message for a thing, numbers in the units of the list: the first of each dimension, the others after it."""
    if len(template.pieces) == 1 and isinstance(template.pieces[0], str):
        return template.pieces[0]
    held = [_as_held(hole, hole.read(thing, env)) for hole in template.holes]
    values = iter(held)
    digits = _digits(template, held, thing, env, units)
    return "".join(
        piece if isinstance(piece, str) else _printed(*next(values), units, digits) for piece in template.pieces
    )


def _as_held(hole: Hole, value: Held) -> tuple[Hole, Held]:
    """A hole and its value: a house's own number prints in units of the kind that it was written in."""
    if not isinstance(value, Tagged) or hole.typed.type.dimension is not None or not isinstance(hole.typed, Read):
        return hole, value
    unit = hole.unit if hole.unit is not None and hole.unit.dimension == value.dimension else None
    return replace(hole, typed=replace(hole.typed, type=number(value.dimension)), unit=unit), value


def complete(template: Template, thing: Thing, env: Env) -> bool:
    """Whether every hole has something to say: an advice with a hole that has nothing is not given."""
    return all(_says_something(hole.read(thing, env)) for hole in template.holes)


def shares_in(conditions: Iterable[Typed]) -> set[Read]:
    """The facts that conditions compare with a share written in percent: they print as shares."""
    found: set[Read] = set()
    for condition in conditions:
        for node in all_in(condition):
            if isinstance(node, CompareNumbers):
                inside = [*all_in(node.left), *all_in(node.right)]
                if any(_in_percent(each) for each in inside):
                    found.update(each for each in inside if isinstance(each, Read))
    return found


def prints_as_share(typed: Typed, shares: set[Read]) -> bool:
    """Whether a plain number prints in percent: it is compared so, written so, or is called a share."""
    if typed.type.dimension != NUMBER or isinstance(typed, CountIn):
        return False
    return any(
        _in_percent(node) or (isinstance(node, Read) and (node in shares or _a_share(node))) for node in all_in(typed)
    )


def _a_share(read: Read) -> bool:
    return bool(read.steps) and read.steps[-1].endswith("_share")


def _in_percent(node: Typed) -> bool:
    if isinstance(node, Constant):
        return node.percent
    return isinstance(node, LimitRead) and node.limit.percent


def _says_something(held: Held) -> bool:
    if isinstance(held, Amount):
        return not _nothing_known(held)
    if isinstance(held, Words):
        return bool(held.text)
    if isinstance(held, Verdict):
        return held.truth is not Truth.MISSING
    return bool(held) if isinstance(held, tuple) else held is not None


def _nothing_known(amount: Amount) -> bool:
    """Whether it can be anything, or anything from nothing up because it is not known."""
    return amount.high == math.inf and (amount.low == -math.inf or (amount.low == 0 and bool(amount.missing)))


# Printing one value


def _printed(hole: Hole, held: Held, units: Units, digits: Mapping[Dimension, int]) -> str:
    if isinstance(held, Amount):
        dimension = hole.typed.type.dimension or NUMBER
        is_reach = hole.typed.type.sort == "reach"
        endless = ENDLESS.get(_fact_of(hole.typed), BEYOND)
        return amount_text(held, _units_of(hole, units), digits[dimension], is_reach=is_reach, endless=endless)
    if isinstance(held, Words):
        return held.text if held.text is not None else ("a word not known" if held.missing else "none")
    if isinstance(held, Verdict):
        return TRUTHS[held.truth]
    if isinstance(held, tuple):
        return ", ".join(each.label for each in held) or "none"
    return "none" if held is None else held.label


def _fact_of(typed: Typed) -> str:
    """The name of the fact that a hole prints as it is; "" for anything that is worked out."""
    return typed.steps[-1] if isinstance(typed, Read) and typed.steps else ""


def _units_of(hole: Hole, units: Units) -> tuple[Unit, ...]:
    """The units to print in, the first one first."""
    if hole.unit is not None:
        return (hole.unit,)
    dimension = hole.typed.type.dimension or NUMBER
    if dimension == NUMBER:
        return (UNITS["%"] if hole.percent else PLAIN,)
    names = units.get(dimension) or DEFAULT_UNITS.get(dimension)
    return tuple(UNITS[name] for name in names) if names else (_si(dimension),)


def _si(dimension: Dimension) -> Unit:
    """The base units of what has no unit of its own: kg·m."""
    symbols = ("kg", "m", "s", "A", "K", "rad")
    raised = [
        symbol if power == 1 else f"{symbol}^{power}" for symbol, power in zip(symbols, dimension, strict=True) if power
    ]
    return Unit("·".join(raised), dimension, 1.0)


def amount_text(
    amount: Amount, units: Sequence[Unit], digits: int = FEWEST, *, is_reach: bool = False, endless: str = BEYOND
) -> str:
    """A number or reach in words: `15.1 kg`, `14.9 to 15.3 kg`, `at least 14.9 kg`, `15.1 kg (33.3 lb)`.

    `endless` is what is said of one with no end.
    """
    if is_reach and amount.missing:
        return "a reach not known"
    if _nothing_known(amount):
        return "an amount not known"
    if amount.low == math.inf or amount.high == -math.inf:
        return endless
    first, *others = [_in_unit(amount, unit, digits) for unit in units]
    return f"{first} ({', '.join(others)})" if others else first


def _in_unit(amount: Amount, unit: Unit, digits: int) -> str:
    low, high = (number_text(unit.from_si(end), digits) for end in (amount.low, amount.high))
    if amount.high == math.inf:
        return f"at least {_with_unit(low, unit)}"
    if amount.low == -math.inf or (amount.low == 0 and amount.missing and high != "0"):
        return f"up to {_with_unit(high, unit)}"
    return _with_unit(low if low == high else f"{low} to {high}", unit)


def _with_unit(number: str, unit: Unit) -> str:
    """A number and its unit; units that are words go by how many there are: 1 day, 2 days."""
    name = unit.name
    if name in ("day", "week") and number != "1":
        name += "s"
    if name == "times an hour" and number == "1":
        name = "time an hour"
    return number + ("" if name == "°" else " ") + name if name else number


def number_text(number: float, digits: int = FEWEST) -> str:
    """A number with at least so many significant digits, without zeros at its end where it is sharp at fewer."""
    if math.isinf(number):
        return BEYOND
    decimals = _decimals(number, digits)
    for fewer in range(decimals):
        if abs(round(number, fewer) - number) <= max(TINY, NEAR * abs(number)):
            decimals = fewer
            break
    text = f"{number:.{decimals}f}"
    return text.lstrip("-") if float(text) == 0 else text


def _decimals(number: float, digits: int) -> int:
    if abs(number) <= TINY:
        return 0
    return min(max(0, digits - 1 - math.floor(math.log10(abs(number)))), 12)


# How many digits


def _digits(
    template: Template, held: Sequence[tuple[Hole, Held]], thing: Thing, env: Env, units: Units
) -> dict[Dimension, int]:
    """For each dimension, the digits at which no two numbers that differ print alike."""
    rivals = [(rival.dimension, rival.read(thing, env)) for rival in template.rivals]
    digits: dict[Dimension, int] = {}
    for at, (hole, value) in enumerate(held):
        dimension = hole.typed.type.dimension or NUMBER
        if not isinstance(value, Amount):
            continue
        unit = _units_of(hole, units)[0]
        others = [each for after, (other, each) in enumerate(held) if after != at and _alike(other, hole, units)]
        others += [each for of, each in rivals if of == dimension]
        ends = [end for each in others if isinstance(each, Amount) for end in (each.low, each.high)]
        wanted = max((_apart(a, b, unit) for a in (value.low, value.high) for b in ends), default=FEWEST)
        digits[dimension] = max(digits.get(dimension, FEWEST), wanted)
    return digits


def _alike(one: Hole, other: Hole, units: Units) -> bool:
    return _units_of(one, units)[0] == _units_of(other, units)[0]


def _apart(one: float, other: float, unit: Unit) -> int:
    """The digits from which on two numbers print differently; the fewest where they are equal or have no bound."""
    if math.isinf(one) or math.isinf(other) or not (above(one, other) or above(other, one)):
        return FEWEST
    a, b = unit.from_si(one), unit.from_si(other)
    for digits in range(FEWEST, MOST):
        if round(a, _decimals(a, digits)) != round(b, _decimals(b, digits)):
            return digits
    return MOST


# Reading a template

HOLE = r"\{([^{}]*)\}"
IN_UNIT = r"^(?P<what>.*\S)\s+in\s+(?P<unit>[^\s(){}\"](?:.*\S)?)$"


def split_unit(text: str) -> tuple[str, str]:
    """The expression of a hole and the unit that it asks for, "" where it asks for none."""
    found = re.match(IN_UNIT, text, re.DOTALL)
    if not found or "where" in found["unit"].split() or ")" in found["unit"]:
        return text, ""
    return found["what"], found["unit"]
