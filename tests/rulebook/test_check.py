"""What an expression may not say: each mistake with its words and its exact columns."""

from __future__ import annotations

import pytest

from kitproof.facts.values import Type, number, set_of, thing
from kitproof.rulebook.check import checked
from kitproof.rulebook.scope import Scope
from kitproof.rulebook.typed import InReach
from kitproof.words.dimensions import LENGTH, MASS, NUMBER, Dimension
from tests.rulebook.fakes import VOCABULARY, knows

SCOPE = Scope("rig", VOCABULARY, knows)

# Condition, the stretch that is marked, and what is said of it.
MISTAKES = [
    (
        "carried > cog_up",
        "carried > cog_up",
        "a mass cannot be compared with a length: carried is a mass, cog_up is a length",
    ),
    (
        "carried > 3",
        "carried > 3",
        "a mass cannot be compared with a plain number: carried is a mass, 3 is a plain number. Write a unit after 3",
    ),
    ("mates and carried > 3 mm", "carried > 3 mm", "a mass cannot be compared with a length: "
     "carried is a mass, 3 mm is a length"),
    ("carried + cog_up > 3 kg", "carried + cog_up", "a mass cannot be added to a length: "
     "carried is a mass, cog_up is a length"),
    ("carried - cog_up > 3 kg", "carried - cog_up", "a length cannot be taken from a mass: "
     "carried is a mass, cog_up is a length"),
    ("carryed > 3 kg", "carryed", "carryed is not known about a rig. The nearest is carried."),
    ("head.ratd > 3 kg", "ratd", "a head has no ratd. The nearest is rated."),
    ("camera.rated > 3 kg", "rated", "a camera has no rated. Known: height, kind, legs, mass, upright."),
    ("carried.rated > 3 kg", "carried.rated", "carried is a mass: nothing leads on from it"),
    ('chart_kind = "charts"', '"charts"', '"charts" is not a word that can stand here. The nearest is chart.'),
    ('chart_kind is one of "chart", "xyz"', '"xyz"',
     '"xyz" is not a word that can stand here. Known: chart, none, single.'),
    ('chart_kind > "chart"', 'chart_kind > "chart"', "words are compared with = or !=, not with >"),
    ('"chart" = "chart"', '"chart" = "chart"', "both sides are words in quotes, so this is always the same"),
    ('carried = "heavy"', 'carried = "heavy"', "a mass cannot be compared with a word: "
     'carried is a mass, "heavy" is a word'),
    ("legs_at > 3 mm", "legs_at", "legs_at is a reach of length, and cannot be compared: "
     "write max(legs_at), min(legs_at) or `within legs_at`"),
    ("legs_at + 3 mm > 4 mm", "legs_at", "a number is wanted here, and legs_at is a reach of length: "
     "write max(legs_at), min(legs_at) or `within legs_at`"),
    ("cog_up within chart_top", "chart_top", "within wants a reach on its right, and chart_top is a length"),
    ("carried within legs_at", "carried within legs_at", "a mass cannot be within a reach of length: "
     "carried is a mass, legs_at is a reach of length"),
    ("mates within legs_at", "mates", "within wants a number or a reach on its left, and mates is a yes or no"),
    ("mates = left_standing", "mates", "mates is a yes or no, and cannot be compared: "
     "write it alone, or after `not`"),
    ('head = "Fenner"', "head", "head is a head, and cannot be compared: "
     "write `head is there`, or name what it should be compared by"),
    ("head", "head", "a condition is wanted here, and head is a head: "
     "write `head is there`, or name what it should be compared by"),
    ("load_share", "load_share", "a condition is wanted here, and load_share is a plain number: "
     "compare it with something"),
    ("not parts", "parts", "a condition is wanted here, and parts is a set: "
     "write count(parts), or `any … in parts where …`"),
    ("head is known", "head", "head is a head: write `is there`"),
    ("parts is known", "parts", "parts is a set: write count(parts) > 0"),
    ("carried is there", "carried", "carried is a mass: write `is known` of it"),
    ("3 kg is known", "3 kg", "3 kg is written here, and always known"),
    ("min(carried) > 3 kg", "carried", "min of one thing is an end of a reach, and carried is a mass"),
    ("abs(carried, capacity) > 3 kg", "abs(carried, capacity)", "abs is of one number"),
    ("max(carried, cog_up) > 3 kg", "cog_up", "max is of things of one kind: "
     "carried is a mass, cog_up is a length"),
    ("cold + 3 °C > 0 °C", "cold + 3 °C", "temperatures can be compared, not reckoned with"),
    ("sum(c.cold for c in head.chart) > 3 °C", "c.cold", "temperatures can be compared, not reckoned with"),
    ("any p in head where p.mass > 3 kg", "head", "a set is wanted here, and head is a head: "
     "write `head is there`, or name what it should be compared by"),
    ("any head in parts where mates", "any head in parts where mates",
     "head is a name already: call each one in parts something else"),
    ("any p in parts where p.mas > 3 kg", "mas", "a part has no mas. The nearest is mass."),
    ("p.mass > 3 kg", "p", "p is not known about a rig."),
    ("head.tag.insured", "head.tag.insured", "a condition is wanted here, and head.tag.insured is a house's own word: "
     "compare it with a number or a word"),
    ("mates is there", "mates", "mates is a yes or no: write `is known` of it"),
    ("(carried > 3 kg) is there", "carried > 3 kg", "carried > 3 kg is a yes or no: write `is known` of it"),
    ("note > 3", "note > 3", "a word cannot be compared with a plain number: note is a word, 3 is a plain number"),
    ("note = 3", "note = 3", "a word cannot be compared with a plain number: note is a word, 3 is a plain number"),
    ('carried is one of "a"', "carried", "a word is wanted here, and carried is a mass: compare it with something"),
    # What the grammar cannot read.
    ("carried == 3 kg", "==", "write = in place of =="),
    ("mates && mates", "&&", "write and in place of &&"),
    ("mates || mates", "||", "write or in place of ||"),
    ("3 kg < carried < 4 kg", "<", "one comparison at a time: join two with `and`"),
    ("carried > 6 klio", "klio", "klio is not a unit known here. The nearest is kilo."),
    ("carried > 1,050 kg", ",", "no comma inside a number: write 1050 or 6.4"),
    ("carried >", ">", 'the expression stops too early: something is wanted after ">"'),
    ("(mates", "(", "the parenthesis that opens here is not closed"),
    ("mates)", ")", "this parenthesis closes nothing, or something is wanted before it"),
    ('chart_kind = "none', '"', "the quote that opens here is not closed"),
    ("any p in parts", "parts", 'after "parts" a `where` and a condition are wanted'),
    ("Carried > 3 kg", "Carried", "Carried cannot stand here: names are written in small letters"),
    ("head is not there", "is", 'after `is` write `known`, `there` or `one of "…"`; `not` stands first'),
    ("any p.q in parts where mates", "p.q", "the name before `in` stands for each one in turn: write one word"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "marked", "says"), MISTAKES, ids=[each[0] for each in MISTAKES])
