"""A list mended: one finding at a time, the gravest first, each change proved, until no finding has a proved fix."""

from __future__ import annotations

from msgspec import Struct

from kitproof.mending.ground import Ground
from kitproof.mending.proving import proved_by
from kitproof.proofing.covering import Found
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
            after = ground.changed(step.fix.changes)
            assert after is not None, "a proved fix can be made"
            ground, again = after, True
            done.append(step)
    return Mended(ground, tuple(done))


def _next(ground: Ground, tried: set[tuple[str, str, str]]) -> Done | None:
    """The first finding with a proved fix, of those not yet tried in this round."""
    for finding in ground.examined.proof.findings:
        name = (finding.rule, finding.subject, finding.thing)
        if finding.waived is not None or finding.outcome == "cannot tell" or name in tried:
            continue
        tried.add(name)
        fix = _first_fix(ground, finding, ground.examined.found[finding.fingerprint])
        if fix is not None:
            return Done(finding, fix)
    return None


def _first_fix(ground: Ground, finding: Finding, found: Found) -> Fix | None:
    fixes = (proved_by(ground, finding, found, action) for action in found.rule.fixes)
    return next((fix for fix in fixes if fix is not None), None)
