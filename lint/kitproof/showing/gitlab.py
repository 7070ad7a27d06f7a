"""Findings as a code quality report of GitLab: an array of objects, each with a fingerprint of its own.

What is waived or known before is left out; what waits for an answer is information, unless it sends a list back.
"""

from __future__ import annotations

import hashlib
import json
from collections import Counter
from typing import Any

from kitproof.proofing.findings import Finding
from kitproof.showing.shown import Shown, live, waits
from kitproof.showing.wording import found, headline

SEVERITIES = {"stop": "blocker", "wrong": "major", "watch": "minor", "note": "info"}


def code_quality(shown: Shown) -> str:
    """A proof as a code quality report."""
    findings = [each for each in shown.proof.findings if live(each)]
    seen: Counter[str] = Counter()
    done = []
    for each in findings:
        name = f"{shown.path(each.path)}\n{each.fingerprint}"
        seen[name] += 1
        done.append(_issue(shown, each, f"{name}\n{seen[name]}"))
    return json.dumps(done, ensure_ascii=False, indent=2) + "\n"


def _issue(shown: Shown, finding: Finding, name: str) -> dict[str, Any]:
    """One finding. A list's fingerprints are its own; those of two lists are told apart by where the lists lie."""
    issue = f" (issue {finding.issue} of the list)" if finding.issue is not None else ""
    return {
        "description": f"{headline(finding)}. {found(finding)}{issue}",
        "check_name": finding.rule,
        "fingerprint": hashlib.sha256(name.encode(errors="surrogateescape")).hexdigest()[:32],
        "severity": "info" if waits(finding) else SEVERITIES[finding.counts_as],
        "location": {
            "path": shown.path(finding.where.path),
            "lines": {"begin": finding.where.line, "end": finding.where.to_line},
        },
    }
