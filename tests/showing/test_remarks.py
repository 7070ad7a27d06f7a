"""What is said beside the rows of a sheet: every finding once, and every row in doubt."""

from __future__ import annotations

from datetime import date

from kitproof.proofing.findings import Finding, Fix, Proof, Waived
from kitproof.reading.document import Where
from kitproof.sheets.row_marks import Marked, RowOf
from kitproof.showing.remarks import Remark, remarks, summary

HERE = Where("a.kitlist", 3, 1, 3, 2)
ROW = RowOf("", 7)
MARKS = Marked("a.kitlist", {3: ROW}, {}, ((RowOf("", 9), '"blue thing": no part has a name like it.'),), ())


def finding(**changes: object) -> Finding:
    given = {
        "rule": "r", "grade": "wrong", "outcome": "fails", "title": "it is too heavy",
        "path": "a.kitlist", "issue": None,
        "subject": "rig A", "where": HERE, "says": "It is 3 kg.", "because": "b", **changes,
    }  # fmt: skip
    return Finding(**given)  # type: ignore[arg-type]  # what each test gives of it is of its type


def proof(*findings: Finding) -> Proof:
    return Proof(findings, 4, 1, 0)


def said(found: Finding) -> Remark:
    return remarks(proof(found), MARKS)[-1]


def test_a_row_in_doubt_is_a_question() -> None:
    first = remarks(proof(), MARKS)[0]
    says = 'This row is in doubt: "blue thing": no part has a name like it.'
    assert first == Remark(RowOf("", 9), "ASK", says, "Please say what is meant.")


def test_a_finding_stands_beside_its_row_with_what_to_do() -> None:
    fixes = (Fix("Take another."), Fix("Leave it."))
    found = said(finding(fixes=fixes, also=(finding(rule="other", says="It is also blue."),)))
    assert found == Remark(
        ROW,
        "WRONG",
        "Rig A: it is too heavy. It is 3 kg. Also: It is also blue. (other)",
        "Take another. Or: Leave it.",
    )


def test_a_finding_counts_by_its_gravest() -> None:
    assert said(finding(also=(finding(grade="stop"),))).grade == "STOP"


def test_what_cannot_be_told_asks_and_what_is_waived_says_so() -> None:
    asks = said(finding(outcome="cannot tell", says="whether it holds", missing=("its mass", "its height")))
    assert (asks.grade, asks.do) == ("ASK", "Please say: its mass; its height.")
    waived = said(finding(waived=Waived("it comes on Monday", "grip", date(2027, 3, 1), HERE)))
    assert (waived.grade, waived.do) == ("WAIVED", "Accepted by the grip, until 2027-03-01: it comes on Monday")


def test_a_finding_of_no_row_is_kept() -> None:
    assert said(finding(where=HERE._replace(line=5))).row is None


def test_the_summary_counts_every_remark() -> None:
    found = proof(finding(), finding(), finding(grade="watch"))
    assert summary(found, "a.kitlist: Pier", remarks(found, MARKS)) == [
        "a.kitlist: Pier",
        "4 remarks: 1 ASK, 2 WRONG, 1 WATCH.",
        "Judged 4, could not judge 1, not read 0. Worked out on paper; nothing was load-tested.",
    ]
    assert summary(proof(), "a", [])[1] == "Nothing was found."
