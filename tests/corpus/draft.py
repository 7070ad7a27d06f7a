"""A mended sample as a copy to write a fault into: its lines, and what a planter asks of it.

Only text is changed. What stands where, and what the numbers are before the fault, is taken from the list as it was.
"""

from __future__ import annotations

import posixpath
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from random import Random

from kitproof.facts.build import Standing, combinations
from kitproof.facts.rig import RigSubject
from kitproof.facts.values import Amount
from kitproof.model.kitlist import KitList
from kitproof.model.making import make_list
from kitproof.model.parts import Part
from kitproof.model.rigs import Rig
from kitproof.model.sources import Fetched, gather
from kitproof.proofing.proof import setting_of
from kitproof.reading.document import Where
from tests.house.repository import ROOT
from tests.proofing.lists import DAY, book

SAMPLES = ROOT / "samples"
MENDED = tuple(path.name for path in sorted(SAMPLES.glob("*-mended.kitlist")))


@dataclass(eq=False)
class Line:
    """One line of a file. It stays the same line whatever is written in it and above it."""

    text: str


@dataclass(frozen=True)
class Entry:
    """An entry in a draft: the file it stands in, and its first line."""

    file: list[Line]
    first: Line

    @property
    def fields(self) -> list[Line]:
        """Its field lines, comments between them too."""
        found = []
        for line in self.file[self.file.index(self.first) + 1 :]:
            if line.text[:1].strip() and not line.text.startswith("#"):
                break
            found.append(line)
        while found and not found[-1].text.startswith(" "):
            found.pop()
        return found

    def field(self, start: str) -> Line | None:
        """The first field line that starts so."""
        return next((each for each in self.fields if each.text.split()[: len(start.split())] == start.split()), None)

    def add(self, text: str) -> Line:
        """A field more, under the last."""
        last = [self.first, *self.fields][-1]
        line = Line(f"  {text}")
        self.file.insert(self.file.index(last) + 1, line)
        return line

    def set(self, word: str, value: str = "") -> Line:
        """A field with another value, in its old place if it has one."""
        line = self.field(word)
        if line is None:
            return self.add(f"{word} {value}".strip())
        line.text = f"  {word} {value}".rstrip()
        return line

    def drop(self, word: str) -> None:
        line = self.field(word)
        if line is not None:
            self.file.remove(line)


