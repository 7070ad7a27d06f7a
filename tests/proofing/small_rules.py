"""A few rules about one part, of which a test knows exactly how each comes out."""

from __future__ import annotations

from collections.abc import Sequence

from kitproof.books import shipped_book
from kitproof.proofing.findings import Finding, Proof
from kitproof.proofing.proof import proof
from tests.proofing.lists import DAY, read_bytes

PART = 'part head "H"\n  mass 8..12 kg\n\n'
"""Certain to be over 5 kg, perhaps over 10 kg, never over 20 kg; how high it is, nobody says."""

FAILS, MAY_FAIL, CANNOT_TELL, HOLDS = "mass > 5 kg", "mass > 10 kg", "height > 1 m", "mass > 20 kg"


def rule(fails: str, *more: str, grade: str = "wrong", about: str = "part") -> str:
    """The text of a rule that is as short as a rule may be."""
    lines = [
        'title "it is so"',
        f"grade {grade}",
        f"about {about}",
        f"fails {fails}",
        *more,
        'says "It is so."',
        'doubt "whether it is so"',
        'because "It matters."',
        'fix advise "Change it."',
        'source "common practice, no source"',
    ]
    return "\n".join(lines) + "\n"


def proofed_by(rules: dict[str, str], text: str = PART) -> Proof:
    """A list proofed by these rules alone, each in a group of its own called `own`."""
    book = shipped_book({f"own/{name}.rule": body for name, body in rules.items()})
    return proof(read_bytes(text.encode()), book, DAY)


def tree(findings: Sequence[Finding]) -> dict[str, list[str]]:
    """Each finding's rule, with those that it keeps under `also`."""
    return {each.rule: [other.rule for other in each.also] for each in findings}
