"""Findings that were known before: a record of one proof, held against the next, so that only what is new counts."""

from __future__ import annotations

import json
from collections.abc import Collection, Sequence
from typing import Literal

from msgspec.structs import replace
from pydantic import BaseModel, Field, ValidationError

from kitproof.proofing.findings import OUTCOMES, Finding, Proof
from kitproof.rulebook.settings import GRADES

SCHEMA = "kitproof/known/1"


class Known(BaseModel, frozen=True, strict=True):
    """One finding of a record."""

    fingerprint: str
    rule: str
    list: str
    subject: str
    outcome: str
    grade: str

    @property
    def words(self) -> str:
        return f"{self.rule} in {self.subject} of {self.list}"


class Record(BaseModel, frozen=True, strict=True):
    """A record as it is read back: what is not of this form is refused."""

    form: Literal["kitproof/known/1"] = Field(alias="schema")
    findings: tuple[Known, ...]


class BadRecordError(Exception):
    """A record that cannot be used; its text says why, in a person's words."""


def record(proof: Proof) -> str:
    """The findings of a proof as a record: what each is, and the fingerprint that it is known by. Waived ones are not
    recorded, since the waiver speaks for them."""
    entries = [_entry(each) for each in proof.findings if each.waived is None]
    return json.dumps({"schema": SCHEMA, "findings": entries}, ensure_ascii=False, indent=2) + "\n"


def _entry(finding: Finding) -> dict[str, str]:
    return {
        "fingerprint": finding.fingerprint,
        "rule": finding.rule,
        "list": finding.key,
        "subject": finding.subject,
        "outcome": finding.outcome,
        "grade": finding.counts_as,
        "says": finding.says,
    }


def read_record(text: str) -> tuple[Known, ...]:
    """The findings of a record. Raises BadRecordError where the text is no record."""
    try:
        return Record.model_validate_json(text).findings
    except ValidationError as error:
        raise BadRecordError(_wrong_with(error)) from error


def _wrong_with(error: ValidationError) -> str:
    first = error.errors(include_url=False)[0]
    match first["loc"]:
        case ("findings", int(index), *_):
            return f"its finding {index + 1} has no {' or no '.join(Known.model_fields)}"
        case () if first["type"] == "json_invalid":
            return "it is not JSON as --record writes it"
        case _:
            return f'it does not say "schema": "{SCHEMA}", as --record writes it'


def _no_worse(finding: Finding, known: Known | None) -> bool:
    """Whether a finding is one that was known, no graver and no more certain now than it was then."""
    if known is None or known.outcome not in OUTCOMES or known.grade not in GRADES:
        return False
    certain = OUTCOMES.index(finding.outcome) >= OUTCOMES.index(known.outcome)
    return certain and GRADES.index(finding.counts_as) >= GRADES.index(known.grade)


def against(proof: Proof, known: Sequence[Known], keys: Collection[str]) -> Proof:
    """The proof with known findings marked: they stay, and count for nothing, unless they have become graver or more
    certain than they were.

    `gone` names those that are no longer found in the lists proofed, whose keys are given; of others nothing is said.
    """
    marks = {each.fingerprint: each for each in known}
    findings = tuple(
        replace(each, known=True, counts=False) if _no_worse(each, marks.get(each.fingerprint)) else each
        for each in proof.findings
    )
    found = {each.fingerprint for each in proof.findings}
    gone = tuple(each.words for each in known if each.fingerprint not in found and each.list in keys)
    return replace(proof, findings=findings, gone=gone)
