"""Findings as text for people: 80 columns, a word at the left edge of what each paragraph tells.

The text is made as lines of pieces with a style, so that a terminal can colour it and a file gets it plain.
"""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Collection, Mapping, Sequence
from typing import NamedTuple

from kitproof.proofing.findings import Finding, Proof
from kitproof.reading.document import Where
from kitproof.rulebook.settings import GRADES
from kitproof.showing.wording import ON_PAPER, also, found, headline, judged_words, to_do, waiver_words
from kitproof.words.phrases import verdicts

WIDTH = 80
MARGIN = 7
BODY = WIDTH - MARGIN
MOST_NAMED = 12
"""So many lists are named above what is found in them, whether or not anything is."""


class Piece(NamedTuple):
    """A stretch of text and what it is: a grade, "word" for the words at the left edge, "place", or "" for plain."""

    text: str
    style: str = ""


Line = tuple[Piece, ...]
Said = Callable[[Where], str]
"""The text that stands at a place; "" where there is none worth showing."""


def plain(lines: Sequence[Line]) -> str:
    """The lines without any style."""
    return "".join("".join(piece.text for piece in line).rstrip() + "\n" for line in lines)


def proof_lines(proof: Proof, said: Said, lists: Sequence[str], send_back_at: str) -> list[Line]:
    """A whole proof. `lists` names the lists proofed, with their issues, one a line; a list is sent back at a grade."""
    lines: list[Line] = [(Piece(line),) for each in lists for line in wrapped(each, indent="  ")]
    new = [each for each in proof.findings if each.waived is None and not each.known]
    shown = [each for each in new if each.outcome != "cannot tell"]
    for each in shown:
        lines += [(), *finding_lines(each, said)]
    lines += _waiting(new)
    lines += _waived(proof.findings)
    lines += _known_stops(proof.findings)
    lines += _gone(proof.gone)
    return [*lines, (), *_closing(proof, send_back_at)]


def headings(lists: Mapping[str, str], told: Collection[str], others: str) -> list[str]:
    """The headings of lists, by their paths; of many only those that are told of, and how many others there are."""
    named = [heading for path, heading in lists.items() if len(lists) <= MOST_NAMED or path in told]
    rest = len(lists) - len(named)
    return [*named, *([f"{rest} {'list' if rest == 1 else 'lists'} more, {others}"] if rest else [])]


def finding_lines(finding: Finding, said: Said) -> list[Line]:
    """One finding: what, where, how it shows, why it matters, what to do, and the rule that says so."""
    lines = _headline(finding)
    lines += paragraph("", _place(finding.where, said), "place")
    lines += paragraph("Found" if finding.outcome == "fails" else "Doubt", found(finding))
    for where in finding.see:
        lines += paragraph("See", _place(where, said), "place")
    for other in also(finding):
        lines += paragraph("Also", other)
    lines += paragraph("Why", finding.because)
    lines += _fixes(finding)
    if finding.caution:
        lines += paragraph("Care", finding.caution)
    return [*lines, *paragraph("Rule", finding.rule)]


def wrapped(text: str, indent: str = "") -> list[str]:
    """A line as wide as the page at most; what goes on from it is indented."""
    return textwrap.wrap(text, WIDTH, subsequent_indent=indent, break_on_hyphens=False)


def _headline(finding: Finding) -> list[Line]:
    grade = finding.counts_as
    wrapped = textwrap.wrap(headline(finding), BODY) or [""]
    first = (Piece(grade.upper().ljust(MARGIN), grade), Piece(wrapped[0], "title"))
    return [first, *((Piece(" " * MARGIN), Piece(each, "title")) for each in wrapped[1:])]


def _place(where: Where, said: Said) -> str:
    text = said(where)
    return f"{where.path}, line {where.line}" + (f", at {text}" if text else "")


