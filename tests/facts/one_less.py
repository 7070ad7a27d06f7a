"""What each line of a list bears on: lists with one of everything, and what their facts become with a line less.

Each line in turn is left out, asked about (`?`), made one that cannot be read, or known about only (`~`). What is
written down is every fact that is another one then. `python -m tests.facts.one_less` writes it anew. Read the change,
then keep it.
"""

from __future__ import annotations

import re
import sys
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path

from kitproof.facts.registry import FACTS
from kitproof.facts.values import Amount, Held, Thing, Verdict, Words
from tests.facts.every import subjects_of
from tests.proofing.lists import read_bytes

FOLDER = Path(__file__).with_name("one_line_less")
LISTS = ("heavy", "light", "travel")

ABOVE = ("rig", "joint", "stage", "part", "slip", "figure", "packed", "case", "move", "order line", "item")
"""What is looked at by itself. What else there is stands within one of these."""

Known = dict[str, dict[str, tuple[str, str]]]
"""Of each thing each fact: its value as text, and what is missing of it."""


def blocks(text: str) -> Iterator[tuple[str, range]]:
    """The heading of each block of a list, and which lines stand under it."""
    lines = text.splitlines()
    heads = [number for number, line in enumerate(lines) if line and not line.startswith((" ", "#"))]
    for head, end in zip(heads, [*heads[1:], len(lines)], strict=True):
        yield lines[head], range(head + 1, end)


def variants(line: str) -> Iterator[tuple[str, str]]:
    """What a line may be instead: what is said of it, and the line."""
    word, _, value = line.strip().partition("  ")
    yield "left out", ""
    if value and not value.strip().startswith('"'):
        yield "asked about", f"  {word}  ?"
    yield "not read", f"  {word}  ; {value}"
    if re.match(r"[0-9]+ [a-zN]+\b(?! x)", value.strip()):
        yield "known about", f"  {word}  ~{value.strip()}"


def known(text: str) -> Known:
    found: Known = {}
    for thing in subjects_of(read_bytes(text.encode())):
        _note(found, thing)
        for name in FACTS[thing.about]:
            held = thing.value(name)
            for inner in held if isinstance(held, tuple) else ():
                if inner.about not in ABOVE:
                    _note(found, inner, f", {name} of {thing.label}")
    return found


def _note(found: Known, thing: Thing, of: str = "") -> None:
    """The facts of one thing. Several of one name, such as the builds of a rig, are told apart by their number."""
    name = f"{thing.about} {thing.label}{of}"
    number = sum(each == name or each.startswith(f"{name}, no ") for each in found) + 1
    facts = {fact: thing.value(fact) for fact in FACTS[thing.about]}
    found[name if number == 1 else f"{name}, no {number}"] = {
        fact: (shown(held), "; ".join(getattr(held, "missing", ()))) for fact, held in facts.items()
    }


def shown(held: Held) -> str:
    """A value to five figures: more would hang on how a machine adds up."""
    match held:
        case Amount(low=low, high=high):
            return f"{low:.5g}" if low == high else f"{low:.5g} to {high:.5g}"
        case Words(text=text):
            return str(text)
        case Verdict(truth=truth):
            return truth.name.lower()
        case None:
            return "none"
        case tuple():
            return f"{len(held)}: " + ", ".join(each.label for each in held)
        case _:
            assert isinstance(held, Thing)
            return held.label


def differences(whole: Known, less: Known) -> Iterator[str]:
    """What is another one, fact by fact, those that lack the same together."""
    for name in dict.fromkeys([*whole, *less]):
        if name not in less:
            yield f"    {name}: gone"
            continue
        before = whole.get(name, {})
        of: dict[str, list[str]] = defaultdict(list)
        for fact, (value, missing) in less[name].items():
            if before.get(fact) != (value, missing):
                of[missing].append(f"{fact} {value}")
        for missing, values in of.items():
            yield f"    {name}: {', '.join(values)}" + (f" | lacks {missing}" if missing else "")


def written(text: str, lines: range, whole: Known) -> str:
    """What becomes of the facts with each of some lines left out, asked about, not read and known about."""
    all_lines, said = text.splitlines(), []
    for number in lines:
        line = all_lines[number]
        if not line.strip():
            continue
        said.append(line)
        before: dict[tuple[str, ...], str] = {}
        for how, instead in variants(line):
            less = known("\n".join([*all_lines[:number], instead, *all_lines[number + 1 :], ""]))
            found = tuple(differences(whole, less))
            said += [f"  {how}: as {before[found]}"] if found in before else [f"  {how}", *found]
            before.setdefault(found, how)
    return "\n".join([*said, ""])


def text_of(name: str) -> str:
    return (FOLDER / f"{name}.kitlist").read_text(encoding="utf-8")


def file_of(name: str, heading: str) -> Path:
    return FOLDER / name / (re.sub(r"[^a-z0-9]+", "-", heading.lower()).strip("-") + ".txt")


def main() -> int:
    for name in LISTS:
        text = text_of(name)
        whole = known(text)
        (FOLDER / name).mkdir(exist_ok=True)
        for heading, lines in blocks(text):
            file_of(name, heading).write_text(written(text, lines, whole), encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
