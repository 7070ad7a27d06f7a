"""Findings as SARIF 2.1.0, the form in which checks of all kinds hand results to the services that show them.

Columns are in UTF-16 code units, as `columnKind` says. Fixes are the edits that were proved; a waiver is a suppression
in the source, a finding that was known before one outside it.
"""

from __future__ import annotations

import json
import re
from pathlib import PurePath
from typing import Any
from urllib.parse import quote

from kitproof import __version__
from kitproof.proofing.findings import Change, Finding, Fix
from kitproof.reading.document import Where
from kitproof.rulebook.explain import Explained, explained
from kitproof.showing.shown import Shown, waits
from kitproof.showing.wording import also, found, headline, to_do, waiver_words

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
LEVELS = {"stop": "error", "wrong": "error", "watch": "warning", "note": "note"}
HOLE = re.compile(r"\{(?:([a-z_.]+)(?: in [^{}]*)?|[^{}]*)\}")
FINGERPRINT = "kitproofFinding/v1"


def sarif(shown: Shown) -> str:
    """A proof as one SARIF run."""
    names = list(dict.fromkeys(each.rule for each in shown.proof.findings))
    rules = [_rule(shown, each) for each in names]
    run = {
        "tool": {"driver": {"name": "Kitproof", "version": __version__, "rules": rules}},
        "columnKind": "utf16CodeUnits",
        "artifacts": [{"location": _uri(shown, path), "encoding": "utf-8"} for path in shown.lines],
        "results": [_result(shown, each, names.index(each.rule)) for each in shown.proof.findings],
        "properties": {
            "judged": shown.proof.judged,
            "notJudged": shown.proof.not_judged,
            "notRead": shown.proof.not_read,
            "lists": list(shown.headings.values()),
        },
    }
    whole = {"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}
    return json.dumps(whole, ensure_ascii=False, allow_nan=False, indent=2) + "\n"


def _rule(shown: Shown, name: str) -> dict[str, Any]:
    told = explained(shown.rules[name])
    return {
        "id": name,
        "shortDescription": {"text": without_holes(told.title)},
        "fullDescription": {"text": without_holes(told.because)},
        "help": {"text": "\n\n".join(_help(told)), "markdown": "\n\n".join(_help(told, mark="**"))},
        "defaultConfiguration": {"level": LEVELS[told.grade]},
        "properties": {"grade": told.grade, "tags": [told.group]},
    }


def _help(told: Explained, mark: str = "") -> list[str]:
    """A rule's help in paragraphs, each with a word before it: what is found, why it matters, what to do.

    Its holes, `{load_share in %}`, are filled for a list only, and braces mean something else here: they become words.
    """
    said = [
        ("Found", told.title),
        ("Why", told.because),
        *(("Do", each) for each in told.fixes[:1]),
        *(("Or", each) for each in told.fixes[1:]),
        *(("Care", each) for each in told.caution),
        *(("Source", each) for each in told.source),
        ("In full", f"kitproof why {told.name}"),
    ]
    return [f"{mark}{word}:{mark} {without_holes(text)}" for word, text in said]


def without_holes(text: str) -> str:
    return HOLE.sub(lambda match: re.sub(r"[_.]", " ", match[1]) if match[1] else "…", text)


def _result(shown: Shown, finding: Finding, number: int) -> dict[str, Any]:
    waiting = waits(finding)
    result: dict[str, Any] = {
        "ruleId": finding.rule,
        "ruleIndex": number,
        # What cannot be told is open, and SARIF gives a level to failures only.
        "kind": "open" if waiting else "fail",
        "level": "none" if waiting else LEVELS[finding.counts_as],
        "message": {"text": _message(finding)},
        "locations": [{**_place(shown, finding.where), "logicalLocations": [{"name": finding.subject}]}],
        "partialFingerprints": {FINGERPRINT: finding.fingerprint},
        "properties": {
            "grade": finding.counts_as,
            "outcome": finding.outcome,
            "list": finding.path,
            "issue": finding.issue,
            "missing": list(finding.missing),
        },
    }
    if finding.see:
        see = [{"id": count, **_place(shown, each)} for count, each in enumerate(finding.see, 1)]
        result["relatedLocations"] = see
    fixes = [_fix(shown, each) for each in finding.fixes if each.proved and each.changes]
    if fixes:
        result["fixes"] = fixes
    suppressions = _suppressions(shown, finding)
    if suppressions:
        result["suppressions"] = suppressions
    return result


def _message(finding: Finding) -> str:
    """One line: what is wrong, how it shows, what else stands behind it, and what to do."""
    words = [f"{headline(finding)}.", found(finding), *(f"Also: {each}" for each in also(finding))]
    return " ".join([*words, *to_do(finding)])


def _suppressions(shown: Shown, finding: Finding) -> list[dict[str, Any]]:
    marks: list[dict[str, Any]] = []
    if finding.waived is not None:
        place = _place(shown, finding.waived.where)
        why = f"waived{waiver_words(finding.waived)}"
        marks.append({"kind": "inSource", "status": "accepted", "justification": why, "location": place})
    if finding.known:
        marks.append({"kind": "external", "status": "accepted", "justification": "known before"})
    return marks


def _fix(shown: Shown, fix: Fix) -> dict[str, Any]:
    files = dict.fromkeys(each.where.path for each in fix.changes)
    return {
        "description": {"text": fix.says},
        "artifactChanges": [
            {
                "artifactLocation": _uri(shown, path),
                "replacements": [_replacement(shown, each) for each in fix.changes if each.where.path == path],
            }
            for path in files
        ],
    }


def _replacement(shown: Shown, change: Change) -> dict[str, Any]:
    return {"deletedRegion": _region(shown, change.where), "insertedContent": {"text": change.text}}


def _place(shown: Shown, where: Where) -> dict[str, Any]:
    return {
        "physicalLocation": {"artifactLocation": _uri(shown, where.path), "region": _region(shown, where)},
    }


def _region(shown: Shown, where: Where) -> dict[str, int]:
    start, end = shown.utf16(where)
    return {"startLine": where.line, "startColumn": start, "endLine": where.to_line, "endColumn": end}


def _uri(shown: Shown, path: str) -> dict[str, str]:
    """A file by its name from the top of the repository; one named from the root of the machine by all of that."""
    name = shown.path(path)
    data = name.encode("utf-8", "surrogateescape")
    start = "file://" if name.startswith("/") else "file:///" if PurePath(name).drive else ""
    return {"uri": start + quote(data)}
