"""The reference for rule authors says what the language has, and its examples are read by it."""

from __future__ import annotations

import logging
import re

import lark
import pytest

from kitproof.facts.fields import knows
from kitproof.facts.registry import FACTS
from kitproof.rulebook.actions import ACTIONS, SHAPES
from kitproof.rulebook.check import checked
from kitproof.rulebook.expressions import fill_units
from kitproof.rulebook.limit_lines import read_limits
from kitproof.rulebook.loading import load
from kitproof.rulebook.reader import WANTED, WORDS
from kitproof.rulebook.rulefile import lines_of
from kitproof.rulebook.scope import Scope
from kitproof.words.shipped import folder

REFERENCE = (folder("grammar") / "rules.md").read_text(encoding="utf-8")
GRAMMAR = (folder("grammar") / "expression.lark").read_text(encoding="utf-8")


def block(language: str) -> str:
    found = re.search(rf"```{language}\n(.*?)```", REFERENCE, re.DOTALL)
    assert found is not None
    return found[1]


def table(after: str) -> list[list[str]]:
    """The rows of the first table below a heading."""
    section = REFERENCE.split(f"## {after}\n")[1].split("\n## ")[0]
    rows = [line for line in section.splitlines() if line.startswith("|")]
    return [[cell.strip() for cell in row.strip("|").split("|")] for row in rows[2:]]


def test_the_grammar_has_no_conflict(caplog: pytest.LogCaptureFixture) -> None:
    """lark settles conflicts by itself and only says so in its log."""
    logger = lark.logger
    before = logger.level
    logger.addHandler(caplog.handler)
    logger.setLevel(logging.DEBUG)
    try:
        lark.Lark(GRAMMAR, parser="lalr", debug=True, edit_terminals=fill_units)
    finally:
        logger.setLevel(before)
        logger.removeHandler(caplog.handler)
    assert [record.getMessage() for record in caplog.records if "onflict" in record.getMessage()] == []


def test_the_example_rule_is_read_without_a_warning() -> None:
    found = load({"support/example.rule": block("rule")}, FACTS, knows=knows)
    assert list(found.rules) == ["example"]
    assert found.warnings == ()


def test_the_example_limits_are_read() -> None:
    limits, _, errors = read_limits(lines_of("support/limits", block("limits"))[0], "support")
    assert errors == []
    assert list(limits) == ["longest_journey", "charge_by_air", "longest_side"]


def test_every_word_has_its_row_and_no_other_has() -> None:
    rows = table("Words of a rule")
    assert {row[0].strip("`") for row in rows} == set(WORDS)
    assert {row[0].strip("`") for row in rows if row[2] == "yes"} == set(WANTED)


def test_every_action_has_its_row() -> None:
    assert [row[0].strip("`").split()[0] for row in table("Fixes")] == list(ACTIONS)
    assert set(SHAPES) == set(ACTIONS)


@pytest.mark.parametrize(
    "text",
    [
        "carried > 18 kg",
        "head.rated > 18 kg",
        "head.tag.insured > 3",
        'chart_kind = "chart"',
        "cog_up ≥ 150 mm and cog_up <= 200 mm or cog_up != 3 mm",
        "min(tilts) > -5° and max(carried, standing) > abs(standing - carried)",
        "tilts within head.tilt",
        'chart_kind is one of "chart", "single"',
        "carried is known and head is there",
        'any each in parts where each.kind = "lens"',
        'no each in parts where each.kind = "lens"',
        'count(parts) > count(each in parts where each.kind = "lens")',
    ],
)
def test_every_form_of_the_table_is_read(text: str) -> None:
    assert checked(text, Scope("rig", FACTS, knows), "truth")[1] == []
