"""Names taken apart for comparing: the words of it, and its numbers, which are never compared but exactly."""

from __future__ import annotations

import re
import unicodedata
from functools import cached_property

from msgspec import Struct

_MM = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, "inch": 25.4, "inche": 25.4, "ft": 304.8}
_UNITS = r"(?:mm|cm|m|inches|inch|in|ft|kg|lbs?|wh|ah|w|v)\b"
_PIECES = re.compile(rf"(?P<number>\d+(?:[.,]\d+)*)[\s-]{{0,2}}(?P<unit>{_UNITS}|\")?|(?P<word>[^\W\d_]+)")
_APOSTROPHES = re.compile(r"(?<=\w)['’](?=\w)")


class Number(Struct, frozen=True):
    """A number in a name: its figures (leading noughts, and trailing ones of a fraction, left out), its unit as far as
    one is known, and the tenths of a millimetre that it comes to; None where it is no length."""

    figures: str
    unit: str = ""
    tenths: int | None = None

    def same(self, other: Number) -> bool:
        """Whether both are one number: the same length, or the same figures with no two units that differ."""
        if self.tenths is not None and other.tenths is not None:
            return self.tenths == other.tenths
        return self.figures == other.figures and (self.unit == other.unit or not self.unit or not other.unit)


class Name(Struct, frozen=True, dict=True):
    """A name taken apart: its words in small letters in their order, and its numbers in theirs."""

    words: tuple[str, ...]
    numbers: tuple[Number, ...]

    @cached_property
    def joined(self) -> str:
        return "".join(self.words)

    @cached_property
    def sorted_words(self) -> str:
        return "".join(sorted(self.words))

    def same_numbers(self, other: Name) -> bool:
        """Whether it has the other's numbers, every one of them and no more, in whatever order."""
        if len(self.numbers) != len(other.numbers):
            return False
        left = list(other.numbers)
        for number in self.numbers:
            found = next((each for each in left if number.same(each)), None)
            if found is None:
                return False
            left.remove(found)
        return True


def taken_apart(text: str) -> Name:
    """A name's words and numbers; letters and figures that touch are two pieces, so that S2, S 2 and S-2 are one."""
    plain = unicodedata.normalize("NFKC", text.replace("″", '"').replace("”", '"')).casefold()
    words: list[str] = []
    numbers: list[Number] = []
    for found in _PIECES.finditer(_APOSTROPHES.sub("", plain)):
        if found["word"]:
            words.append(found["word"])
        else:
            numbers.append(_number(found["number"], found["unit"]))
    return Name(tuple(words), tuple(numbers))


def _number(figures: str, typed_unit: str | None) -> Number:
    whole, _, rest = figures.replace(",", ".").partition(".")
    rest = rest.rstrip("0")
    written = (whole.lstrip("0") or "0") + (f".{rest}" if rest else "")
    unit = "in" if typed_unit == '"' else (typed_unit or "").removesuffix("s")
    factor = _MM.get(unit)
    if factor is None or written.count(".") > 1 or len(written) > 12:
        return Number(written, unit)
    return Number(written, unit, round(float(written) * factor * 10))
