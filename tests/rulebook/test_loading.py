"""Rule files: all mistakes of all files at once, at their places; limits, covers, old names, and what a house sets."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date

import pytest

from kitproof.facts.fact import HouseNumber
from kitproof.facts.values import Truth
from kitproof.rulebook.compile import Env
from kitproof.rulebook.errors import BadRules, RuleError
from kitproof.rulebook.loading import load
from kitproof.rulebook.rules import RuleBook
from kitproof.rulebook.settings import Settings
from kitproof.words.dimensions import LENGTH, TIME
from tests.rulebook.fakes import ENV, VOCABULARY, Fake, about, book, knows, part, rig, rule, rule_text, words


def mistakes(files: Mapping[str, str], house: Settings | None = None) -> tuple[RuleError, ...]:
    with pytest.raises(BadRules) as caught:
        load(files, VOCABULARY, knows=knows, house=house or Settings())
    return caught.value.errors


def said(text: str) -> list[str]:
    return [each.says for each in mistakes({"support/too-heavy.rule": text})]


EXAMPLE = """\
# A head and what it carries.
title    "the head cannot hold this build"
grade    stop
about    rig
given    head is there
limit    most 100 %
fails    load_share > most
quiet    may fail where chart_kind = "none"
worst    load_share
at       head
see      camera
says     "{head} carries {carried} with its centre of gravity {cog_up} above the plate;
         at that height it holds {capacity}."
doubt    "whether {head} holds {carried} at {cog_up} above the plate"
because  "A head is a lever."   # a comment after a text
fix      choose head where load_share <= most
fix      advise "Bring the centre of gravity below {chart_top}."
source   "statics: torque is mass × g × height"
once     head-overloaded, overload
"""
HEAD = part('"Fenner 12 head"', rated=about(12))
BUILD = rig(
    head=HEAD,
    load_share=about(1.42),
    carried=about(21.6),
    cog_up=about(0.174),
    capacity=about(15.1),
    chart_kind=words("chart"),
)


def example() -> RuleBook:
    return book({"support/overload-at-height.rule": EXAMPLE})


def test_a_whole_rule_is_read() -> None:
    rules = example()
    found = rules.rules["overload-at-height"]
    assert (found.name, found.group, found.grade, found.about) == ("overload-at-height", "support", "stop", "rig")
    assert found.judge(BUILD, ENV).outcome == "fails"
    worst = found.how_bad(BUILD, ENV)
    assert worst == about(1.42)
    assert found.place(BUILD, ENV).path == "rig A/head"
    assert [where.path for where in found.related(BUILD, ENV)] == ["rig A/camera"]
    assert found.source == ("statics: torque is mass × g × height",)
    assert rules.named("overload") is found


def test_an_outcome_is_quiet_where_the_rule_says_so() -> None:
    found = example().rules["overload-at-height"]
    uncharted = rig(chart_kind=words("none"))
    assert found.is_quiet("may fail", uncharted, ENV)
    assert not found.is_quiet("fails", uncharted, ENV)
    assert not found.is_quiet("may fail", BUILD, ENV)
    assert not found.is_quiet("may fail", rig(chart_kind=words(None, "chart")), ENV)


def test_five_mistakes_in_one_file_are_five_errors_at_their_places() -> None:
    text = """\
