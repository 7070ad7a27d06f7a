"""Every rule proves itself: its first example has what it finds, at the line marked for it, and its second has not.

`# found here` ends the line at which a rule must find something; a rule about a used file is found at its `use`.
What else an example gives at `wrong` or above must be declared in it, on a line `# also found: rule, rule`, so that
an example is about its own rule and shows nothing by chance. A rule that rests on what a house sets has a settings
file beside it, `NAME.toml`, which holds for both its examples; one that rests on another list has that list beside it,
`NAME.beside.kitlist`, and both its examples are proofed together with it.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from kitproof.proofing.findings import Finding
from kitproof.rulebook.conditions import asked_words, condition_words
from tests.house.repository import RULES
from tests.proofing.lists import book, book_with, everything, marks, proofed_together, read

# By group: the rules that Kitproof must have.
WANTED = {
    "air": {
        "bag-over-advised",
        "bag-too-heavy",
        "bag-too-large",
        "battery-needs-approval",
        "battery-too-large",
        "charge-too-high",
        "packed-charge-too-high",
        "spares-in-hold",
        "terminals-bare",
        "too-many-spares",
    },
    "balance": {
        "heavy-to-one-side",
        "slide-missing",
        "slide-no-spare",
        "slide-out-of-reach",
        "stage-out-of-balance",
    },
    "lens": {"lens-unsupported", "rods-sag"},
    "mating": {
        "bowl-size-differs",
        "front-diameter-differs",
        "image-circle-small",
        "quick-release-two-step",
        "rods-differ",
        "screw-size-differs",
        "seat-does-not-mate",
        "slide-width-differs",
    },
    "order": {"companion-missing", "ordered-not-used", "promised-twice", "too-few-for-rigs", "used-not-ordered"},
    "packing": {
        "camera-left-on",
        "case-overweight",
        "case-too-small",
        "head-packed-tilted",
        "head-packed-under-tension",
        "head-with-own-case-on-sticks",
        "lift-too-heavy",
        "nothing-packed-for",
        "pan-bar-bound",
        "slide-left-on",
    },
    "power": {
        "battery-plate-differs",
        "cold-day",
        "draw-over-battery",
        "runtime-short",
        "voltage-outside",
    },
    "reading": {
        "circular-use",
        "defined-twice",
        "figures-contradict",
        "impossible-mass",
        "list-named-twice",
        "no-unit",
        "not-utf-8",
        "nothing-listed",
        "number-misread",
        "older-issue",
        "pounds-taken-for-kilograms",
        "unknown-part",
        "unknown-word",
        "unreadable-line",
        "used-file-missing",
        "used-file-outside",
        "waiver-not-allowed",
        "waiver-of-nothing-known",
        "waiver-out-of-date",
        "waiver-unused",
        "wrong-unit",
    },
    "scope": {"outside-this-proof"},
    "standing": {
        "ballast-short",
        "fall-may-tip",
        "feet-may-slide",
        "left-standing-unbalanced",
        "legs-beyond-range",
        "overturns-in-wind",
        "tips-on-slope",
        "tips-when-tilted",
        "wind-over-limit",
    },
    "support": {
        "chart-rises",
        "counterbalance-too-strong",
        "counterbalance-too-weak",
        "drag-cannot-hold",
        "head-for-lock-as-drag",
        "off-the-chart",
        "overload-at-height",
        "stack-overloaded",
        "sticks-overloaded",
        "tilt-beyond-head",
        "uncharted-no-margin",
    },
}

PATHS = sorted(RULES.rglob("*.rule"))
EVERY = pytest.mark.parametrize("rule", PATHS, ids=lambda path: f"{path.parent.name}/{path.stem}")


def example(rule: Path, which: str) -> Path:
    return rule.with_name(f"{rule.stem}.{which}.kitlist")


def shown(rule: Path, which: str) -> tuple[Finding, ...]:
    """What is found in an example; where a settings file stands beside the rule, by what it sets."""
    settings = rule.with_suffix(".toml")
    by = book_with(settings) if settings.exists() else book()
    there = [path for path in (example(rule, which), example(rule, "beside")) if path.exists()]
    return proofed_together([read(path) for path in there], by)[0].findings


def test_every_rule_that_was_asked_for_is_there() -> None:
    have = {group: {path.stem for path in (RULES / group).glob("*.rule")} for group in WANTED}
    assert {group: names - have[group] for group, names in WANTED.items() if names - have[group]} == {}


def test_the_book_has_every_rule_file() -> None:
    assert set(book().rules) == {path.stem for path in PATHS}


@EVERY
def test_a_rule_finds_its_example_that_fails(rule: Path) -> None:
    path = example(rule, "fails")
    found = [each for each in shown(rule, "fails") if each.rule == rule.stem]
    lines = [line for line, _ in marks(path, "found here")]
    assert lines, "the example must mark the line"
    assert sorted({each.where.line for each in found}) == sorted(set(lines))
    assert {each.where.path for each in found} == {str(path)}
    assert {each.outcome for each in found} == {"fails"}


@EVERY
def test_a_rule_is_silent_about_its_example_that_holds(rule: Path) -> None:
    path = example(rule, "holds")
    assert marks(path, "found here") == []
    found = [each for each in everything(shown(rule, "holds")) if each.rule == rule.stem]
    assert [(each.outcome, each.where.line, each.says) for each in found] == []


@EVERY
@pytest.mark.parametrize("which", ["fails", "holds"])
def test_an_example_shows_nothing_else_unsaid(rule: Path, which: str) -> None:
    path = example(rule, which)
    declared = {name for _, name in marks(path, "also found")}
    found = [each for each in everything(shown(rule, which)) if each.grade in ("stop", "wrong")]
    assert {each.rule for each in found if not each.quiet} - {rule.stem} == declared


@EVERY
def test_a_finding_says_something_whole(rule: Path) -> None:
    """No hole of a message is left open, and something to do is said."""
    found = [each for each in shown(rule, "fails") if each.rule == rule.stem]
    for each in found:
        told = [each.title, each.says, each.because, *(fix.says for fix in each.fixes)]
        assert [text for text in told if not text or "{" in text or "}" in text] == []
        assert each.fixes


@EVERY
def test_a_fix_names_no_fact_as_rules_write_it(rule: Path) -> None:
    """What it asks for has words in `facts/wordings.py`; else the names of facts would be printed as they are."""
    asked = [fix.where for fix in book().rules[rule.stem].fixes if fix.where is not None]
    assert [each.text for each in asked if asked_words(each) == condition_words(each)] == []


def test_no_rule_is_about_a_subject_that_nothing_is_judged_for() -> None:
    judged = {"rig", "stage", "joint", "part", "figure", "packed", "case", "move", "line", "item", "waiver", "slip"}
    assert {rule.about for rule in book().rules.values()} - judged == set()
