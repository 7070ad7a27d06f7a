"""A cell of an inventory as the value of a field, in the words that a parts book uses. Nothing in it is guessed.

What a person means by signs and short words is put into full ones; then the reading of lists itself has to take it. A
number without a unit takes the one in its heading, and is not read where that has none.
"""

from __future__ import annotations

import re

from kitproof.sheets.cells import Cell
from kitproof.sheets.counts import counted
from kitproof.sheets.part_columns import PartRole
from kitproof.words.dimensions import ANGLE, LENGTH, Dimension
from kitproof.words.shapes import Shape
from kitproof.words.units import UNITS

NOT_KNOWN = frozenset({"", "-", "–", "—", "?", "??", "n/a", "na", "tbc", "tba", "unknown", "not known", "."})
"""What stands in a cell that gives no figure."""
PLAIN = re.compile(r"[+-]?\d+(?:\.\d+)?")
_SIGNED = re.compile(r"[+-]?\s*\d+(?:\.\d+)?")
_WORD = re.compile(r"(?<![^\W\d_])[^\W\d_][\w·²*^/-]*|[°%]C?")
_UNIT_AFTER = re.compile(r"(?<=\d)\s*([^\W\d_][\w·²]*(?:[·*.][^\W\d_][\w²]*)?)")
_ABOUT = re.compile(
    r"^(?:~|≈|ca?\.?\s|circa|approx(?:\.|imately)?|around)\s*|\s*\(?(?:approx|about)\.?\)?$", re.IGNORECASE
)
_BETWEEN_SIDES = re.compile(r"(?<=[\d\w\"])\s*(?:x|×|\*|by)\s*(?=\d)", re.IGNORECASE)
_FOLDED = {name.casefold(): name for name in reversed(UNITS)} | {"nm": "N·m", "n.m": "N·m", "n·m": "N·m"}


def unit_of(heading: str, dimension: Dimension) -> str:
    """The one unit of a dimension that a heading names; "" where it names none, or two."""
    found = {_FOLDED[word.casefold()] for word in _words(heading) if _measures(word, dimension)}
    units = {UNITS[name].name for name in found}
    return units.pop() if len(units) == 1 else ""


def _words(heading: str) -> list[str]:
    """The words of a heading, those after a stop by themselves too: `kg` of `wt.kg`."""
    return [word for each in _WORD.findall(heading) for word in (each, *re.split(r"[/.-]", each))]


def _measures(word: str, dimension: Dimension) -> bool:
    name = _FOLDED.get(word.casefold())
    return name is not None and UNITS[name].dimension == dimension


def plain_text(cell: Cell) -> str:
    """A cell's text with the signs of office programs made plain; a number as it is."""
    text = cell.words.replace("−", "-").replace("–", "-").replace("—", "-").replace("@", " at ")
    text = re.sub(r"(?<=\d)\s*(?:\"|″|”|'')", " in", text)
    return " ".join(_UNIT_AFTER.sub(_unit_plain, text).split())


def _unit_plain(found: re.Match[str]) -> str:
    return " " + _FOLDED.get(found[1].casefold(), found[1])


def value_of(wanted: PartRole, cell: Cell, heading: str) -> str:
    """What a cell says, as a field's value would be written, were it read; the text as it is where it is no figure."""
    text, dimension = plain_text(cell), wanted.dimension
    unit = unit_of(heading, dimension) if dimension is not None else ""
    match wanted.shape:
        case Shape.COUNT:
            count = counted(cell)
            return str(count.count) if count is not None and not count.doubt else text
        case Shape.TEXT:
            return f"'{cell.words}'" if '"' in cell.words else f'"{cell.words}"'
        case Shape.SIZE:
            return with_unit(_BETWEEN_SIDES.sub(" x ", text), unit)
        case Shape.REACH:
            return _reach(text, unit, dimension)
        case Shape.POINTS:
            return _points(text, unit, heading)
        case Shape.STEPS:
            return with_unit(_range(text), unit)
        case Shape.AXIS:
            return with_unit(text, unit) + ("" if re.search("plate", text) else " below plate")
        case Shape.INTERFACE:
            return _bowl(text, unit)
        case _:
            return with_unit(_about(text), unit)