@dataclass
class Draft:
    """The files of a sample by their paths, the list's own first; `settings` is a house's file that is in force.

    `beside` are the paths of other lists that are proofed together with it.
    """

    name: str
    files: dict[str, list[Line]]
    before: KitList
    settings: Path | None = None
    beside: tuple[str, ...] = ()
    originals: dict[str, tuple[Line, ...]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.originals = {path: tuple(lines) for path, lines in self.files.items()}

    @property
    def own(self) -> list[Line]:
        """The lines of the list itself."""
        return self.files[self.name]

    def at(self, where: Where) -> Line:
        """The line that stood at a place of the list as it was."""
        return self.originals[where.path][where.line - 1]

    def entry(self, where: Where) -> Entry:
        return Entry(self.files[where.path], self.at(where))

    def put(self, where: Where, text: str) -> Line:
        """Another text in place of a stretch of a line that is still as it was."""
        line = self.at(where)
        line.text = line.text[: where.column - 1] + text + line.text[where.to_column - 1 :]
        return line

    def end(self, *texts: str) -> Line:
        """A new entry at the end of the list; gives its first line."""
        lines = [Line(text) for text in texts]
        self.own.extend([Line(""), *lines])
        return lines[0]

    def another(self, *texts: str) -> None:
        """One more list, of these lines, to be proofed together with it; it uses the same book."""
        path = f"another-{len(self.beside) + 1}.kitlist"
        self.files[path] = [Line(text) for text in (*texts, 'use "stock/thrapley.kitlist"')]
        self.beside = (*self.beside, path)

    def drop(self, line: Line) -> None:
        for lines in self.files.values():
            if line in lines:
                lines.remove(line)

    def place(self, line: Line) -> tuple[str, int]:
        """The path and the number of a line as it stands now."""
        return next((path, lines.index(line) + 1) for path, lines in self.files.items() if line in lines)

    def data(self, path: str) -> bytes:
        """A file as bytes. A character that stands for a byte which is no UTF-8 becomes that byte."""
        return "".join(f"{line.text}\n" for line in self.files[path]).encode("utf-8", "surrogateescape")

    def read(self) -> KitList:
        """The list as it stands now, its book given from here and from nowhere else."""
        return self.read_all()[0]

    def read_all(self) -> list[KitList]:
        """The list as it stands now, and those beside it."""
        texts = {path: self.data(path) for path in self.files}
        return [_read(path, texts) for path in (self.name, *self.beside)]

    # ---- the rigs as they were ---------------------------------------------------------------------------------

    def rigs_with(self, *slots: str) -> list[Rig]:
        """The rigs that fill all these slots in every combination."""
        return [
            rig for rig in self.before.rigs if all(build.first(slot) for build in combinations(rig) for slot in slots)
        ]

    def subjects(self, rig: Rig) -> list[RigSubject]:
        return _subjects(self.name)[rig.name]

    def reach(self, rig: Rig, fact: str) -> tuple[float, float]:
        """A fact of the rig as it was, from its least to its most over all combinations."""
        amounts = [self.amount(each, fact) for each in self.subjects(rig)]
        return min(each.low for each in amounts), max(each.high for each in amounts)

    def amount(self, subject: RigSubject, fact: str) -> Amount:
        return subject.amount(fact)

    def standing(self, rig: Rig, slot: str) -> list[Standing]:
        """What stands in a slot of a rig, each once over all combinations."""
        found = [each for build in combinations(rig) for each in build.standing if each.line.slot == slot]
        return list({each.where: each for each in found}.values())

    def alone(self, rig: Rig, standing: Standing) -> Entry:
        """The part's entry to change for this rig: a copy under a name of its own where other lines have the part too.

        A rig that is like this one has its lines, and so the change.
        """
        part = standing.part
        users = {each.name: got.where for each in self.before.rigs for got in _all_parts(each) if got.part == part}
        if set(users.values()) == {standing.where}:
            return self.entry(part.where)
        name = f"{part.name}, the other"
        first = self.end(f'part {part.kind} "{name}"', *(line.text for line in self.entry(part.where).fields))
        self.put(standing.where, f'"{name}"')
        orders = [line for order in self.before.orders for line in order.lines if line.part.name == part.name]
        if self.before.orders:
            near = self.at(orders[0].where) if orders else self.entry(self.before.orders[0].where).fields[-1]
            self.own.insert(self.own.index(near) + 1, Line(f'  {len(users)} x "{name}"'))
            self.pack(name, part.kind)
        return Entry(self.own, first)

    def pack(self, name: str, kind: str) -> None:
        """A case of its own for a new thing, where the list has cases: packed as it should be."""
        if self.before.cases:
            states = ", level, tilt free, counterbalance off, pan bar off, slide off" if kind == "head" else ""
            self.end(f'case "For {name}"', f'  holds "{name}"{states}')


def _all_parts(rig: Rig) -> Iterator[Standing]:
    for build in combinations(rig):
        yield from build.standing


def _read(name: str, files: dict[str, bytes]) -> KitList:
    def fetch(using: str, wanted: str) -> Fetched:
        path = posixpath.normpath(posixpath.join(posixpath.dirname(using), wanted))
        if path.startswith(("/", "..")):
            return Fetched(path, path, problem="outside")
        return Fetched(path, path, files[path]) if path in files else Fetched(path, path, problem="missing")

    return make_list(gather(name, name, files[name], fetch))


@cache
def _texts(name: str) -> dict[str, tuple[str, ...]]:
    """The lines of a mended sample and of the book that it uses, by their paths."""
    paths = (name, "stock/thrapley.kitlist")
    return {path: tuple((SAMPLES / path).read_text(encoding="utf-8").splitlines()) for path in paths}


@cache
def before(name: str) -> KitList:
    """A mended sample as it is."""
    return _read(name, {path: "\n".join((*lines, "")).encode() for path, lines in _texts(name).items()})


@cache
def _subjects(name: str) -> dict[str, list[RigSubject]]:
    setting = setting_of(before(name), book(), DAY)
    return {rig.name: [RigSubject(setting, build) for build in combinations(rig)] for rig in before(name).rigs}


def draft(name: str) -> Draft:
    """A fresh copy of a mended sample."""
    return Draft(name, {path: [Line(text) for text in lines] for path, lines in _texts(name).items()}, before(name))


def a_rig(paper: Draft, chance: Random, *slots: str) -> Rig | None:
    """Any of the rigs that fill these slots."""
    rigs = paper.rigs_with(*slots)
    return chance.choice(rigs) if rigs else None


def the(paper: Draft, rig: Rig, slot: str) -> Standing:
    """What stands first in a slot of a rig."""
    return paper.standing(rig, slot)[0]


def rated(part: Part) -> float:
    """The greatest figure that is given for a part, in kg; without end where none is."""
    figures = [each.value.high for each in (*part.chart, *part.rated)]
    return max(figures, default=float("inf"))
