"""A list mended: one finding at a time, the gravest first, each change proved, until no finding has a proved fix."""

from __future__ import annotations

from msgspec import Struct

from kitproof.mending.ground import Ground
from kitproof.mending.proving import Proved, proved_by
from kitproof.proofing.findings import Finding, Fix


class Done(Struct, frozen=True):
    """One fix made: the finding as it was found, and what was done about it."""

    finding: Finding
    fix: Fix


class Mended(Struct, frozen=True):
    """A list as it was left, and what was done to it, in order."""

    ground: Ground
    done: tuple[Done, ...]


def mended(ground: Ground) -> Mended:
    """The list with every fix that can be proved. Mended again, nothing is left to do.

    A fix takes its finding away and brings only less grave ones, so that this comes to an end.
    """
    done: list[Done] = []
    again = True
    while again:
        again = False
        tried: set[tuple[str, str, str]] = set()
        while (step := _next(ground, tried)) is not None:
            finding, proved = step
            ground, again = proved.after, True
            done.append(Done(finding, proved.fix))
    return Mended(ground, tuple(done))


def _next(ground: Ground, tried: set[tuple[str, str, str]]) -> tuple[Finding, Proved] | None:
    """The first finding with a proved fix, of those not yet tried in this round."""
    for finding in ground.examined.proof.findings:
        name = (finding.rule, finding.subject, finding.thing)
        if finding.waived is not None or finding.outcome == "cannot tell" or name in tried:
            continue
        tried.add(name)
        found = ground.examined.found[finding.fingerprint]
        fixes = (proved_by(ground, finding, found, action) for action in found.rule.fixes)
        proved = next((each for each in fixes if each is not None), None)
        if proved is not None:
            return finding, proved
    return None