title    "too heavy"
grade    grave
about    rig
fails    carried > cog_up
says     "It carries {caried}."
doubt    "whether it does"
covers   no-such-rule
wurst    load_share
"""
    found = [(each.line, each.column, each.to_column) for each in mistakes({"support/too-heavy.rule": text})]
    # A missing because is said at the top of the file; the rest where they stand.
    assert found == [(1, 1, 2), (2, 10, 15), (4, 10, 26), (5, 23, 29), (7, 10, 22), (8, 1, 6)]


def test_mistakes_of_all_files_come_together() -> None:
    files = {"support/one.rule": rule_text("carryed > 3 kg"), "support/two.rule": rule_text("carried > 3")}
    assert [each.path for each in mistakes(files)] == ["support/one.rule", "support/two.rule"]


def test_a_mistake_on_a_continued_line_is_marked_there() -> None:
    text = rule_text("carried > capacity\n  and carried > cog_up\n  and mates")
    found = mistakes({"support/too-heavy.rule": text})
    assert [(each.line, each.column, each.to_column) for each in found] == [(4, 7, 23)]


@pytest.mark.parametrize("word", ["title", "about", "fails", "says", "because"])
def test_a_word_that_is_wanted(word: str) -> None:
    text = rule_text(**{word: ""}) if word != "fails" else rule_text("")
    assert any(each.startswith(f"a rule needs {word}") for each in said(text))


def test_doubt_is_wanted_where_there_can_be_doubt() -> None:
    wanted = 'this can be in doubt, so the rule needs a line: doubt "whether …"'
    assert said(rule_text(doubt="")) == [wanted]
    assert said(rule_text("head is there", given='chart_kind = "none"', doubt="")) == [wanted]
    assert rule("not (head is there)", doubt="").doubt is None
    assert rule('any p in parts where p.kind = "head"', doubt="").doubt is None
    assert rule("count(parts) > 3", doubt="").doubt is None


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ({"about": "rigg"}, "nothing is known about a rigg. The nearest is rig."),
        ({"grade": "bad"}, "a grade is one of stop, wrong, watch, note"),
        ({"bcause": "mates"}, "a rule has no word bcause. The nearest is because."),
        ({"at": "hed"}, "hed is no place in a rig. The nearest is head."),
        ({"at": "head.colour"},
         "colour is no place in a head. Known: chart, height, kind, legs, mass, own_case, rated, upright."),
        ({"at": "carried.mass"}, "carried is a mass: nothing leads on from it"),
        ({"worst": "mates"}, "a number is wanted here, and mates is a yes or no: write it alone, or after `not`"),
        ({"quiet": "sometimes"}, "quiet says fails, may fail or cannot tell, then perhaps where and a condition"),
        ({"gather": "rigs"}, "rigs is nothing to gather by. The nearest is rig."),
        ({"says": "It fails."}, 'put the text in quotes: "It fails."'),
        ({"says": '"It fails.'}, "the quote that opens here is not closed at the end"),
        ({"says": '""'}, "there is nothing between these quotes"),
        ({"says": '"It {carried."'}, "this brace opens a hole and none closes it"),
        ({"says": '"It }."'}, "this brace closes no hole"),
        ({"says": '"It {}."'}, "a hole names what to print: {carried}"),
        ({"says": '"It {carried in mm}."'}, "carried is a mass, and mm is a unit of a length"),
        ({"says": '"It {carried in kgg}."'}, "kgg is not a unit known here. The nearest is kg."),
        ({"fix": "chose head"}, "a fix has no action chose. The nearest is choose."),
        ({"fix": "choose"}, "write choose SLOT where …"),
        ({"fix": "choose carried"}, "a part is wanted here, and carried is a mass"),
        ({"fix": "order many"}, "write order N of PART"),
        ({"fix": "set cog_up 3 mm"}, "write set FIELD to VALUE"),
        ({"fix": "set cog_up to 3 kg"}, "cog_up is a length, and this is a mass"),
        ({"fix": 'set chart_kind to "charts"'},
         '"charts" is not a word that chart_kind can have. The nearest is chart.'),
        ({"each": "parts"}, "each says a name and a set: each point in chart"),
        ({"each": "head in parts"}, "head is a name already: call each one something else"),
        ({"call": "spare"}, "call says a name and an expression: call spare limit - mass"),
        ({"call": "head carried"}, "head is a name already: call it something else"),
        ({"call": "spare spare + 1 kg"}, "spare needs itself to be worked out"),
        ({"limit": "most"}, "a limit is a name and a number: limit longest 24 h"),
        ({"limit": "most carried"}, "a limit is one number with its unit, and carried is not"),
        ({"limit": "carried 3 kg"}, "carried is a fact about a rig already: call the limit something else"),
        ({"limit": "most 3 kg from 2027-01-01"},
         'a dated limit says: from 2027-01-01 seen 2027-03-02 "where it was read"'),
        ({"limit": 'most 3 kg from 2027-13-01 seen 2027-03-02 "the law"'},
         "2027-13-01 is no day: write year-month-day, 2027-01-31"),
        ({"limit": 'most 3 kg seen 2027-02-30 "the law"'},
         "2027-02-30 is no day: write year-month-day, 2027-01-31"),
        ({"limit": "most 3 kg seen 2027-02-03"},
         'a dated limit says: from 2027-01-01 seen 2027-03-02 "where it was read"'),
        ({"covers": "too-heavy"}, "too-heavy covers itself"),
        ({"covers": "a-rule"}, "there is no rule a-rule. Known: too-heavy."),
        ({"once": "too-heavy"}, "too-heavy is the name of a rule that there is"),
    ],
)  # fmt: skip
def test_what_a_rule_may_not_say(more: dict[str, str], says: str) -> None:
    assert said(rule_text(**more)) == [says]


def test_a_word_may_stand_once_only() -> None:
    assert said(rule_text() + "fails    mates\n") == ["fails stands on line 3 already"]


def test_a_word_with_nothing_after_it() -> None:
    assert said(rule_text() + "source\n") == ["nothing stands after source"]


def test_a_line_that_continues_nothing() -> None:
    assert said("   and more\n" + rule_text()) == ["this line continues a word, and no word stands above it"]


@pytest.mark.parametrize("path", ["too-heavy.rule", "support/too/heavy.rule", "Support/x.rule", "support/x.txt"])
def test_a_file_that_is_not_where_rules_are(path: str) -> None:
    found = mistakes({path: rule_text()})
    assert [each.says for each in found] == [
        "name a rule file GROUP/NAME.rule, in small letters, digits and dashes, or GROUP/limits"
    ]


def test_an_empty_file() -> None:
    assert [each.says for each in mistakes({"support/too-heavy.rule": "# nothing\n"})] == [
        "there is nothing in this file"
    ]


def test_one_name_is_one_rule() -> None:
    files = {"lens/too-heavy.rule": rule_text(), "support/too-heavy.rule": rule_text()}
    found = mistakes(files)
    assert [each.path for each in found] == ["support/too-heavy.rule"]
    assert found[0].says.startswith("there is a rule too-heavy already, in lens/too-heavy.rule")


def test_loops_of_covers_are_refused() -> None:
    files = {
        "support/a.rule": rule_text(covers="b"),
        "support/b.rule": rule_text(covers="c"),
        "support/c.rule": rule_text(covers="a"),
        "support/d.rule": rule_text(covers="a"),
    }
    assert [each.path for each in mistakes(files)] == ["support/a.rule", "support/b.rule", "support/c.rule"]


def test_covers_may_use_an_old_name() -> None:
    files = {"support/a.rule": rule_text(covers="bee"), "support/b.rule": rule_text(once="bee")}
    assert book(files).rules["a"].covers == ("bee",)
    assert book(files).once == {"bee": "b"}


def test_an_old_name_leads_to_one_rule() -> None:
    files = {"support/a.rule": rule_text(once="old"), "support/b.rule": rule_text(once="old")}
    assert [each.says for each in mistakes(files)] == ["old is an old name of a already"]


# Calls and each


def test_calls_may_use_each_other_in_any_order() -> None:
    found = rule("spare < 1 kg", call="spare doubled / 2\ncall     doubled (capacity - carried) * 2")
    assert found.judge(rig(carried=about(9.5), capacity=about(10)), ENV).outcome == "fails"
    assert found.judge(rig(carried=about(8), capacity=about(10)), ENV).outcome == ""


def test_each_makes_one_finding_for_each_element() -> None:
    points = (part("point 1", mass=about(5)), part("point 2", mass=about(9)))
    found = rule("point.mass > 6 kg", about="part", each="point in chart", at="point", says='"{point.mass}"')
    head = part("head", chart=points)
    envs = found.envs(head, ENV)
    assert [found.judge(head, env).outcome for env in envs] == ["", "fails"]
    assert [found.place(head, env).path for env in envs] == ["point 1", "point 2"]
    assert found.envs(part("head", chart=()), ENV) == ()


def test_calls_that_double_each_time_are_refused() -> None:
    calls = "\n".join(f"call     c{n} c{n - 1} + c{n - 1}" for n in range(1, 30))
    text = rule_text("c29 > 3 kg", call=f"c0 carried\n{calls}")
    assert any("longer than a rule needs" in each for each in said(text))


# Limits


DATED = """most 3 kg
limit    most 2 kg from 2027-04-01 seen 2027-01-09 "the new law"
"""


def test_a_dated_limit_holds_from_its_day_on() -> None:
    found = rule("carried > most", limit=DATED.strip())
    thing = rig(carried=about(2.5))
    assert found.judge(thing, Env(date(2027, 3, 31))).outcome == ""
    assert found.judge(thing, Env(date(2027, 4, 1))).outcome == "fails"


def test_a_limit_is_chosen_by_the_day_of_what_the_rule_is_about_or_goes_through() -> None:
    found = rule("carried > most", limit=DATED.strip())
    later = replace(rig(carried=about(2.5)), day=date(2027, 4, 1))
    (env,) = found.envs(later, ENV)
    assert found.judge(later, env).outcome == "fails"
    assert found.judge(later, ENV).outcome == ""
    through = rule("point.mass > most", about="part", each="point in chart", limit=DATED.strip())
    points = tuple(Fake(str(day), "point", {"mass": about(2.5)}, day) for day in (None, date(2027, 4, 1)))
    envs = through.envs(part("head", chart=points), ENV)
    assert [through.judge(part("head", chart=points), each).outcome for each in envs] == ["", "fails"]


def test_a_limit_whose_source_names_no_first_day_has_always_held() -> None:
    found = rule("carried > most", limit='most 2 kg seen 2027-01-09 "the law"')
    (limit,) = found.limits
    assert (limit.values[0].since, limit.values[0].seen) == (None, date(2027, 1, 9))
    assert found.judge(rig(carried=about(2.5)), Env(date(1990, 1, 1))).outcome == "fails"


def test_before_its_first_day_a_limit_does_not_apply() -> None:
    limit = 'most 2 kg from 2027-04-01 seen 2027-01-09 "the new law"'
    thing = rig(carried=about(2.5))
    for condition in ("carried > most", "not (carried <= most)"):
        found = rule(condition, limit=limit)
        assert found.applies_and_fails(thing, Env(date(2027, 3, 31))).truth is Truth.FALSE
        assert found.applies_and_fails(thing, Env(date(2027, 4, 1))).truth is Truth.TRUE


def test_a_group_shares_limits_and_a_rule_may_have_its_own() -> None:
    files = {
        "support/limits": "limit    most 3 kg\n",
        "support/a.rule": rule_text("carried > most"),
        "support/b.rule": rule_text("carried > most", limit="most 5 kg"),
    }
    rules = book(files).rules
    thing = rig(carried=about(4))
    assert [rules[name].judge(thing, ENV).outcome for name in ("a", "b")] == ["fails", ""]
    assert [limit.full_name for limit in rules["a"].limits] == ["support.most"]


def test_a_groups_limits_hold_nothing_else() -> None:
    files = {"support/limits": 'title    "x"\n', "support/a.rule": rule_text()}
    assert [each.says for each in mistakes(files)] == ["a group's limits file has lines of one kind: limit NAME VALUE"]


def test_values_of_one_limit_agree() -> None:
    twice = rule_text("carried > most", limit="most 3 kg\nlimit    most 4 kg")
    assert said(twice) == ["most has a value with no day already"]
    unlike = rule_text("carried > most", limit='most 3 kg\nlimit    most 4 mm from 2027-01-01 seen 2027-01-01 "law"')
    assert said(unlike) == ["most is a mass above and a length here"]


def test_a_limit_that_is_wrong_is_spoken_of_once() -> None:
    assert said(rule_text("carried > most", limit="most three")) == [
        "a limit is one number with its unit, and three is not"
    ]


# Houses

FILES = {
    "support/a.rule": rule_text("carried > most", limit="most 3 kg", once="old-a"),
    "support/b.rule": rule_text("carried > most", limit="most 5 kg"),
    "support/c.rule": rule_text("carried > least", limit="least 5 kg"),
}


def housed(**house: object) -> RuleBook:
    return load(FILES, VOCABULARY, house=Settings(**house))  # type: ignore[arg-type]  # each test gives its own fields


def test_a_house_sets_limits_and_grades_and_retires_rules() -> None:
    found = housed(limits={"a.most": "8 lb", "least": "1 kg"}, grades={"old-a": "note"}, retired=("b",))
    thing = rig(carried=about(3.5))
    assert [found.rules[name].judge(thing, ENV).outcome for name in ("a", "c")] == ["", "fails"]
    assert found.rules["a"].grade == "note"
    assert list(found.rules) == ["a", "c"]
    retired = found.named("b")
    assert retired is not None
    assert list(found.retired) == ["b"]


@pytest.mark.parametrize(
    ("house", "says"),
    [
        (Settings(limits={"a.mosst": "3 kg"}), "there is no limit called a.mosst. The nearest is a.most."),
        (Settings(limits={"most": "3 kg"}), "most may be a.most or b.most: write which"),
        (Settings(limits={"a.most": "3 mm"}), "a.most is a mass, and 3 mm is a length"),
        (Settings(limits={"a.most": "heavy"}), "a.most: a limit is one number with its unit, and heavy is not"),
        (Settings(grades={"zz": "note"}), "there is no rule zz. Known: a, b, c, old-a."),
        (Settings(grades={"a": "grave"}), "a: a grade is one of stop, wrong, watch, note, and grave is not"),
        (Settings(retired=("old-aa",)), "there is no rule old-aa. The nearest is old-a."),
    ],
)
def test_a_house_is_told_what_is_not_known(house: Settings, says: str) -> None:
    found = mistakes(FILES, house)
    assert [(each.path, each.says) for each in found] == [("the command line", says)]


def test_a_houses_mistake_is_marked_where_it_stands() -> None:
    house = Settings(retired=("zz",), places={("retired", "zz"): ("kitproof.toml", 7, 12, 16)})
    found = mistakes(FILES, house)
    assert [(each.line, each.column, each.to_column) for each in found] == [(7, 12, 16)]


def test_a_house_sets_the_facts_own_numbers() -> None:
    numbers = {
        "deepest_axis": HouseNumber("deepest_axis", 0.12, LENGTH, "depth where not known"),
        "longest": HouseNumber("longest", 3600, TIME, "how long"),
    }
    found = load(FILES, VOCABULARY, numbers=numbers, house=Settings(limits={"deepest_axis": "100 mm"}))
    assert found.numbers == {"deepest_axis": pytest.approx(0.1), "longest": 3600}


# Warnings


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (rule_text("carried > carried"), "both sides are the same, so this never tells anything"),
        (rule_text("note = note"), "both sides are the same, so this never tells anything"),
        (rule_text("3 kg > 2 kg"), "this asks nothing of the list, so it is always the same"),
        (
            rule_text("carried - capacity > carried / 2"),
            "carried stands here more than once, so doubt about it counts twice: let a fact work it out",
        ),
        (rule_text(says='"More than 5 kg."'), "the rule does not use 5 kg, and yet says it"),
        (
            rule_text("carried > most", limit="most 3 kg", says='"More than 3000 g."'),
            "a house may change this limit: write {most} in place of 3000 g",
        ),
        (rule_text(limit="most 3 kg"), "no rule uses most"),
        (rule_text(call="spare capacity - carried"), "nothing uses spare"),
    ],
)
def test_what_is_to_be_looked_at(text: str, says: str) -> None:
    assert [each.says for each in book({"support/too-heavy.rule": text}).warnings] == [says]


@pytest.mark.parametrize(
    "text",
    [
        rule_text("carried > 3 kg", says='"More than 3 kg at {carried}."'),
        rule_text("spare < 1 kg", call="spare capacity - carried"),
        rule_text("spare < 1 kg", call="spare capacity - carried", says='"{spare}"'),
        rule_text("carried > most", limit="most 3 kg", says='"More than {most}."'),
        rule_text(says='"A 3/8-16 screw."'),
        EXAMPLE,
    ],
)
def test_a_plain_rule_has_no_warnings(text: str) -> None:
    assert book({"support/too-heavy.rule": text}).warnings == ()