def with_unit(text: str, unit: str) -> str:
    """A text that ends in a number, and names no unit, with the unit of its heading."""
    last = re.search(r"\d$", text)
    return f"{text} {unit}" if unit and last and not re.search(r"[^\W\d_]{2}|[^\W\d_x]", _no_words(text)) else text


def _no_words(text: str) -> str:
    return re.sub(r"\b(?:x|to|about|up)\b", " ", text)


def _about(text: str) -> str:
    found = _ABOUT.search(text)
    return f"about {_ABOUT.sub('', text)}" if found and found[0].strip() else text


def _range(text: str) -> str:
    """`4-38 N·m` as `4 to 38 N·m`."""
    return re.sub(r"(?<=\d)\s*(?:-|\.\.+|…|/)\s*(?=\d)", " to ", text)


def _reach(text: str, unit: str, dimension: Dimension | None) -> str:
    if dimension != ANGLE:
        return with_unit(_range(text), unit)
    degrees = "°" if unit == "°" or re.search(r"°|deg", text) else ""
    figures = [float(each.replace(" ", "")) for each in _SIGNED.findall(text)]
    signs = re.findall(r"[+-](?=\s*\d)", text)
    if re.fullmatch(r"(?:±|\+\s*/\s*-)\s*\d+(?:\.\d+)?\s*(?:°|deg\w*)?", text):
        return f"± {figures[0]:g}{degrees}".replace("-", "")
    if len(figures) == 2 and len(signs) >= 1 and figures[0] * figures[1] <= 0 and _only_a_range(text):
        return f"{min(figures):g}{degrees} to {max(figures):g}{degrees}"
    return text


def _only_a_range(text: str) -> bool:
    """Whether nothing stands in it but two angles, and what parts them."""
    return not re.sub(r"[\d\s.,;/°+-]|deg(?:rees?|s)?|to|and|up|down", "", text)


def _points(text: str, unit: str, heading: str) -> str:
    """Loads, each with its height where one is given; in a chart `;` and `/` part them."""
    height = unit_of(heading, LENGTH)
    points = [each.strip() for each in re.split(r"[;/\n]|,(?=\s)", text) if each.strip()]
    done = []
    for point in points:
        load, at, where = point.partition(" at ")
        done.append(
            f"{with_unit(_about(load.strip()), unit)}{f' at {with_unit(_range(where.strip()), height)}' if at else ''}"
        )
    return ", ".join(done)


def _bowl(text: str, unit: str) -> str:
    """`100 mm`, `100 mm bowl` or `bowl 100 mm`; `flat` as it is."""
    if re.fullmatch(r"(?:flat|flat ?base)", text, re.IGNORECASE):
        return "flat"
    size = re.sub(r"\s*\bbowl\b\s*", "", text, flags=re.IGNORECASE)
    return f"bowl {with_unit(size, unit)}"


def with_height(load: str, height: Cell, heading: str) -> str:
    """A load with the height at which it is given, from a cell of its own; a load that has one already as it is."""
    if " at " in load:
        return load
    return f"{load} at {with_unit(_range(plain_text(height)), unit_of(heading, LENGTH))}"


def with_steps(counterbalance: str, steps: Cell, heading: str) -> str:
    """A counterbalance with its steps, from a cell of their own; `heading` says nothing of them."""
    text = plain_text(steps).casefold()
    if text in ("stepless", "continuous", "cont", "cont."):
        return f"{counterbalance}, stepless"
    return f"{counterbalance}, {text.removesuffix('steps').removesuffix('step').strip()} steps"


def span_of(ends: list[tuple[Cell, str]]) -> str:
    """A length from the least to the most, each from a cell of its own with its heading."""
    return " to ".join(with_unit(plain_text(cell), unit_of(heading, LENGTH)) for cell, heading in ends)


def joined_sides(sides: list[tuple[Cell, str]]) -> str:
    """A size from a cell for each side, with its heading."""
    return span_of(sides).replace(" to ", " x ")
