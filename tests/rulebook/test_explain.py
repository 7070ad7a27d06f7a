"""Fixes in a person's words, and a rule in full."""

from __future__ import annotations

import pytest

from kitproof.facts.values import Held
from kitproof.rulebook.explain import explained, fix_words
from tests.rulebook.fakes import ENV, Fake, about, part, rig, rule, words

HEAD = part('"Fenner 12 head"', rated=about(12))


def told(fix: str, **values: Held) -> str | None:
    found = rule(fix=fix)
    return fix_words(found.fixes[0], rig(**values), ENV)


@pytest.mark.parametrize(
    ("fix", "says"),
    [
        (
            "choose head where load_share <= 100 %",
            "Choose another head, so that the load is at most 100 % of what the head holds there.",
        ),
        ("choose head", "Choose another head."),
        ("add lens_support where mates", "Add a lens support, so that mates."),
        ("add arm", "Add an arm."),
        ("pack head where carried < 23 kg", 'Pack "Fenner 12 head" in a case, so that '
         "carried is less than 23 kg."),
        ("order count(parts) + 1 of head", 'Order 2 x "Fenner 12 head".'),
        ("set cog_up to chart_top - 20 mm", "Set cog up to 130 mm."),
        ('set chart_kind to "chart"', "Set chart kind to chart."),
        ("remove head", 'Take out "Fenner 12 head".'),
        ("remove entry", "Take out rig A."),
        ("remove rig", "Take out rig A."),
        ('advise "Lower it below {chart_top}."', "Lower it below 150 mm."),
    ],
)  # fmt: skip
def test_a_fix_is_one_imperative(fix: str, says: str) -> None:
    assert told(fix, head=HEAD, parts=(HEAD,), chart_top=about(0.15)) == says


@pytest.mark.parametrize(
    ("condition", "says"),
    [
        ("cog_up <= chart_top", "at most the greatest height for which a load is given"),
        ("cog_up < max(20 mm, chart_top - 5 mm)", "less than the larger of 20 mm and chart top - 5 mm"),
    ],
)
def test_a_fix_names_no_fact_as_rules_write_it(condition: str, says: str) -> None:
    words = f"so that the height of the centre of gravity above the plate is {says}."
    assert told(f"choose head where {condition}", head=HEAD, chart_top=about(0.15)) == f"Choose another head, {words}"


def test_a_fix_that_takes_out_what_has_no_name_of_its_own_gives_it_an_article() -> None:
    fix = rule(fix="remove entry").fixes[0]
    assert fix_words(fix, Fake("waiver of rods-sag", "waiver"), ENV) == "Take out the waiver of rods-sag."


@pytest.mark.parametrize(
    ("fix", "values"),
    [
        ('advise "Write {note}."', {"note": words("")}),
        ('advise "Write {note}."', {"note": words(None, "note")}),
        ('advise "Lower it below {chart_top}."', {"chart_top": about(0, float("inf"), "chart")}),
        ('advise "Use {head}."', {}),
        ("set cog_up to chart_top", {}),
        ("order count(head.chart) of head", {}),
    ],
)
def test_an_advice_with_nothing_to_say_is_not_given(fix: str, values: dict[str, Held]) -> None:
    assert told(fix, **values) is None


def test_a_rule_in_full() -> None:
    found = explained(
        rule(
            "load_share > most",
            given="head is there",
            limit='most 100 %\nlimit    most 90 % from 2027-04-01 seen 2027-01-09 "the new law"',
            fix="choose head where load_share <= most",
            quiet='may fail where chart_kind = "none"',
            caution='"Keep a hand on {head}."',
            source='"statics"',
            once="heavy",
        )
    )
    assert (found.name, found.group, found.grade, found.title) == ("too-heavy", "support", "wrong", "too heavy")
    assert (found.given, found.fails) == (("head is there",), "load_share > most")
    assert found.fails_in_words == "load share is more than most"
    # With two values by their day, a limit is called by its name; with one, its value is said.
    assert found.fixes == ("Choose another head, so that the load is at most most of what the head holds there.",)
    single = explained(rule("load_share > most", limit="most 100 %", fix="choose head where load_share <= most"))
    assert single.fixes == ("Choose another head, so that the load is at most 100 % of what the head holds there.",)
    assert single.fails_in_words == "load share is more than 100 %"
    assert [(each.value, each.since, each.source) for each in found.limits] == [
        ("100 %", "", ""),
        ("90 %", "2027-04-01", "the new law"),
    ]
    assert found.quiet == ('may fail where chart_kind = "none"',)
    assert found.caution == ("Keep a hand on {head}.",)
    assert (found.source, found.once) == (("statics",), ("heavy",))
    assert ("load_share", "what load_share means") in found.terms
