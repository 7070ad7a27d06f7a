"""Findings as workflow commands of GitHub, which shows them as annotations beside the lines of a list.

A step shows ten annotations of each kind at most, and drops the rest without a word. So where there are more, nine are
shown, the gravest first, and the tenth sums up the others. Columns count in characters.
"""

from __future__ import annotations

from collections.abc import Sequence
from unicodedata import category

from kitproof.proofing.findings import Finding
from kitproof.showing.shown import Shown, live, waits
from kitproof.showing.wording import ON_PAPER, also, found, headline, judged_words, to_do

KINDS = {"stop": "error", "wrong": "error", "watch": "warning", "note": "notice"}
MOST = 10
"""Annotations of one kind in one step, by the service's own documentation, from memory."""
SUMMED = 20
"""How many of the rest the sum names one by one."""


def workflow_commands(shown: Shown) -> str:
    """A proof as one command a line. A last line that is no command says what it rests on."""
    findings = [each for each in shown.proof.findings if live(each)]
    told = [each for each in findings if not waits(each)]
    lines: list[str] = []
    for kind in dict.fromkeys(KINDS.values()):
        mine = [_command(shown, each, kind) for each in told if KINDS[each.counts_as] == kind]
        rest = [each for each in told if KINDS[each.counts_as] == kind]
        waiting = _waiting([each for each in findings if waits(each)]) if kind == "notice" else []
        room = MOST - len(waiting)
        if len(mine) > room:
            mine = [*mine[: room - 1], _rest(kind, rest[room - 1 :])]
        lines += [*mine, *waiting]
    proof = shown.proof
    last = f"{judged_words(proof.judged, proof.not_judged, proof.not_read)} {ON_PAPER}"
    return "\n".join([*lines, last]) + "\n"


def _command(shown: Shown, finding: Finding, kind: str) -> str:
    where = finding.where
    places = [("file", shown.path(where.path)), ("line", str(where.line)), ("endLine", str(where.to_line))]
    if where.line == where.to_line:
        places += [("col", str(where.column)), ("endColumn", str(where.to_column))]
    more = [f"Also: {each}" for each in also(finding)]
    listed = shown.headings.get(finding.path, finding.path)
    text = "\n".join([found(finding), *more, *to_do(finding), f"Rule {finding.rule}. List: {listed}"])
    return command(kind, text, [*places, ("title", f"{finding.counts_as.upper()} {headline(finding)}")])


def _rest(kind: str, findings: Sequence[Finding]) -> str:
    """What is beyond the limit, in one command."""
    named = [f"{each.where.path}, line {each.where.line}: {headline(each)} ({each.rule})" for each in findings[:SUMMED]]
    beyond = [f"and {len(findings) - SUMMED} more"] if len(findings) > SUMMED else []
    title = f"{len(findings)} more findings than are shown here"
    return command(kind, "\n".join([*named, *beyond]), [("title", title)])


def _waiting(findings: Sequence[Finding]) -> list[str]:
    """What waits for an answer, in one command: `kitproof questions` says more."""
    if not findings:
        return []
    missing = list(dict.fromkeys(name for each in findings for name in each.missing))
    beyond = [f"and {len(missing) - SUMMED} more"] if len(missing) > SUMMED else []
    title = f"{len(findings)} could not be judged, for want of what is named here"
    return [command("notice", "\n".join([*missing[:SUMMED], *beyond]), [("title", title)])]


def command(kind: str, text: str, places: Sequence[tuple[str, str]]) -> str:
    """One workflow command, escaped so that no text can end it or begin another."""
    said = ",".join(f"{name}={_property(value)}" for name, value in places)
    return f"::{kind} {said}::{_data(text)}"


def _data(text: str) -> str:
    shown = "".join(each for each in text if each in "\r\n" or category(each) not in ("Cc", "Cs"))
    return shown.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    return _data(text).replace(":", "%3A").replace(",", "%2C")
