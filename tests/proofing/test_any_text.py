"""Whatever is typed, nothing is raised: it is read, proofed and shown. And `?` never makes a list look better."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from kitproof.files import fetcher
from kitproof.model.kitlist import KitList
from kitproof.model.making import make_list
from kitproof.model.sources import gather
from kitproof.proofing.findings import Proof, together
from kitproof.proofing.numbers import numbers
from kitproof.proofing.proof import setting_of, units_of
from kitproof.showing.json_output import findings_json, numbers_json
from kitproof.showing.numbers_text import numbers_lines
from kitproof.showing.text import plain, proof_lines
from tests.house.repository import ROOT, RULES, short
from tests.proofing.lists import DAY, book, proofed, read, read_bytes

SAMPLES = ROOT / "samples"
FAULTS = SAMPLES / "nine-bells-faults.kitlist"
SMALL = sorted(RULES.glob("*/*.fails.kitlist"))
TEXTS = [path.read_bytes().decode("utf-8", "replace") for path in SMALL]
WORDS = sorted({word for text in TEXTS for word in text.split()})


def shown(kitlist: KitList) -> Proof:
    """A list proofed and shown in every way; gives the proof."""
    whole = proofed(kitlist)
    text = plain(proof_lines(whole, lambda where: "", [kitlist.path], "wrong"))
    assert max(map(len, text.splitlines())) <= 80
    assert json.loads(findings_json(whole))["judged"] == whole.judged
    setting = setting_of(kitlist, book(), DAY)
    rigs = [numbers(setting, each) for each in kitlist.rigs]
    json.loads(numbers_json(rigs))
    plain(numbers_lines(rigs, units_of(kitlist, book()), kitlist.path))
    return whole


lines = st.sampled_from([line for text in TEXTS for line in text.splitlines()])
snippets = st.one_of(
    st.sampled_from(WORDS),
    st.sampled_from(
        ["?", ",", '"', " or ", "\t", "\0", "±", "..", "up to ", "about ", "1e999", "-", "\n  ", "°", "none"]
    ),
    st.text(max_size=6),
    st.integers(-(10**9), 10**30).map(str),
)


@st.composite
def mutated(draw: st.DrawFn, text: str) -> str:
    """A list with a few lines and characters taken out, put in or changed."""
    rows = text.split("\n")
    for _ in range(draw(st.integers(1, 6))):
        row = draw(st.integers(0, len(rows) - 1))
        match draw(st.sampled_from(["out", "in", "twice", "swap", "word", "cut"])):
            case "out" if len(rows) > 1:
                del rows[row]
            case "in":
                rows.insert(row, draw(lines))
            case "twice":
                rows.insert(row, rows[row])
            case "swap":
                other = draw(st.integers(0, len(rows) - 1))
                rows[row], rows[other] = rows[other], rows[row]
            case _:
                start = draw(st.integers(0, len(rows[row])))
                end = draw(st.integers(start, min(len(rows[row]), start + 12)))
                rows[row] = rows[row][:start] + draw(snippets) + rows[row][end:]
    return "\n".join(rows)


@given(st.sampled_from(TEXTS).flatmap(mutated))
@settings(max_examples=300)
def test_a_small_list_typed_wrongly_never_raises(text: str) -> None:
    shown(read_bytes(text.encode("utf-8", "replace")))


@given(mutated(FAULTS.read_text("utf-8")))
@settings(max_examples=20)
def test_a_whole_order_typed_wrongly_never_raises(text: str) -> None:
    real = FAULTS.resolve()
    shown(make_list(gather(str(FAULTS), str(real), text.encode("utf-8", "replace"), fetcher(real.parent))))


@given(st.binary(max_size=200))
@example(b"\xff\xfe")
@example(b"\xef\xbb\xbf")
def test_bytes_of_any_kind_never_raise(data: bytes) -> None:
    shown(read_bytes(data))


@given(st.lists(st.one_of(lines, st.sampled_from(WORDS)), max_size=30).map("\n".join))
def test_lines_in_any_order_never_raise(text: str) -> None:
    shown(read_bytes(text.encode()))


FIELD = re.compile(r"^(?P<word>  (?:mass|height|cog)\s+)(?P<value>[^#\n]+?)(?P<rest>\s*#.*)?$", re.MULTILINE)
SENT_BACK = [path for path in SMALL if path.parent.name != "reading" and proofed(read(path)).sends_back("wrong")]


@pytest.mark.parametrize("path", SENT_BACK, ids=short)
def test_a_question_mark_never_makes_a_list_look_better(path: Path) -> None:
    """For each mass, height and place at a time, and for all of them. (What was misread itself is another matter.)"""
    text = path.read_text("utf-8")
    found = list(FIELD.finditer(text))
    variants = [text[: each.start("value")] + "?" + text[each.end("value") :] for each in found]
    variants.append(FIELD.sub(r"\g<word>?\g<rest>", text))
    better = [each for each in variants if not proofed(read_bytes(each.encode())).sends_back("wrong")]
    assert better == []


WIDER = re.compile(r"^(?P<word>  (?:mass|height)\s+)(?P<number>[\d.]+) (?P<unit>kg|mm)\b", re.MULTILINE)


@pytest.mark.parametrize("path", SENT_BACK, ids=short)
@pytest.mark.parametrize("doubt", ["± 10 %", "± 60 %"])
def test_doubt_never_makes_a_list_look_better(path: Path, doubt: str) -> None:
    text = path.read_text("utf-8")
    wider = WIDER.sub(rf"\g<word>\g<number> \g<unit> {doubt}", text)
    assert wider != text or not WIDER.search(text)
    assert proofed(read_bytes(wider.encode())).sends_back("wrong")


def test_there_are_lists_to_try_that_on() -> None:
    assert len(SENT_BACK) > 10


def test_lists_proofed_together_are_shown_as_one() -> None:
    proofs = [shown(read(path)) for path in SMALL[:6]]
    whole = together(proofs)
    assert whole.judged == sum(each.judged for each in proofs)
    assert {each.rule for each in whole.findings} == {each.rule for proof in proofs for each in proof.findings}
