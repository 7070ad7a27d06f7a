"""How many, as people write it: figures, words, "x2", "2 no", "a pair", "4 + 2 spare". Nothing is guessed."""

from __future__ import annotations

import re

from msgspec import Struct

from kitproof.sheets.cells import Cell

ONES = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
    "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16,
    "seventeen": 17, "eighteen": 18, "nineteen": 19, "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50,
}  # fmt: skip
"""Numbers in words, as far as orders go."""
SETS = {"pair": 2, "pairs": 2, "couple": 2, "dozen": 12, "half dozen": 6, "half a dozen": 6}
"""Words for several things at once. A pair of what is itself a pair is asked about, see `Counted.pairs`."""
NONE_WANTED = frozenset({"nil", "none", "zero", "not required", "not needed", "cancelled"})
"""What says that none is wanted, besides a nought."""
BLANKS = frozenset({"-", "–", "—", ".", "n/a"})
"""What stands in a cell that says nothing."""
MOST = 100_000

_EACH = r"(?:x|×|\*|nos?\.?|nr\.?|off|pcs\.?|pc\.?|pieces?|units?|ea\.?|each|items?)"
_NUMBER = rf"(?:\d+|{'|'.join((*ONES, *SETS))})"
_WHOLE = re.compile(rf"(?:x|×)?\s*(?P<number>\d+)(?:\.0+)?\s*{_EACH}?", re.IGNORECASE)
_SPARE = re.compile(
    rf"(?P<count>{_NUMBER})\s*(?:x\s*)?(?:(?P<plus>\+|plus|and)\s*(?P<more>{_NUMBER})\s*(?:x\s*)?spares?"
    rf"|[(,;]?\s*(?:of which|incl\.?|including|with)?\s*(?P<within>{_NUMBER})\s*(?:as\s+)?spares?\)?)",
    re.IGNORECASE,
)
_WORDED = re.compile(
    rf"(?:(?P<ones>an?|{'|'.join(ONES)}|\d+)\s+)?"
    rf"(?P<set>{'|'.join(SETS)})(?:\s+of)?",
    re.IGNORECASE,
)
_BEFORE = re.compile(
    rf"(?P<count>(?:(?:an?|{'|'.join(ONES)}|\d+)\s+)?(?:{'|'.join(SETS)})(?:\s+of)?"
    rf"|\d+\s*{_EACH}|(?:x|×)\s*\d+|(?:{'|'.join(ONES)})(?:\s*{_EACH})?)\s+(?:of\s+)?(?P<name>\S.*)",
    re.IGNORECASE,
)
_AFTER = re.compile(
    r"(?P<name>.*[^\s,])\s*(?:[,(\[]\s*|\s)(?P<count>(?:x|×)\s*\d+|\d+\s*(?:x|×|off|pcs|no\.?|ea))\s*[)\]]?",
    re.IGNORECASE,
)
_FIRST_FIGURE = re.compile(r"(?P<count>\d{1,3})\s+(?P<name>\S.*)")


class Counted(Struct, frozen=True):
    """How many. `spare` of them are spares; `pairs` of them were written as pairs, which for a thing that is a pair
    itself may have meant as many things. `doubt` says what cannot be read, and 0 with no doubt that none is wanted."""

    count: int
    spare: int = 0
    pairs: int = 0
    doubt: str = ""


def counted(cell: Cell) -> Counted | None:
    """What a cell says about how many; None where it says nothing."""
    text = cell.words.casefold()
    if not text or text in BLANKS:
        return None
    if text.startswith("="):
        return Counted(0, doubt=f'the count "{cell.words}" is a formula, and formulas are never run')
    if text in NONE_WANTED:
        return Counted(0)
    found = _read(text)
    if found is None or found.count > MOST:
        return Counted(0, doubt=f'"{cell.words}" is no count that can be read for certain')
    return found


def _read(text: str) -> Counted | None:
    if whole := _WHOLE.fullmatch(text):
        return Counted(int(whole["number"]))
    if spare := _SPARE.fullmatch(text):
        count, of_them = _number(spare["count"]), _number(spare["more"] or spare["within"])
        count += of_them if spare["plus"] else 0
        return Counted(count, of_them) if of_them <= count else None
    if worded := _WORDED.fullmatch(text):
        size, times = SETS[" ".join(worded["set"].split())], _number(worded["ones"] or "one")
        return Counted(size * times, pairs=times if "pair" in worded["set"] else 0)
    word = re.sub(rf"\s+{_EACH}$", "", text)
    tens, _, ones = word.replace("-", " ").partition(" ")
    if tens in ONES and (not ones or (ONES[tens] >= 20 and ONES.get(ones, 10) < 10)):
        return Counted(ONES[tens] + (ONES[ones] if ones else 0))
    return None


def _number(text: str) -> int:
    """A count in figures or in one word, an article being one."""
    word = " ".join(text.casefold().split())
    return int(word) if word.isdecimal() else {**ONES, **SETS, "a": 1, "an": 1}[word]


def within(name: str) -> list[tuple[str, Counted]]:
    """The ways in which a name may have its count in it ("2 x Brack 7", "Brack 7 (x2)"): the rest, and how many.

    A bare figure before a name counts last: it may be a part of the name as well.
    """
    found = []
    for pattern in (_BEFORE, _AFTER, _FIRST_FIGURE):
        if each := pattern.fullmatch(name):
            count = counted(Cell(each["count"]))
            if count is not None and not count.doubt and count.count:
                found.append((each["name"], count))
    return found
