"""`python -m tests.reading.mutated --lines 100000`: lines read after the pattern of others, and read by the grammar.

Takes good lines apart and puts them together wrongly, then asks of each value whether the two ways of reading it agree:
the same draft, or the same place where it stops making sense, and the same numbers written amiss. Prints each line
where they do not, and ends with 1 if there is one.
"""

from __future__ import annotations

import argparse
import random
from collections.abc import Iterator
from typing import Any

from kitproof.reading import alike, numerals
from kitproof.reading.characters import plain
from kitproof.reading.drafting import FIRST_LINES, draft_anew
from kitproof.reading.drafts import UnreadableError
from kitproof.reading.notes import Notes
from kitproof.words.shapes import Shape
from tests.reading.samples import fragments, good_texts

STARTS = (*(shape.value for shape in Shape), *FIRST_LINES)


def values(count: int, seed: int) -> Iterator[str]:
    """So many values of lines, half of them with other figures or with pieces put in, taken out and exchanged."""
    chance = random.Random(seed)
    lines = [line.strip() for text in good_texts() for line in text.splitlines() if line.strip()]
    pieces = fragments()
    for _ in range(count):
        line = chance.choice(lines)
        line = "".join(chance.choice("0123456789") if each in "0123456789" else each for each in line)
        for _ in range(chance.choice((0, 0, 1, 2, 4))):
            start = chance.randint(0, len(line))
            line = line[:start] + chance.choice(pieces) + line[start + chance.randint(0, 4) :]
        first = chance.randint(0, 2)
        yield " ".join(line.split(" ")[first:]) if chance.random() < 0.9 else line


def differences(value: str, start: str) -> list[str]:
    """What the two ways of reading a value, as one of the grammar's starts, do not agree on."""
    line = plain(value)
    if line.empty or line.forbidden is not None:
        return []
    found = []
    if _tried(alike.draft, start, line.text, line.start) != _tried(_anew, start, line.text, line.start):
        found.append(f"{start}: {value!r}: the draft")
    if start not in FIRST_LINES:
        shape = Shape(start)
        one, other = Notes(line, "", line.start), Notes(line, "", line.start)
        numerals.misread(shape, one)
        numerals.misread_anew(shape, other)
        if shape not in numerals.WITHOUT_NUMBERS and one.slips != other.slips:
            found.append(f"{start}: {value!r}: numbers written amiss")
    return found


def _tried(draft: Any, start: str, text: str, begin: int) -> Any:
    try:
        return draft(start, text, begin, len(text))
    except UnreadableError as trouble:
        return trouble.at, "stops"


def _anew(start: str, text: str, begin: int, end: int) -> Any:
    return alike.in_tuples(draft_anew(start, text, begin, end))


def main() -> None:
    asked = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    asked.add_argument("--lines", type=int, default=100_000)
    asked.add_argument("--seed", type=int, default=1)
    options = asked.parse_args()
    chance = random.Random(options.seed)
    found = 0
    for value in values(options.lines, options.seed):
        for each in differences(value, chance.choice(STARTS)):
            found += 1
            print(each)
    print(f"{options.lines} lines, {found} differences")
    raise SystemExit(1 if found else 0)


if __name__ == "__main__":
    main()
