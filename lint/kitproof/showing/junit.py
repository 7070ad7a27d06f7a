"""Findings as JUnit XML, which most services that run checks can show: a suite for each list, a case for each finding.

A case fails where its finding sends the list back. What waits for an answer, is waived or was known before is skipped,
with the reason. Any other finding is a case with its text as output. A list with no finding has one case that says so.
"""

from __future__ import annotations

from collections import Counter
from xml.etree import ElementTree
from xml.etree.ElementTree import Element, SubElement

from kitproof.model.kitlist import KitList
from kitproof.proofing.findings import Finding
from kitproof.rulebook.settings import GRADES
from kitproof.showing.shown import Shown, live, waits
from kitproof.showing.wording import ON_PAPER, also, found, headline, judged_words, to_do, waiver_words


def junit(shown: Shown) -> str:
    """A proof as a JUnit report."""
    top = Element("testsuites", name="kitproof")
    for kitlist in shown.lists:
        _suite(top, shown, kitlist, [each for each in shown.proof.findings if each.path == kitlist.path])
    for attribute in ("tests", "failures", "skipped", "errors"):
        top.set(attribute, str(sum(int(suite.get(attribute, "0")) for suite in top)))
    proof = shown.proof
    if len(top):
        said = SubElement(top[-1], "system-out")
        said.text = f"{judged_words(proof.judged, proof.not_judged, proof.not_read)} {ON_PAPER}"
    ElementTree.indent(top)
    return f'<?xml version="1.0" encoding="utf-8"?>\n{ElementTree.tostring(top, encoding="unicode")}\n'


def _suite(top: Element, shown: Shown, kitlist: KitList, findings: list[Finding]) -> None:
    suite = SubElement(top, "testsuite", name=printable(kitlist.heading))
    names: Counter[str] = Counter()
    for each in findings:
        name = printable(f"{headline(each)} ({each.rule})")
        names[name] += 1
        again = f", {names[name]}" if names[name] > 1 else ""
        _case(suite, shown, each, name + again)
    if not findings:
        SubElement(suite, "testcase", classname=printable(shown.path(kitlist.path)), name="no findings")
    suite.set("tests", str(max(1, len(findings))))
    suite.set("failures", str(len(suite.findall("testcase/failure"))))
    suite.set("skipped", str(len(suite.findall("testcase/skipped"))))
    suite.set("errors", "0")


def _case(suite: Element, shown: Shown, finding: Finding, name: str) -> None:
    case = SubElement(suite, "testcase", classname=printable(shown.path(finding.path)), name=name)
    case.set("file", printable(shown.path(finding.where.path)))
    case.set("line", str(finding.where.line))
    text = printable(_text(shown, finding))
    reason = _skipped(finding)
    if reason:
        SubElement(case, "skipped", message=printable(reason)).text = text
    elif sends_back(finding, shown.send_back_at):
        failure = SubElement(case, "failure", message=printable(f"{finding.counts_as}: {found(finding)}"))
        failure.set("type", finding.rule)
        failure.text = text
    else:
        SubElement(case, "system-out").text = text


def sends_back(finding: Finding, at: str) -> bool:
    """Whether a finding sends its list back at a grade."""
    return finding.counts and GRADES.index(finding.counts_as) <= GRADES.index(at)


def _skipped(finding: Finding) -> str:
    """Why a finding counts for nothing; "" where it counts."""
    if finding.waived is not None:
        return f"waived{waiver_words(finding.waived)}"
    if not live(finding):
        return "known before"
    return f"not known: {'; '.join(finding.missing)}" if waits(finding) else ""


def _text(shown: Shown, finding: Finding) -> str:
    """The whole finding, a line to each of what is found, why it matters and what to do."""
    where = f"{shown.path(finding.where.path)}, line {finding.where.line}"
    care = [f"Care: {finding.caution}"] if finding.caution else []
    more = [f"Also: {each}" for each in also(finding)]
    do = [f"{'Or' if number else 'Do'}: {each}" for number, each in enumerate(to_do(finding))]
    return "\n".join([where, f"Found: {found(finding)}", *more, f"Why: {finding.because}", *do, *care])


def printable(text: str) -> str:
    """Text without the characters that XML 1.0 cannot hold."""
    return "".join(each for each in text if _is_xml(ord(each)))


def _is_xml(point: int) -> bool:
    return point in (0x9, 0xA, 0xD) or 0x20 <= point <= 0xD7FF or 0xE000 <= point <= 0xFFFD or point >= 0x10000
