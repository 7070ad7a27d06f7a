"""Numbers as people write them that a list does not take, each with the number to put in its place.

Looked for before a value is parsed, so that the message can speak of the number and not of the comma after it.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from kitproof.reading.alike import figures_blotted
from kitproof.reading.characters import PlainLine
from kitproof.reading.document import Slip
from kitproof.reading.notes import Notes
from kitproof.words.shapes import Shape
from kitproof.words.units import UNITS

if TYPE_CHECKING:
    from fractions import Fraction

WITHOUT_NUMBERS = {Shape.TEXT, Shape.NAME, Shape.RIG_NAME, Shape.FLAG, Shape.PHRASES, Shape.UNIT_NAMES, Shape.WITHOUT}
_WITHOUT_FRACTIONS = {Shape.ORDERED, Shape.COUNTED, Shape.COUNT, Shape.DATE, Shape.DATES}
_INTERFACES = {Shape.INTERFACE, Shape.PORT}

_COMMA = re.compile(r"(?<![0-9.,])[0-9]+(?:\.[0-9]+)*(?:,[0-9]+(?:\.[0-9]+)*)+")
_THOUSANDS = re.compile(r"[0-9]{1,3}(?:,[0-9]{3})+(?:\.[0-9]+)?")
_DECIMAL = re.compile(r"[0-9]+,[0-9]+")
_SPACED = re.compile(r"(?<![0-9.,/])[0-9]{1,3}(?: [0-9]{3})+(?![0-9])")
_VULGAR = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
_FRACTION = re.compile(
    r"(?<![0-9./])(?:([0-9]{1,9})(?:[ -]| +and +)?)??"
    r"(?:([0-9]{1,4})/([0-9]{1,4})(?![0-9/-])|([½¼¾⅛⅜⅝⅞]))( *[A-Za-z°]+)?"
)
_FEET = re.compile(r"(?<![0-9.])([0-9]{1,9}(?:\.[0-9]{1,9})?) ?' ?(?:([0-9]{1,9}(?:\.[0-9]{1,9})?) ?\")?")
_INCHES = re.compile(r"(?<![0-9.])([0-9]{1,9}(?:\.[0-9]{1,9})?)\"(?!_)")
_COMPOUND = re.compile(
    r"(?<![0-9.])([0-9]{1,9}(?:\.[0-9]{1,9})?) ?([A-Za-z]{1,12}) ?"
    r"([0-9]{1,9}(?:\.[0-9]{1,9})?) ?([A-Za-z]{1,12})(?![A-Za-z])"
)
_LENGTH = "feet or inches as one decimal number, such as 5.5 ft"
_WANTED = "one decimal number, with a point and no comma"


def misread(shape: Shape, notes: Notes) -> list[Slip]:
    """Notes each number of the value that is written in a way that a list does not take; what was noted."""
    text, start = notes.line.text, notes.value_start
    if shape in WITHOUT_NUMBERS or (text[start - 1 : start] in ("", " ") and _all_well(shape, text[start:])):
        return []
    return misread_anew(shape, notes)


def _all_well(shape: Shape, value: str) -> bool:
    """Whether a value is known to have no such number, whatever its figures are."""
    blotted = figures_blotted(value)
    return blotted is not None and _none_in(shape, blotted)


@lru_cache(maxsize=4096)
def _none_in(shape: Shape, blotted: str) -> bool:
    return not misread_anew(shape, Notes(PlainLine(blotted, blotted, 0)))


def misread_anew(shape: Shape, notes: Notes) -> list[Slip]:
    """The same, looking at each number."""
    text, start, before = notes.line.text, notes.value_start, len(notes.slips)
    interface = shape in _INTERFACES
    _commas(text, start, notes)
    if not interface and shape not in _WITHOUT_FRACTIONS:
        _spaced(text, start, notes)
        _fractions(text, start, notes)
        _compounds(text, start, notes)
    if shape is not Shape.COUNT:
        _marks(text, start, notes, interface)
    return _apart(notes, before)


def _apart(notes: Notes, before: int) -> list[Slip]:
    """Of slips that overlap, the one that was found first and is the widest: `5 1/2" ` is one, not two."""
    found = sorted(notes.slips[before:], key=lambda slip: (slip.start, -slip.end))
    kept: list[Slip] = []
    for slip in found:
        if not kept or slip.start >= kept[-1].end:
            kept.append(slip)
    notes.slips[before:] = kept
    return kept


def _commas(text: str, start: int, notes: Notes) -> None:
    for match in _COMMA.finditer(text, start):
        written, repair = match[0], None
        if _THOUSANDS.fullmatch(written) and not written.startswith("0"):
            repair = written.replace(",", "")
        elif _DECIMAL.fullmatch(written):
            repair = written.replace(",", ".")
        elif re.fullmatch(r"[0-9]{1,3}(?:\.[0-9]{3})+,[0-9]+", written):
            repair = written.replace(".", "").replace(",", ".")
        notes.add("number-misread", match.start(), match.end(), _WANTED, (), repair)


def _spaced(text: str, start: int, notes: Notes) -> None:
    for match in _SPACED.finditer(text, start):
        notes.add("number-misread", match.start(), match.end(), _WANTED, (), match[0].replace(" ", ""))


def _fractions(text: str, start: int, notes: Notes) -> None:
    from fractions import Fraction  # slow to load, and numbers are seldom so written

    for match in _FRACTION.finditer(text, start):
        over, under = (match[2], match[3]) if match[2] else _VULGAR[match[4]].split("/")
        if int(under) == 0:
            continue
        unit, end = (match[5] or "").strip(), match.end()
        value = decimal(Fraction(int(match[1] or 0)) + Fraction(int(over), int(under)))
        if not unit and text[end : end + 1] in ('"', "'"):
            unit, end = ("in" if text[end] == '"' else "ft"), end + 1
        repair = f"{value} {unit}".rstrip() if value else None
        notes.add("number-misread", match.start(), end, "a decimal number, such as 5.5", (), repair)


def _compounds(text: str, start: int, notes: Notes) -> None:
    """`6 lb 3 oz`: two figures for one quantity."""
    from fractions import Fraction  # slow to load, and numbers are seldom so written

    for match in _COMPOUND.finditer(text, start):
        first, second = UNITS.get(match[2]), UNITS.get(match[4])
        if first is None or second is None or first.dimension != second.dimension or second.factor >= first.factor:
            continue
        one, other = Fraction(match[1]), Fraction(match[3])
        ratio = Fraction(second.factor / first.factor).limit_denominator(10_000)
        inverse = Fraction(first.factor / second.factor).limit_denominator(10_000)
        whole = decimal(one + other * ratio)
        small = decimal(one * inverse + other)
        repair = f"{whole} {match[2]}" if whole else f"{small} {match[4]}" if small else None
        notes.add("number-misread", match.start(), match.end(), "one decimal number with one unit", (), repair)


def _marks(text: str, start: int, notes: Notes, interface: bool) -> None:
    """`12"` and `6'`: marks for inches and feet, which stand for a name's quote elsewhere."""
    from fractions import Fraction  # slow to load, and numbers are seldom so written

    if not interface:
        for match in _FEET.finditer(text, start):
            inches = Fraction(match[1]) * 12 + Fraction(match[2] or 0)
            repair = f"{decimal(inches)} in" if match[2] else f"{match[1]} ft"
            notes.add("number-misread", match.start(), match.start() + len(match[0].rstrip()), _LENGTH, (), repair)
    for match in _INCHES.finditer(text, start):
        thread = interface and text[match.start() - 1 : match.start()] == "/"
        repair = match[1] if thread else f"{match[1]} in"
        notes.add("number-misread", match.start(), match.end(), "in for inches, such as 12 in", (), repair)


def decimal(value: Fraction) -> str | None:
    """The number in decimals if it has an end within nine of them, else None."""
    scaled = value * 10**9
    if scaled.denominator != 1:
        return None
    whole, rest = divmod(scaled.numerator, 10**9)
    return f"{whole}.{rest:09d}".rstrip("0").rstrip(".")
