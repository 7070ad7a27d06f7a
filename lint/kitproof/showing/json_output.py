"""Findings and numbers as JSON: stable keys, SI, nothing else on the stream."""

from __future__ import annotations

import json
import math
from collections.abc import Mapping, Sequence
from typing import Any

from msgspec import to_builtins

from kitproof.facts.values import Amount
from kitproof.proofing.figures import Figure
from kitproof.proofing.findings import Finding, Fix, Proof
from kitproof.proofing.numbers import RigNumbers
from kitproof.proofing.ordered import FromSupplier
from kitproof.proofing.worked import LARGEST, Worked
from kitproof.reading.document import Where
from kitproof.showing.ordered_text import ordered_json
from kitproof.words.dimensions import CHARGE, ENERGY, Dimension
from kitproof.words.units import SI_NAMES, UNITS

FINDINGS = "kitproof/findings/1"
NUMBERS = "kitproof/numbers/1"


def findings_json(proof: Proof) -> str:
    """A proof as JSON text; its schema ships as `showing/schemas/findings-1.json`."""
    return _dumped(
        {
            "schema": FINDINGS,
            "judged": proof.judged,
            "not_judged": proof.not_judged,
            "not_read": proof.not_read,
            "findings": [_finding(each) for each in proof.findings],
            "gone": list(proof.gone),
            "tally": to_builtins(proof.tally),
        }
    )


def numbers_json(rigs: Sequence[RigNumbers], orders: Sequence[FromSupplier] = ()) -> str:
    """The facts of rigs, and orders, as JSON text; its schema ships as `showing/schemas/numbers-1.json`."""
    return _dumped({"schema": NUMBERS, "rigs": [_rig(each) for each in rigs], "orders": ordered_json(orders)})


def _dumped(data: Mapping[str, Any]) -> str:
    return json.dumps(data, ensure_ascii=False, allow_nan=False, indent=2) + "\n"


def _finding(finding: Finding) -> dict[str, Any]:
    waived = finding.waived
    return {
        "rule": finding.rule,
        "grade": finding.grade,
        "counts_as": finding.counts_as,
        "outcome": finding.outcome,
        "list": finding.path,
        "issue": finding.issue,
        "subject": finding.subject,
        "title": finding.title,
        "where": where_json(finding.where),
        "see": [where_json(each) for each in finding.see],
        "says": finding.says,
        "because": finding.because,
        "caution": finding.caution or None,
        "missing": list(finding.missing),
        "combinations": to_builtins(finding.combinations) if finding.combinations else None,
        "facts": {name: amount_json(value, dimension) for name, (value, dimension) in finding.facts.items()},
        "fixes": [_fix(each) for each in finding.fixes],
        "also": [_finding(each) for each in finding.also],
        "waived": None
        if waived is None
        else {
            "because": waived.because,
            "by": waived.by,
            "until": waived.until.isoformat() if waived.until else None,
            "where": where_json(waived.where),
        },
        "known": finding.known,
        "counts": finding.counts,
        "fingerprint": finding.fingerprint,
    }


def _fix(fix: Fix) -> dict[str, Any]:
    changes = [{**where_json(each.where), "text": each.text} for each in fix.changes]
    return {"says": fix.says, "proved": fix.proved, "changes": changes}


def where_json(where: Where) -> dict[str, Any]:
    return {
        "path": where.path,
        "from": {"line": where.line, "column": where.column},
        "to": {"line": where.to_line, "column": where.to_column},
    }


def _rig(rig: RigNumbers) -> dict[str, Any]:
    return {
        "rig": rig.name,
        "path": rig.path,
        "of": rig.of,
        "combinations": [
            {
                "choice": dict(each.choice),
                "facts": {name: value_json(value, dimension) for name, (value, dimension) in each.facts.items()},
                "stages": [
                    {
                        "after": stage.after,
                        "facts": {
                            name: value_json(value, dimension) for name, (value, dimension) in stage.facts.items()
                        },
                    }
                    for stage in each.stages
                ],
                **({"worked": {how.fact.name: _worked(how) for how in each.worked}} if each.worked else {}),
            }
            for each in rig.combinations
        ],
    }


def _worked(how: Worked) -> dict[str, Any]:
    """How a number came about; `saved` is in the fact's own unit, null where the widest figure is not known at all."""
    dimension = how.fact.type.dimension
    widest = None
    if how.widest is not None and dimension is not None:
        saved = _number(how.saved, dimension) if how.saved < LARGEST else None
        widest = {"figure": how.widest.label, "saved": saved}
    return {
        "meaning": how.fact.says,
        "formula": how.fact.formula,
        "source": how.fact.source,
        "rests_on": [_figure(each) for each in how.rests_on],
        "widest": widest,
    }


def _figure(figure: Figure) -> dict[str, Any]:
    low, high = (_number(end, figure.dimension) for end in figure.ends)
    unit = SI_NAMES.get(figure.dimension, "SI")
    return {
        "figure": figure.label,
        "low": low,
        "high": high,
        "unit": unit,
        "said": figure.said,
        "where": where_json(figure.where),
    }


def value_json(value: Any, dimension: Dimension | None) -> dict[str, Any]:
    if isinstance(value, Amount) and dimension is not None:
        return amount_json(value, dimension)
    return {"text": value.text, "missing": list(value.missing)}


def amount_json(amount: Amount, dimension: Dimension) -> dict[str, Any]:
    """Low and high in SI (Wh for an energy, Ah for a charge); an end that is unknown or unbounded is null."""
    return {
        "low": _number(amount.low, dimension),
        "high": _number(amount.high, dimension),
        "unit": SI_NAMES.get(dimension, "SI"),
        "missing": list(amount.missing),
    }


def _number(value: float, dimension: Dimension) -> float | None:
    if not math.isfinite(value):
        return None
    return UNITS[SI_NAMES[dimension]].from_si(value) if dimension in (ENERGY, CHARGE) else value