def test_a_mistake_is_said_at_its_place(text: str, marked: str, says: str) -> None:
    typed, problems = checked(text, SCOPE, "truth")
    assert typed is None
    assert len(problems) == 1
    assert text[problems[0].start : problems[0].end] == marked
    assert problems[0].says == says


def test_the_second_of_two_signs_is_the_one_that_is_marked() -> None:
    _, problems = checked("3 kg < carried < 4 kg", SCOPE, "truth")
    assert (problems[0].start, problems[0].end) == (15, 16)


def test_every_mistake_of_one_expression_is_found() -> None:
    text = "carryed > 3 kg and carried > cog_up and head.ratd > 1 kg or legs_at > 3 mm"
    _, problems = checked(text, SCOPE, "truth")
    assert [text[each.start : each.end] for each in problems] == ["carryed", "carried > cog_up", "ratd", "legs_at"]


@pytest.mark.parametrize(
    "text",
    [
        "(" * 3000 + "mates" + ")" * 3000,
        "not " * 3000 + "mates",
        " + ".join(["carried"] * 3000) + " > 3 kg",
        "-" * 3000 + "ratio > 3",
        " and ".join(["mates"] * 3000),
    ],
    ids=["parentheses", "not", "sum", "minus", "and"],
)
def test_an_endless_expression_is_refused_in_words(text: str) -> None:
    typed, problems = checked(text, SCOPE, "truth")
    assert typed is None
    (problem,) = problems
    assert problem.says in (
        "this is nested more deeply than a rule needs",
        "this is longer than a rule needs: let a fact work it out",
    )
    assert (problem.start, problem.end) == (0, len(text))


def test_products_have_dimensions_of_their_own() -> None:
    typed, problems = checked("carried * cog_up > carried * 150 mm", SCOPE, "truth")
    assert typed is not None
    assert not problems
    typed, _ = checked("carried / capacity > 90 %", SCOPE, "truth")
    assert typed is not None


@pytest.mark.parametrize(
    ("text", "dimension"),
    [
        ("carried * cog_up", MASS.times(LENGTH)),
        ("carried / cog_up", MASS.over(LENGTH)),
        ("carried / capacity", NUMBER),
        ("carried + capacity", MASS),
        ("-carried", MASS),
        ("max(cog_up, chart_top)", LENGTH),
        ("min(legs_at)", LENGTH),
        ("sum(p.height for p in parts)", LENGTH),
        ("count(parts)", NUMBER),
    ],
)
def test_a_number_worked_out_has_its_dimension(text: str, dimension: Dimension) -> None:
    typed, _ = checked(text, SCOPE, "number")
    assert typed is not None
    assert typed.type == number(dimension)


def test_a_house_s_own_word_within_a_reach_is_a_number_of_its_dimension() -> None:
    typed, problems = checked("head.tag.depth within legs_at", SCOPE, "truth")
    assert problems == []
    assert isinstance(typed, InReach)
    assert typed.left.type == number(LENGTH)


def test_a_word_in_quotes_may_stand_on_either_side() -> None:
    assert checked('"chart" = chart_kind', SCOPE, "truth") == checked('chart_kind = "chart"', SCOPE, "truth")
    assert checked("note is there", SCOPE, "truth")[1] == []


@pytest.mark.parametrize(("wanted", "type_"), [("number", number(NUMBER)), ("text", Type("text"))])
def test_a_house_s_own_word_is_what_is_wanted(wanted: str, type_: Type) -> None:
    typed, problems = checked("head.tag.insured", SCOPE, wanted)
    assert problems == []
    assert typed is not None
    assert typed.type == type_


def test_a_variable_leads_to_what_its_set_holds() -> None:
    scope = SCOPE.having("point", thing("point")).having("those", set_of("part"))
    assert checked("point.mass > 3 kg and any p in those where p.upright", scope, "truth")[1] == []


def test_signs_as_people_write_them() -> None:
    for text in ("carried ≤ 3 kg", "carried ≥ 3 kg", "carried ≠ 3 kg", "carried × 2 − 1 kg ÷ 2 > 3 kg"):
        assert checked(text, SCOPE, "truth")[1] == []
