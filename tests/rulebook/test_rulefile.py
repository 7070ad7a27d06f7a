"""Lines of a rule file: words, values over several lines, comments, and where each character stands."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from kitproof.rulebook.errors import BadRules, RuleError
from kitproof.rulebook.loading import load
from kitproof.rulebook.rulefile import lines_of, quoted
from tests.rulebook.fakes import VOCABULARY

TEXT = """\
# first a remark
title    "too # heavy"   # why not
fails    carried > 3 kg
         and mates       # and so on
says
   "It is
    long."
"""


def test_a_word_and_its_value_with_continued_lines_joined() -> None:
    lines, errors = lines_of("a/b.rule", TEXT)
    assert errors == []
    assert [(line.word.text, line.value.text) for line in lines] == [
        ("title", '"too # heavy"'),
        ("fails", "carried > 3 kg and mates"),
        ("says", '"It is long."'),
    ]


def test_every_character_of_a_value_knows_its_place() -> None:
    rows = TEXT.splitlines()
    for line in lines_of("a/b.rule", TEXT)[0]:
        for at, letter in enumerate(line.value.text):
            place = line.value.error("here", at, at + 1)
            row = rows[place.line - 1]
            assert letter == " " or row[place.column - 1] == letter


def test_a_mistake_over_two_lines_is_marked_on_the_first() -> None:
    value = lines_of("a/b.rule", TEXT)[0][1].value
    assert value.error("all of it") == RuleError("a/b.rule", 3, 10, 24, "all of it")
    assert value.cut(15, 24).error("the rest") == RuleError("a/b.rule", 4, 10, 19, "the rest")


def test_quotes_inside_a_text_are_kept() -> None:
    value = lines_of("a/b.rule", 'says “{count(p in parts where p.kind = "lens")} of them”')[0][0].value
    inner = quoted(value)
    assert not isinstance(inner, RuleError)
    assert inner.text == '{count(p in parts where p.kind = "lens")} of them'


def test_windows_line_ends_and_a_byte_order_mark_are_read() -> None:
    lines, errors = lines_of("a/b.rule", '\ufefftitle "x"\r\nfails mates\r\n')
    assert (errors, [line.word.text for line in lines]) == ([], ["title", "fails"])


WORDS = (
    "title about grade each given limit call fails worst at see says doubt because fix covers gather quiet "
    "caution source once"
)
SCRAPS = (
    "carried > < 3 kg mm and or not ( ) head . camera.mass is there known any no p in parts where count min max "
    'point "x" "{carried}" "{ } rig stop from 2027-01-01 seen of to choose add set order advise remove '
    "within legs_at tilts , one of = chart_kind"
)


def mistakes(text: str) -> tuple[RuleError, ...]:
    try:
        load({"a/b.rule": text}, VOCABULARY)
    except BadRules as bad:
        return bad.errors
    return ()


@given(st.text(alphabet=st.sampled_from(list("abtilefs ()\"'“”{}#\n\t<>=&%1.,-_ \u00a0°")), max_size=120))
def test_whatever_is_written_is_refused_at_places_in_the_file(text: str) -> None:
    found = mistakes(text)
    rows = text.splitlines()
    assert found
    for error in found:
        assert 1 <= error.line <= max(len(rows), 1)
        assert 1 <= error.column < error.to_column


@given(
    st.lists(
        st.tuples(
            st.sampled_from(WORDS.split(" ")), st.lists(st.sampled_from(SCRAPS.split(" ")), max_size=8).map(" ".join)
        ),
        max_size=12,
    )
)
def test_rules_of_scraps_are_refused_at_places_in_the_file(lines: list[tuple[str, str]]) -> None:
    text = "\n".join(f"{word} {value}" for word, value in lines)
    for error in mistakes(text):
        assert error.says
        assert 1 <= error.line <= max(len(lines), 1)
        assert 1 <= error.column < error.to_column
