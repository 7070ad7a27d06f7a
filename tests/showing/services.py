"""Proofs in the forms that services read, for the tests: from the command, and from findings made by hand."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from click.testing import CliRunner

from kitproof.command import main
from kitproof.model.kitlist import KitList
from kitproof.proofing.findings import Change, Finding, Fix, Proof, Waived
from kitproof.reading.document import Where
from kitproof.showing.forms import proof_text
from kitproof.showing.shown import Shown
from tests.house.repository import ROOT, RULES
from tests.proofing.lists import book, proofed, read_bytes

SAMPLES = sorted((ROOT / "samples").glob("*.kitlist"))
LISTS = [*SAMPLES, *sorted(RULES.glob("*/*.fails.kitlist"))[::9]]
FAULTS = ROOT / "samples" / "nine-bells-faults.kitlist"
MENDED = ROOT / "samples" / "nine-bells-mended.kitlist"

TWO = """\
list "Pier 😀"
  issue 3

part head "Tollgate 😀😀" # two of these are four units
  mass 300 kg
  mass 31

waive impossible-mass in list
  until 2027-03-12
  because "weighed again, on Monday"
  by "first assistant"
"""


@cache
def printed(form: str, *words: str | Path) -> str:
    """What `proof --as FORM` prints, which must be all that it prints."""
    asked = ["proof", *map(str, words), "--on", "2027-03-01", "--as", form]
    result = CliRunner().invoke(main, asked, catch_exceptions=False)
    assert result.exit_code in (0, 1), result.output
    assert result.stderr == ""
    return result.stdout_bytes.decode("utf-8")


def shown(text: str, send_back_at: str = "wrong") -> Shown:
    """A list that stands alone, given as text."""
    kitlist = read_bytes(text.encode())
    return Shown(proofed(kitlist), [kitlist], book().rules, send_back_at)


def made(kitlist: KitList, *findings: Finding) -> Shown:
    """These findings, as if they were a list's."""
    return Shown(Proof(findings, len(findings), 0, 0), [kitlist], book().rules)


def finding(
    number: int = 1,
    grade: str = "wrong",
    says: str = "So it is.",
    where: Where | None = None,
    fixes: tuple[Fix, ...] = (),
    waived: Waived | None = None,
) -> Finding:
    """A finding made by hand; those of two numbers are two."""
    return Finding(
        rule="impossible-mass",
        grade=grade,
        outcome="fails",
        title="no such part has this mass",
        path="list.kitlist",
        issue=None,
        subject=f"rig {number}",
        where=where or Where("list.kitlist", number, 1, number, 2),
        says=says,
        because="A slip spoils every sum.",
        fixes=fixes,
        waived=waived,
        fingerprint=f"{number:016x}",
    )


def change(line: int, start: int, end: int, text: str) -> Change:
    return Change(Where("list.kitlist", line, start, line, end), text)


def text_of(form: str, given: Shown) -> str:
    return proof_text(form, given)
