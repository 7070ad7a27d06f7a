"""Two lists compared, as JSON: stable keys, SI, nothing else on the stream."""

from __future__ import annotations

import json
from typing import Any

from msgspec import to_builtins

from kitproof.comparing.compare import Compared, Comparison
from kitproof.comparing.findings import Stepped
from kitproof.comparing.numbers import Moved
from kitproof.facts.values import Amount
from kitproof.showing.json_output import amount_json, where_json

COMPARED = "kitproof/compared/1"


def compared_json(compared: Comparison) -> str:
    """A comparison as JSON text; its schema ships as `showing/schemas/compared-1.json`."""
    data = {
        "schema": COMPARED,
        "was": compared.was,
        "now": compared.now,
        "same": compared.same,
        "things": [_thing(each) for each in compared.things],
        "renamed": [{"was": was, "now": now} for was, now in compared.renamed.items()],
        "findings": {
            "changed": [_finding(each) for each in compared.findings.stepped],
            "stayed": compared.findings.stayed,
        },
    }
    return json.dumps(data, ensure_ascii=False, allow_nan=False, indent=2) + "\n"


def _thing(thing: Compared) -> dict[str, Any]:
    return {
        "kind": thing.kind,
        "was": thing.was,
        "now": thing.now,
        "differences": [to_builtins(each) for each in thing.differences],
        "numbers": [_number(each) for each in thing.numbers],
    }


def _number(moved: Moved) -> dict[str, Any]:
    return {"fact": moved.name, "was": _amount(moved, moved.was), "now": _amount(moved, moved.now)}


def _amount(moved: Moved, amount: Amount | None) -> dict[str, Any] | None:
    return None if amount is None else amount_json(amount, moved.dimension)


def _finding(stepped: Stepped) -> dict[str, Any]:
    found, was = stepped.finding, stepped.was
    return {
        "step": stepped.step,
        "rule": found.rule,
        "grade": found.grade,
        "outcome": found.outcome,
        "subject": found.subject,
        "title": found.title,
        "says": found.says,
        "where": where_json(found.where),
        "was": None if was is None else {"grade": was.grade, "outcome": was.outcome, "waived": was.waived is not None},
    }
