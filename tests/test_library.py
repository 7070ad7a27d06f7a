"""Kitproof as a library: the same as the command says, typed, silent, and from many threads at once."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

import kitproof
from kitproof import (
    HouseError,
    KitproofError,
    NoSuchListError,
    NoSuchRigError,
    ReadList,
    library,
    numbers,
    pair,
    proof,
    read,
)
from kitproof.command import main
from kitproof.showing.json_output import findings_json, numbers_json
from kitproof.showing.pairing_text import pairings_json
from tests.house.repository import ROOT

SAMPLES = ROOT / "samples"
DAY = date(2027, 3, 1)
ON = ("--on", DAY.isoformat(), "--as", "json")
ORDERS = sorted(SAMPLES.glob("*.kitlist"))
SEASON = sorted((SAMPLES / "season").glob("*.kitlist"))
UNTIDY = sorted((SAMPLES / "untidy").glob("*.kitlist"))
PROGRAM = SAMPLES / "from_a_program.py"

RULE = """\
title    "a part is heavy"
grade    note
about    part
limit    heavy 2 kg
fails    mass > heavy
says     "{name} is {mass}, more than {heavy}."
doubt    "whether {name} is heavy"
because  "Backs are not spare parts."
"""
TEXTS: dict[str, str | bytes] = {
    "orders/monday.kitlist": 'use "../stock.kitlist"\n\norder\n  1 x "Brack 7"\n\ncase "Bits"\n  holds "Brack 7"\n',
    "stock.kitlist": 'part monitor "Brack 7"\n  mass 3 kg\n',
    "kitproof.toml": 'rules = ["own"]\n[grades]\nheavy-part = "wrong"\n',
    "own/backs/heavy-part.rule": RULE,
}
MONDAY = "orders/monday.kitlist"


def told(*words: str | Path) -> str:
    """What the command prints."""
    result = CliRunner().invoke(main, [str(word) for word in words], catch_exceptions=False)
    assert result.stderr == ""
    return result.stdout


def rules_of(kitlist: ReadList, day: date = DAY) -> list[str]:
    return sorted(each.rule for each in proof(kitlist, day=day).findings)


# The same as the command


@pytest.mark.parametrize("path", ORDERS, ids=lambda path: path.stem)
def test_a_proof_is_the_command_s(path: Path) -> None:
    found = proof(read(path), day=DAY)
    assert findings_json(found) == told("proof", path, *ON)
    assert found.sends_back("wrong") == ("faults" in path.stem)


def test_numbers_are_the_command_s() -> None:
    path = SAMPLES / "nine-bells-mended.kitlist"
    found = numbers(read(path), day=DAY)
    assert found.orders
    assert numbers_json(found.rigs, found.orders) == told("numbers", path, *ON)


def test_numbers_worked_are_the_command_s(tmp_path: Path) -> None:
    path = tmp_path / "a.kitlist"
    path.write_text('rig A\n  head "Tollgate 16", 3 kg\n  camera "Quillon S2", about 4 kg\n', "utf-8")
    found = numbers(read(path), rig="A", day=DAY, worked=True)
    assert found.rigs[0].combinations[0].worked
    assert numbers_json(found.rigs) == told("numbers", path, "--worked", "--rig", "A", *ON)


def test_a_number_by_its_name() -> None:
    (rig,) = numbers(read("a", texts={"a": 'rig A\n  camera "Quillon S2", 4 kg\n'})).rigs
    (combination,) = rig.combinations
    carried = combination.amount("carried")
    assert carried is not None
    assert (carried.low, carried.high) == (4.0, 4.0)
    assert combination.amount("carryed") is None
    assert combination.amount("chart_kind") is None, "a word is no number"


def test_pairings_are_the_command_s() -> None:
    path = SAMPLES / "nine-bells-mended.kitlist"
    found = pair(read(path), rig="B", most=2, day=DAY)
    assert found[0].carries
    assert pairings_json([(str(path), found)]) == told("pair", path, "--rig", "B", "--most", "2", *ON)


def test_lists_beside_it_want_the_same_stock() -> None:
    season = [read(path) for path in SEASON]
    alone = {each.path for each in season if "promised-twice" in rules_of(each)}
    together = {each.path for each in season if _promised_twice(each, season)}
    assert alone == set()
    assert together


def _promised_twice(kitlist: ReadList, beside: list[ReadList]) -> bool:
    return any(each.rule == "promised-twice" for each in proof(kitlist, day=DAY, beside=beside).findings)


def test_what_goes_over_the_house_s_settings() -> None:
    path = SAMPLES / "nine-bells-faults.kitlist"
    found = read(path, retired=["slide-missing"], grades={"overload-at-height": "note"}, limits={"least_spare": "1 mm"})
    words = ("--retire", "slide-missing", "--grade", "overload-at-height", "note", "--limit", "least_spare", "1 mm")
    assert findings_json(proof(found, day=DAY)) == told("proof", path, *words, *ON)


def test_a_settings_file_and_rules_by_name(tmp_path: Path) -> None:
    (tmp_path / "ours.toml").write_text('retired = ["nothing-packed-for"]\n', "utf-8")
    (tmp_path / "own" / "backs").mkdir(parents=True)
    (tmp_path / "own" / "backs" / "heavy-part.rule").write_text(RULE, "utf-8")
    (tmp_path / "a.kitlist").write_text('part head "Tollgate 16"\n  mass 3 kg\n', "utf-8")
    found = read(tmp_path / "a.kitlist", house=tmp_path / "ours.toml", rules=[tmp_path / "own"])
    assert rules_of(found) == ["heavy-part"]
    assert list(found.book.retired) == ["nothing-packed-for"]


# Nothing but what is in memory


def test_a_tree_of_texts_is_read_as_the_same_files_are(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    in_memory = proof(read(MONDAY, texts=TEXTS), day=DAY)
    assert list(tmp_path.iterdir()) == []
    for name, text in TEXTS.items():
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
    assert in_memory == proof(read(MONDAY), day=DAY)
    assert [each.rule for each in in_memory.findings] == ["heavy-part"]
    assert in_memory.sends_back("wrong")


def test_a_text_that_is_not_there_is_a_finding() -> None:
    alone = {MONDAY: TEXTS[MONDAY]}
    assert "used-file-missing" in rules_of(read(MONDAY, texts=alone))
    assert "used-file-outside" in rules_of(read("monday.kitlist", texts={"monday.kitlist": TEXTS[MONDAY]}))


def test_what_a_list_uses_is_not_looked_at_again(tmp_path: Path) -> None:
    path = tmp_path / "a.kitlist"
    path.write_bytes((SAMPLES / "nine-bells-mended.kitlist").read_bytes())
    (tmp_path / "stock").mkdir()
    book = tmp_path / "stock" / "thrapley.kitlist"
    book.write_bytes((SAMPLES / "stock" / "thrapley.kitlist").read_bytes())
    found = read(path)
    before = pair(found, rig="B", most=1, day=DAY)
    book.write_text("", "utf-8")
    assert pair(found, rig="B", most=1, day=DAY) == before


# What cannot be done as asked


def test_each_error_says_what_is_wrong_and_the_nearest() -> None:
    with pytest.raises(NoSuchListError, match="The nearest here is"):
        read(SAMPLES / "nine-bells-mendd.kitlist")
    with pytest.raises(NoSuchListError, match=r'The nearest here is "monday\.kitlist"'):
        read("mondy.kitlist", texts={"monday.kitlist": ""})
    with pytest.raises(NoSuchListError, match=r"is a folder\. Name one list in it"):
        read(SAMPLES)
    with pytest.raises(NoSuchListError, match="names no text in the tree"):
        read("a", texts={"../a": ""})
    with pytest.raises(NoSuchRigError, match='The nearest is "A"'):
        numbers(read(SAMPLES / "nine-bells-mended.kitlist"), rig="AA")
    with pytest.raises(NoSuchRigError, match='There is no rig "A"'):
        pair(read(MONDAY, texts=TEXTS), rig="A")


def test_every_mistake_of_a_house_is_said_at_once() -> None:
    texts = {**TEXTS, "kitproof.toml": 'rules = ["owns"]\nretird = 1\n'}
    with pytest.raises(HouseError) as raised:
        read(MONDAY, texts=texts)
    assert [(each.path, each.line) for each in raised.value.mistakes] == [("kitproof.toml", 2)]
    assert "The nearest is retired." in str(raised.value)
    with pytest.raises(HouseError, match=r"there is no folder of rules owns. The nearest is own\."):
        read(MONDAY, texts={**TEXTS, "kitproof.toml": 'rules = ["owns"]\n'})


def test_a_mistake_in_what_the_program_asks_for_is_placed_there() -> None:
    with pytest.raises(HouseError, match=r"the call of read: there is no rule chart-rise\. The nearest is chart-rises"):
        read(MONDAY, texts=TEXTS, retired=["chart-rise"])
    with pytest.raises(HouseError, match="the call of read: there is no folder of rules owns"):
        read(MONDAY, texts=TEXTS, rules=["owns"])


def test_pairing_needs_a_list_that_can_be_tried_with_other_parts() -> None:
    wide = read("a", texts={"a": "rig A\n".encode("utf-16")})
    assert "not-utf-8" in rules_of(wide)
    with pytest.raises(KitproofError, match="Save it as UTF-8 text first"):
        pair(wide)
    with pytest.raises(KitproofError, match="Ask for 1 or more"):
        pair(read(MONDAY, texts=TEXTS), most=0)


@given(text=st.one_of(st.text(), st.binary(), st.text("rig head\"'\n  A1x kg,")))
def test_no_text_of_a_list_raises(text: str | bytes) -> None:
    found = read("a.kitlist", texts={"a.kitlist": text}, rules=(), retired=())
    proof(found, day=DAY)
    numbers(found, day=DAY)


# Silent, and from many threads at once


@pytest.fixture
def nothing_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("KITPROOF_KEEPS_IN", "")


def _all_of(path: Path) -> tuple[Any, ...]:
    found = read(path)
    return proof(found, day=DAY), numbers(found, day=DAY)


def _each(work: Callable[[Path], Any], paths: list[Path], threads: int) -> list[Any]:
    with ThreadPoolExecutor(threads) as pool:
        return list(pool.map(work, paths))


@pytest.mark.usefixtures("nothing_kept")
def test_many_threads_find_what_one_finds_in_different_lists() -> None:
    paths = [
        *SEASON[:2],
        *sorted((SAMPLES / "untidy").glob("*.kitlist"))[:4],
        SAMPLES / "house" / "lantern-row.kitlist",
    ]
    switched = sys.getswitchinterval()
    sys.setswitchinterval(1e-4)  # so that threads come between each other often
    try:
        at_once = _each(_all_of, paths, len(paths))
    finally:
        sys.setswitchinterval(switched)
    assert at_once == [_all_of(path) for path in paths]


def test_many_threads_may_share_one_list_and_what_is_kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("KITPROOF_KEEPS_IN", str(tmp_path / "kept"))
    path = SAMPLES / "nine-bells-faults.kitlist"
    assert len({findings_json(each[0]) for each in _each(_all_of, [path] * 3, 3)}) == 1
    shared = read(path)
    found = _each(lambda _: (proof(shared, day=DAY), pair(shared, rig="B", most=1, day=DAY)), [path] * 3, 3)
    assert found == [found[0]] * 3
    left = [name for name in os.listdir(tmp_path / "kept") if "." in name]
    assert left == [], "a file that was being written was left behind"


def test_threads_that_are_first_to_ask_find_the_same() -> None:
    """In a process of its own, where nothing is loaded yet: not even what reads unusual units."""
    code = (
        "from concurrent.futures import ThreadPoolExecutor\n"
        "from kitproof import proof, read\n"
        "text = 'part head \"H\"\\n  mass 250 oz\\n  height 3 hands\\n'\n"
        "work = lambda n: proof(read('a', texts={'a': text})).findings\n"
        "with ThreadPoolExecutor(4) as pool: found = list(pool.map(work, range(4)))\n"
        "assert all(each == found[0] for each in found)\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")


def test_nothing_is_printed(capfd: pytest.CaptureFixture[str]) -> None:
    found = read(SAMPLES / "house" / "lantern-row.kitlist")
    proof(found)
    numbers(found)
    pair(found, most=1)
    with pytest.raises(HouseError):
        read(MONDAY, texts={**TEXTS, "kitproof.toml": "retird = 1\n"})
    assert capfd.readouterr() == ("", "")


# As a program of another's sees it


def test_importing_the_package_loads_none_of_it() -> None:
    probe = (
        "import sys, kitproof; print(sorted(n for n in sys.modules if n.startswith('kitproof')), 'lark' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", probe], capture_output=True, text=True, check=True)
    assert done.stdout == "['kitproof'] False\n"


def test_what_is_offered_is_what_the_library_has() -> None:
    for name in kitproof.__all__:
        assert name == "__version__" or getattr(kitproof, name) is getattr(library, name)
    with pytest.raises(AttributeError, match="no attribute 'prof'"):
        print(kitproof.prof)  # type: ignore[attr-defined]  # that is the test


@pytest.fixture
def of_a_user(tmp_path: Path) -> Path:
    """A user's file that is typed with care."""
    path = tmp_path / "of_a_user.py"
    path.write_text(PROGRAM.read_text("utf-8"), "utf-8")
    return path


def _types(path: Path) -> tuple[int, str]:
    """What mypy says of a user's file, with no settings of ours."""
    words = [sys.executable, "-m", "mypy", "--strict", "--config-file", os.devnull, path.name]
    done = subprocess.run(words, cwd=path.parent, capture_output=True, text=True, check=False)
    return done.returncode, done.stdout


def test_a_user_s_program_is_typed(of_a_user: Path) -> None:
    assert _types(of_a_user) == (0, "Success: no issues found in 1 source file\n")


def test_a_user_s_mistakes_are_seen(of_a_user: Path) -> None:
    of_a_user.write_text(
        "from kitproof import proof, read\n"
        'proof("a.kitlist")\n'
        'proof(read("a.kitlist")).finding\n'
        'read("a.kitlist", grade={})\n'
        "from kitproof import prof\n",
        "utf-8",
    )
    status, said = _types(of_a_user)
    assert (status, said.count("error:")) == (1, 4), said