def _fixes(finding: Finding) -> list[Line]:
    lines: list[Line] = []
    for number, fix in enumerate(to_do(finding)):
        lines += paragraph("Or" if number else "Do", fix)
    return lines


def paragraph(word: str, text: str, style: str = "") -> list[Line]:
    """A paragraph with a word at its left edge, wrapped."""
    wrapped = textwrap.wrap(text, BODY, break_long_words=True, break_on_hyphens=False) or [""]
    lines: list[Line] = [(Piece(word.ljust(MARGIN), "word"), Piece(wrapped[0], style))]
    return [*lines, *((Piece(" " * MARGIN), Piece(each, style)) for each in wrapped[1:])]


def _waiting(findings: Sequence[Finding]) -> list[Line]:
    """What could not be judged, gathered by what is missing; what the most verdicts wait for comes first."""
    waiting: dict[str, list[Finding]] = {}
    for each in (one for top in findings for one in (top, *top.also)):
        if each.outcome == "cannot tell" and not each.quiet:
            for name in each.missing:
                waiting.setdefault(name, []).append(each)
    if not waiting:
        return []
    lines: list[Line] = [(), (Piece("Not known, so that it could not be judged:", "title"),)]
    for name, waits in sorted(waiting.items(), key=lambda item: (-len(item[1]), item[0])):
        lines += paragraph("Ask", f"{name}. {_waits(waits)}")
    return lines


def _waits(waits: Sequence[Finding]) -> str:
    """What waits for an answer: which rules where there are few, else how many and how grave."""
    rules = list(dict.fromkeys(each.rule for each in waits))
    subjects = ", ".join(dict.fromkeys(each.subject for each in waits))
    if len(rules) <= 2:
        return f"{' and '.join(rules)} in {subjects} {'wait' if len(rules) > 1 else 'waits'} for it."
    stops = sum(each.counts_as == "stop" for each in waits)
    return f"{verdicts(len(waits), stops)}{',' if stops else ''} in {subjects} wait for it."


def _waived(findings: Sequence[Finding]) -> list[Line]:
    lines: list[Line] = []
    for each in findings:
        if each.waived is None:
            continue
        lines += paragraph("Waived", f"{each.rule} in {each.subject}{waiver_words(each.waived)}")
    return [(), *lines] if lines else []


def _known_stops(findings: Sequence[Finding]) -> list[Line]:
    """What was known before and could hurt someone is still said, if only in a line."""
    lines: list[Line] = []
    for each in findings:
        if each.known and each.waived is None and each.counts_as == "stop":
            lines += paragraph("Known", f"{each.subject}: {each.title} ({each.rule}, grade stop, known before)")
    return [(), *lines] if lines else []


def _gone(gone: Sequence[str]) -> list[Line]:
    """What was known and is no longer found: the record can be made again without it."""
    lines = [line for each in gone for line in paragraph("Gone", f"{each}: known before, and no longer found.")]
    return [(), *lines] if lines else []


def _closing(proof: Proof, send_back_at: str) -> list[Line]:
    """How many findings of each grade, whether they send the list back, and what the proof rests on."""
    tally = proof.tally
    counts = {"stop": tally.stop, "wrong": tally.wrong, "watch": tally.watch, "note": tally.note}
    said = [f"{counts[grade]} {grade}" for grade in GRADES if counts[grade]]
    if tally.cannot_tell:
        said.append(f"{tally.cannot_tell} not decided")
    if tally.known:
        said.append(f"{tally.known} known before")
    if tally.waived:
        said.append(f"{tally.waived} waived")
    heading = f"Findings: {', '.join(said)}." if said else "No findings."
    judged = judged_words(proof.judged, proof.not_judged, proof.not_read)
    back = "Send it back" if proof.sends_back(send_back_at) else "Nothing to send back"
    last = (f"{heading} {back}, at grade {send_back_at}.", judged, ON_PAPER)
    return [(Piece(line),) for each in last for line in wrapped(each)]
