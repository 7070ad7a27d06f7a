"""Rule files are held to one form and one way of speaking."""

from __future__ import annotations

import re

import pytest

from tests.house.repository import RULES, short, written_files
from tests.house.rule_text import GRADES, RuleText, rules

EVERY = pytest.mark.parametrize("rule", rules(), ids=lambda rule: f"{rule.group}/{rule.name}")
SPOKEN = ("title", "says", "doubt", "because", "caution", "fix")
# Words of programmers, and words that promise more than a check on paper can.
UNSAID = re.compile(r"\b(?:invalid|illegal|unexpected|tokens?|null|none type|parse\w*|syntax|clean|passed|ok)\b", re.I)
GROUPS = {"support", "balance", "mating", "standing", "lens", "power", "packing", "air", "order", "scope", "reading"}


def test_every_group_is_one_that_readers_know() -> None:
    groups = {rule.group for rule in rules()}
    assert groups
    assert groups - GROUPS == set()


def test_no_two_rules_share_a_name() -> None:
    names = [rule.name for rule in rules()]
    assert sorted(set(names)) == sorted(names)


@EVERY
def test_a_rule_has_both_its_examples(rule: RuleText) -> None:
    wanted = [rule.path.with_name(f"{rule.name}.{which}.kitlist") for which in ("fails", "holds")]
    assert [short(path) for path in wanted if not path.is_file()] == []


def test_no_example_is_without_its_rule() -> None:
    names = {(rule.group, rule.name) for rule in rules()}
    ends = (".fails.kitlist", ".holds.kitlist", ".toml")
    examples = [path for path in written_files("rules") if path.name.endswith(ends)]
    orphans = [short(path) for path in examples if (path.parent.name, path.name.split(".")[0]) not in names]
    assert orphans == []


def test_a_rule_stands_in_a_group_and_no_deeper() -> None:
    assert sorted(path for path in RULES.rglob("*.rule") if path.parent.parent != RULES) == []


@EVERY
def test_a_rule_says_all_it_must(rule: RuleText) -> None:
    missing = [word for word in ("title", "about", "fails", "says", "because", "fix", "source") if not rule.all(word)]
    assert missing == []
    assert rule.grade in GRADES


@EVERY
def test_a_title_is_a_headline(rule: RuleText) -> None:
    assert not rule.title.endswith("."), "a headline has no full stop"
    assert len(rule.title) <= 72, "a headline stands on one line"


@EVERY
def test_reasons_and_findings_are_whole_sentences(rule: RuleText) -> None:
    sentences = [*rule.said("because"), *rule.said("says"), *rule.said("caution")]
    assert [text for text in sentences if not text.endswith(".")] == []


@EVERY
def test_a_doubt_goes_on_from_whether(rule: RuleText) -> None:
    assert [text for text in rule.said("doubt") if not text.startswith("whether ") or text.endswith(".")] == []


@EVERY
def test_advice_is_one_imperative_sentence(rule: RuleText) -> None:
    advice = [text for rest in rule.all("fix") if rest.startswith("advise") for text in re.findall(r'"([^"]*)"', rest)]
    assert [text for text in advice if not (text[:1].isupper() and text.endswith("."))] == []


@EVERY
def test_a_rule_speaks_as_people_do(rule: RuleText) -> None:
    spoken = [text for word in SPOKEN for text in rule.said(word)]
    assert [text for text in spoken if UNSAID.search(re.sub(r"\{[^}]*\}", "", text))] == []


@EVERY
def test_a_source_is_never_empty(rule: RuleText) -> None:
    assert [text for text in rule.said("source") if len(text) < 8] == []
    assert rule.said("source")
