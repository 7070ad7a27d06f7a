"""What is printed for machines keeps to the schemas that ship, as an independent reader of schemas judges."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from jsonschema import Draft202012Validator, FormatChecker

from kitproof.command import main
from kitproof.facts.registry import FACTS
from kitproof.showing.schemas import FOLDER, schema
from kitproof.words.units import SI_NAMES
from tests.house.repository import ROOT, RULES, short
from tests.proofing.lists import book

NAMES = tuple(f"kitproof/{each}/1" for each in ("findings", "numbers", "questions", "rules", "compared", "pairings"))
LISTS = sorted([*(ROOT / "samples").rglob("*.kitlist"), *RULES.glob("*/*.fails.kitlist")])
MANY = [path for path in LISTS if path.is_relative_to(ROOT / "samples")]
RIGS = [path for path in sorted((ROOT / "samples").glob("*.kitlist")) if "\nrig " in path.read_text("utf-8")]
ON = ("--on", "2027-03-01", "--as", "json")
GRADES = ("stop", "wrong", "watch", "note")


@cache
def printed(*words: str) -> Any:
    """The JSON that the command prints; it must be all that it prints."""
    result = CliRunner().invoke(main, words, catch_exceptions=False)
    assert result.exit_code in (0, 1), result.output
    assert result.stderr == ""
    return json.loads(result.stdout)


def faults(data: Any) -> list[str]:
    """What the independent reader has to say against an output."""
    reader = Draft202012Validator(schema(data["schema"]), format_checker=FormatChecker())
    return [f"{fault.json_path}: {fault.message}" for fault in reader.iter_errors(data)]


@pytest.mark.parametrize("more", [(), ("--every",)])
def test_pairings_keep_to_their_schema(more: tuple[str, ...]) -> None:
    data = printed("pair", str(ROOT / "samples" / "nine-bells-mended.kitlist"), *more, *ON)
    assert faults(data) == []
    assert all(each["carries"] and each["turned_down"] and each["whole"] >= bool(more) for each in data["rigs"])


def findings_of(data: Any) -> list[Any]:
    return [each for top in data["findings"] for each in (top, *top["also"])]


@pytest.mark.parametrize("name", NAMES)
def test_a_schema_is_one_itself(name: str) -> None:
    Draft202012Validator.check_schema(schema(name))
    assert schema(name)["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert schema(name)["properties"]["schema"] == {"const": name}


def test_every_schema_that_ships_is_asked_for_by_its_name() -> None:
    assert sorted(path.name for path in FOLDER.iterdir()) == sorted(
        f"{name.removeprefix('kitproof/').replace('/', '-')}.json" for name in NAMES
    )


@pytest.mark.parametrize("name", ["findings/1", "kitproof/findings/2", "kitproof/../schemas/findings/1", ""])
def test_there_is_no_schema_of_another_name(name: str) -> None:
    with pytest.raises(KeyError):
        schema(name)


def objects(part: Any) -> list[Any]:
    """Every object in a schema that names its keys."""
    inside = part.values() if isinstance(part, dict) else part if isinstance(part, list) else []
    mine = [part] if isinstance(part, dict) and "required" in part else []
    return mine + [found for each in inside for found in objects(each)]


@pytest.mark.parametrize("name", NAMES)
def test_a_schema_lets_no_unknown_key_through(name: str) -> None:
    closed = objects(schema(name))
    assert closed
    assert [each for each in closed if each.get("additionalProperties") is not False] == []


@pytest.mark.parametrize("path", LISTS, ids=short)
def test_findings_keep_to_their_schema(path: Path) -> None:
    assert faults(printed("proof", str(path), *ON)) == []


@pytest.mark.parametrize("path", RIGS, ids=short)
@pytest.mark.parametrize("more", [(), ("--worked", "--every")], ids=["plain", "worked"])
def test_numbers_keep_to_their_schema(path: Path, more: tuple[str, ...]) -> None:
    assert faults(printed("numbers", str(path), *more, *ON)) == []


@pytest.mark.parametrize("path", sorted((RULES / "support").glob("*.fails.kitlist")), ids=short)
def test_questions_keep_to_their_schema(path: Path) -> None:
    assert faults(printed("questions", str(path), *ON)) == []


def test_rules_keep_to_their_schema() -> None:
    whole = printed("rules", "--as", "json")
    assert faults(whole) == []
    assert {each["name"] for each in whole["rules"]} == set(book().rules)
    assert faults(printed("why", "overload-at-height", "--as", "json")) == []


def test_a_key_too_many_or_too_few_is_a_fault() -> None:
    data = json.loads(json.dumps(printed("proof", str(RIGS[0]), *ON)))
    data["findings"][0]["colour"] = "red"
    assert faults(data)
    del data["findings"][0]["colour"]
    assert faults(data) == []
    del data["findings"][0]["because"]
    assert faults(data)


@pytest.mark.parametrize("path", LISTS, ids=short)
def test_every_fact_is_in_the_unit_of_its_dimension(path: Path) -> None:
    for each in findings_of(printed("proof", str(path), *ON)):
        rule = book().rules.get(each["rule"])
        subjects = [rule.about] if rule is not None else list(FACTS)  # a house's own rule may be about anything
        for name, amount in each["facts"].items():
            dimensions = {FACTS[about][name].type.dimension for about in subjects if name in FACTS[about]}
            units = {SI_NAMES[dimension] for dimension in dimensions if dimension is not None}
            assert amount["unit"] in units, f"{each['rule']}: {name}"


@pytest.mark.parametrize("path", RIGS, ids=short)
def test_every_number_is_in_the_unit_of_its_dimension(path: Path) -> None:
    rigs = printed("numbers", str(path), *ON)["rigs"]
    facts = [item for rig in rigs for combination in rig["combinations"] for item in combination["facts"].items()]
    assert len(facts) > 20
    for name, value in facts:
        dimension = FACTS["rig"][name].type.dimension
        assert value.get("unit") == (None if dimension is None else SI_NAMES[dimension]), name


@pytest.mark.parametrize("path", LISTS, ids=short)
def test_the_tally_is_the_sum_of_the_findings(path: Path) -> None:
    data = printed("proof", str(path), *ON)
    plain = [each for each in data["findings"] if each["waived"] is None and not each["known"]]
    told = [each for each in plain if each["outcome"] != "cannot tell"]
    counted = {grade: sum(each["counts_as"] == grade for each in told) for grade in GRADES}
    assert {grade: data["tally"][grade] for grade in GRADES} == counted
    assert data["tally"]["cannot_tell"] == len(plain) - len(told)


@pytest.mark.parametrize("path", MANY, ids=short)
def test_a_place_is_where_its_text_stands(path: Path) -> None:
    lines = path.read_bytes().decode("utf-8", "replace").splitlines()
    for each in findings_of(printed("proof", str(path), *ON)):
        where = each["where"]
        if where["path"] != str(path):
            continue
        first, last = where["from"], where["to"]
        assert (first["line"], first["column"]) <= (last["line"], last["column"])
        assert last["column"] <= len(lines[last["line"] - 1]) + 1 if lines else last["column"] == 1
