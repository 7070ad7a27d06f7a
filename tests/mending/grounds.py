"""Lists to be mended in tests: given as text or as a sample, with what ships or with rules of the test's own."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from functools import cache
from pathlib import Path

from kitproof.books import shipped_book
from kitproof.files import fetcher
from kitproof.mending.filetext import opened
from kitproof.mending.ground import Given, Ground
from kitproof.mending.mend import Mended, mended
from kitproof.mending.proving import proved_by
from kitproof.model.sources import once
from kitproof.proofing.findings import Fix
from kitproof.rulebook.rules import RuleBook
from tests.house.repository import ROOT
from tests.proofing.lists import DAY, book, nothing_beside

SAMPLES = ROOT / "samples"
FAULTS = ("nine-bells-faults", "second-unit-faults", "islands-flight-faults")


def ground(text: str | bytes, by: RuleBook | None = None, day: date = DAY) -> Ground:
    """A list that stands alone."""
    file = opened(text.encode() if isinstance(text, str) else text)
    assert file is not None
    return Ground(Given("order.kitlist", "order.kitlist", "order.kitlist", nothing_beside, by or book(), day), file)


def sample(path: Path, text: bytes | None = None) -> Ground:
    """A sample, or another text in its place, with the books that it uses."""
    file = opened(path.read_bytes() if text is None else text)
    assert file is not None
    return Ground(Given(str(path), str(path), path.name, once(fetcher(path.parent)), book(), DAY), file)


@cache
def mended_sample(name: str) -> Mended:
    """A sample mended, once for all tests of a run."""
    return mended(sample(SAMPLES / f"{name}.kitlist"))


def rules(bodies: Mapping[str, str]) -> RuleBook:
    """A book of these rules alone."""
    return shipped_book({f"own/{name}.rule": body for name, body in bodies.items()})


def rule(about: str, fails: str, *fixes: str, grade: str = "wrong", more: str = "") -> str:
    """The text of a rule with these fixes."""
    lines = ['title "it is so"', f"grade {grade}", f"about {about}", *([more] if more else []), f"fails {fails}"]
    lines += ['says "It is so."', 'doubt "whether it is so"', 'because "It matters."']
    return "\n".join([*lines, *(f"fix {each}" for each in fixes), 'source "common practice, no source"']) + "\n"


def fixes(of: Ground, name: str) -> list[Fix | None]:
    """What each action of a rule's fixes comes to for the first finding of that rule; None where it is not proved."""
    finding = next(each for each in of.examined.proof.findings if each.rule == name)
    found = of.examined.found[finding.fingerprint]
    tried = [proved_by(of, finding, found, action) for action in found.rule.fixes]
    return [each.fix if each is not None else None for each in tried]


def fixed(of: Ground, name: str, number: int = 0) -> str:
    """The text with one fix of the first finding of a rule made."""
    fix = fixes(of, name)[number]
    assert fix is not None, "the fix is not proved"
    after = of.changed(fix.changes)
    assert after is not None
    return after.file.text
