"""The samples mended: what was planted is gone where it can be, and nothing else is touched."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from kitproof.mending.layout import neatened
from kitproof.mending.mend import mended
from kitproof.reading.characters import plain, split_lines
from kitproof.rulebook.settings import GRADES
from tests.mending.grounds import FAULTS, SAMPLES, mended_sample, sample
from tests.proofing.lists import book, everything, marks

EXCEPTIONS = tomllib.loads((Path(__file__).parent / "exceptions.toml").read_text("utf-8"))["fault"]
EDITED = [rule for rule in book().rules.values() if any(each.word != "advise" for each in rule.fixes)]
CLEARED = {
    "second-unit-faults": {
        "counterbalance-too-strong",
        "counterbalance-too-weak",
        "fall-may-tip",
        "feet-may-slide",
        "front-diameter-differs",
        "image-circle-small",
        "lens-unsupported",
        "rods-sag",
        "slide-no-spare",
    },
    "islands-flight-faults": {"charge-too-high", "packed-charge-too-high", "spares-in-hold", "terminals-bare"},
}
"""What is planted in the other samples and gone once they are mended, at least. For most of the rest their stock has no
part that will do, or a person has to settle it."""

pytestmark = pytest.mark.xdist_group("mended samples")  # so that each is mended once


def planted(name: str) -> set[tuple[str, str]]:
    """The rules of the faults that are planted in a sample, each with the subject that it finds them in."""
    at = set(marks(SAMPLES / f"{name}.kitlist", "planted"))
    before = everything(sample(SAMPLES / f"{name}.kitlist").examined.proof.findings)
    return {(each.rule, each.subject) for each in before if (each.where.line, each.rule) in at}


def found(name: str) -> set[tuple[str, str]]:
    """What is still found in a sample once it is mended."""
    after = everything(mended_sample(name).ground.examined.proof.findings)
    return {(each.rule, each.subject) for each in after}


def test_every_planted_fault_of_the_sample_order_is_cleared_whose_rule_has_an_editing_fix() -> None:
    left = {rule for rule, _ in planted("nine-bells-faults") & found("nine-bells-faults")}
    assert left & {rule.name for rule in EDITED} == {each["rule"] for each in EXCEPTIONS}
    assert len(EXCEPTIONS) <= 3
    assert all(each["because"] for each in EXCEPTIONS)


@pytest.mark.parametrize("name", CLEARED)
def test_in_the_other_samples_this_much_is_cleared(name: str) -> None:
    assert {rule for rule, _ in planted(name) - found(name)} >= CLEARED[name]


@pytest.mark.parametrize("name", FAULTS)
def test_no_fault_comes_that_was_not_there(name: str) -> None:
    before = {each.rule for each in everything(sample(SAMPLES / f"{name}.kitlist").examined.proof.findings)}
    came = [each for each in everything(mended_sample(name).ground.examined.proof.findings) if each.rule not in before]
    assert [each.rule for each in came if GRADES.index(each.grade) < GRADES.index("note")] == []


@pytest.mark.parametrize("name", CLEARED)
def test_twice_is_the_same_as_once(name: str) -> None:
    again = mended(sample(SAMPLES / f"{name}.kitlist", mended_sample(name).ground.file.text.encode()))
    assert again.done == ()
    assert again.ground.file.text == mended_sample(name).ground.file.text


def comments(text: str) -> list[str]:
    lines = split_lines(text)[0]
    return [line[plain(line).end :].strip() for line in lines if line[plain(line).end :].strip()]


@pytest.mark.parametrize("name", FAULTS)
def test_every_comment_stays(name: str) -> None:
    was = (SAMPLES / f"{name}.kitlist").read_text("utf-8")
    assert comments(mended_sample(name).ground.file.text) == comments(was)


@pytest.mark.parametrize("name", FAULTS)
def test_only_lines_that_a_fix_speaks_of_are_touched(name: str) -> None:
    """As many lines change as there are changes in the fixes, and the others keep their place."""
    was = split_lines((SAMPLES / f"{name}.kitlist").read_text("utf-8"))[0]
    now = split_lines(mended_sample(name).ground.file.text)[0]
    changes = sum(len(done.fix.changes) for done in mended_sample(name).done)
    assert 0 < len(set(was) - set(now)) <= changes
    assert [line for line in was if line in now and line.strip()] == [
        line for line in now if line in was and line.strip()
    ] or len(was) != len(set(was))


@pytest.mark.parametrize("name", FAULTS)
def test_a_mended_sample_is_as_neat_as_it_was(name: str) -> None:
    assert neatened((SAMPLES / f"{name}.kitlist").read_text("utf-8")) == (SAMPLES / f"{name}.kitlist").read_text(
        "utf-8"
    )
    assert neatened(mended_sample(name).ground.file.text) == mended_sample(name).ground.file.text


@pytest.mark.parametrize("name", ["islands-flight-faults", "second-unit-faults"])
def test_neatening_and_mending_may_be_done_in_either_order(name: str) -> None:
    path = SAMPLES / f"{name}.kitlist"
    text = path.read_text("utf-8").replace("  holds     ", " holds ").replace(", ", " ,").replace("\n\n", "\n\n\n")
    first_neat = mended(sample(path, neatened(text).encode()))
    first_mended = mended(sample(path, text.encode()))
    assert len(first_mended.done) == len(first_neat.done) > 0
    assert neatened(first_mended.ground.file.text) == first_neat.ground.file.text
