"""What is said beside the rows of a sender's sheet: every finding of the list made from it, and every row in doubt."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from kitproof.proofing.findings import Finding, Proof
from kitproof.sheets.row_marks import Marked, RowOf
from kitproof.showing.wording import ON_PAPER, also, found, headline, judged_words, to_do, waiver_words

ASK, WHICH = "ASK", "Please say what is meant."
COLUMNS = ("Grade", "Found in the proof", "What to do")
_NOT_PROVED = " Not proved."


class Remark(Struct, frozen=True):
    """One thing to say: to which row (None: to none), its grade, what it is, and what to do."""

    row: RowOf | None
    grade: str
    says: str
    do: str


def remarks(proof: Proof, marks: Marked) -> list[Remark]:
    """All there is to say: the rows in doubt first, then the findings, the gravest first. None is left out."""
    doubts = [
        Remark(row, ASK, f"This row is in doubt: {says}", "Please say what is meant.") for row, says in marks.doubts
    ]
    return [*doubts, *(_remark(each, marks.row_of(each)) for each in proof.findings)]


def _remark(finding: Finding, row: RowOf | None) -> Remark:
    says = " ".join([f"{_capital(headline(finding))}.", found(finding), *(f"Also: {each}" for each in also(finding))])
    if finding.waived is not None:
        return Remark(row, "WAIVED", says, f"Accepted{waiver_words(finding.waived)}")
    if finding.outcome == "cannot tell":
        return Remark(row, ASK, says, f"Please say: {'; '.join(finding.missing)}." if finding.missing else "")
    do = " Or: ".join(each.removesuffix(_NOT_PROVED) for each in to_do(finding))
    return Remark(row, finding.counts_as.upper(), says, do)


def _capital(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}"


def summary(proof: Proof, heading: str, remarks: Sequence[Remark]) -> list[str]:
    """What stands above the remarks that are to no row."""
    grades = [each.grade for each in remarks]
    counted = ", ".join(f"{grades.count(each)} {each}" for each in dict.fromkeys(grades))
    return [
        heading,
        f"{len(remarks)} remarks: {counted}." if remarks else "Nothing was found.",
        f"{judged_words(proof.judged, proof.not_judged, proof.not_read)} {ON_PAPER}",
    ]
