"""Lists proofed in tests as the command proofs them: by their bytes, with the files that they use beside them."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from datetime import date
from functools import cache
from pathlib import Path

from kitproof.books import Asked, Books, settings_file, shipped_book, shipped_rules
from kitproof.facts.promises import beside
from kitproof.files import fetcher
from kitproof.model.kitlist import KitList
from kitproof.model.making import make_list
from kitproof.model.sources import Fetched, gather
from kitproof.proofing.findings import Finding, Proof
from kitproof.proofing.proof import proof
from kitproof.rulebook.rules import RuleBook

DAY = date(2027, 3, 1)
"""The day on which every list in the tests is proofed."""

_MARK = re.compile(r"# (?P<word>[a-z][a-z ]*?)(?:: (?P<names>[a-z0-9, -]+))?$")


@cache
def book() -> RuleBook:
    """The rule book that ships."""
    return shipped_book()


@cache
def book_with(settings: Path) -> RuleBook:
    """The rule book with what a settings file sets."""
    return Books(Asked(house=str(settings)), shipped_rules()).for_list(settings.resolve().parent / "list")


def book_for(path: Path) -> RuleBook:
    """The rule book that is in force for a list: what ships, and what the settings file above it sets."""
    found = settings_file(path.resolve().parent)
    return book() if found is None else Books(Asked(), shipped_rules()).for_list(path.resolve())


def read(path: Path) -> KitList:
    """A list by its bytes, with the files that it uses."""
    real = path.resolve()
    return make_list(gather(str(path), str(real), path.read_bytes(), fetcher(real.parent)))


def nothing_beside(using: str, wanted: str) -> Fetched:
    """A fetch for lists that stand alone: no file that they use is there."""
    return Fetched(wanted, wanted, problem="missing")


def read_bytes(data: bytes, name: str = "list.kitlist") -> KitList:
    """A list that stands alone."""
    return make_list(gather(name, name, data, nothing_beside))


def proofed(kitlist: KitList, day: date = DAY, by: RuleBook | None = None) -> Proof:
    """A list proofed by what ships, or by another rule book."""
    return proof(kitlist, by or book(), day)


def proofed_among(lists: Sequence[KitList], by: RuleBook | None = None) -> Proof:
    """The first of several lists, proofed with what the others promise."""
    return proof(lists[0], by or book(), DAY, beside(lists)[0])


def proofed_together(lists: Sequence[KitList], by: RuleBook | None = None) -> list[Proof]:
    """Lists that are proofed in one run, each with what the others promise."""
    return [proof(each, by or book(), DAY, others) for each, others in zip(lists, beside(lists), strict=True)]


def proofed_text(text: str, day: date = DAY) -> Proof:
    """A list that stands alone, given as text."""
    return proofed(read_bytes(text.encode()), day)


def everything(findings: tuple[Finding, ...]) -> Iterator[Finding]:
    """Findings, and those that they keep under `also`."""
    for each in findings:
        yield each
        yield from each.also


def marks(path: Path, word: str) -> list[tuple[int, str]]:
    """The lines whose closing comment is `# WORD: a, b`, each with every name; `# WORD` alone has the name ""."""
    lines = path.read_bytes().decode("utf-8", "replace").splitlines()
    found = []
    for number, line in enumerate(lines, 1):
        match = _MARK.search(line)
        if match and match["word"] == word:
            found += [(number, name.strip()) for name in (match["names"] or "").split(",")]
    return found
