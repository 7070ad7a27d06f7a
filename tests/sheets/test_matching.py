"""Which part a name means: sizes exactly, words by their letters, and never a close second."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.sheets.kind_words import KIND_WORDS
from kitproof.sheets.matching import APART, Match
from kitproof.words.kinds import KINDS
from tests.sheets.made import PARTS, shelf


def match(text: str, *more: str) -> Match:
    return shelf({**PARTS, **dict.fromkeys(more, "accessory")}).match(text)


@pytest.mark.parametrize("part", PARTS)
def test_every_part_is_found_by_its_own_name_however_it_is_typed(part: str) -> None:
    for text in (part, part.upper(), f"  {part.replace(' ', '   ')} ", part.replace(" ", "-"), f"the {part}"):
        found = match(text)
        assert (found.part, found.score) == (part, 100)


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("Bramble 12 head", "Bramble 12"),
        ("Bramble 12 fluid head", "Bramble 12"),
        ("tall Alder 150 legs", "Alder tall 150"),
        ("Alder tripod, tall, 150mm", "Alder tall 150"),
        ("Dunlin zoom 31–217mm", "Dunlin 31-217"),
        ("Dunlin 50mm prime", "Dunlin 50"),
        ("Sorrel 98Wh batteries", "Sorrel 98"),
        ('7" Vetch monitor', "Vetch 7"),
        ("Tern S-2 camera body", "Tern S2"),
        ("Teasel rods 450 x 15mm", ""),
        ("Teasel 450 rods 15mm", "Teasel 15 mm rods 450"),
        ("Sorrel two way charger", "Sorrel two-way"),
    ],
)
def test_words_of_its_kind_may_stand_beside_a_name(text: str, part: str) -> None:
    assert match(text).part == part


def test_a_word_of_another_kind_makes_another_thing() -> None:
    found = match("Sorrel 98 charger")
    assert not found.sure


def test_a_slip_of_the_pen_is_forgiven_and_shows_in_the_score() -> None:
    found = match("Brambel long bar")
    assert found.part == "Bramble long bar"
    assert 90 <= found.score < 100


@pytest.mark.parametrize("text", ["Dunlin 35", "Dunlin", "Dunlin 50 32", "Vetch 75", "Tern S3", "Sorrel 15.0"])
def test_another_number_is_never_taken_for_the_part(text: str) -> None:
    found = match(text)
    assert not found.sure
    assert found.nearest


@pytest.mark.parametrize("text", ["Bramble 12 with long bar", "Tern S2 or S6", "Vetch 7 cover", "Alder 150", "bar"])
def test_more_or_fewer_words_are_never_taken_for_the_part(text: str) -> None:
    assert not match(text).sure


def test_a_close_second_is_never_passed_over() -> None:
    assert match("Thistledown clampe").nearest == ()
    assert match("Thistledown clampe", "Thistledown clamp").sure
    found = match("Thistledown clampe", "Thistledown clamp", "Thistledown clamps")
    assert not found.sure
    assert [each.part for each in found.nearest] == ["Thistledown clamp", "Thistledown clamps"]
    assert found.nearest[0].score - found.nearest[1].score < APART


def test_a_name_spelt_to_the_letter_has_no_second() -> None:
    assert match("Thistledown clamp", "Thistledown clamp", "Thistledown clamps").part == "Thistledown clamp"


def test_the_same_words_in_another_spelling_go_before_a_close_second() -> None:
    found = match("Thistledown-clamp", "Thistledown clamp", "Thistledown clamps")
    assert (found.part, found.score) == ("Thistledown clamp", 100)
    assert found.nearest[1].score > 90


@pytest.mark.parametrize("text", ["Thistledown ram", "Thistledown xz clip", "Thistledown xy clip too"])
def test_one_word_that_is_another_makes_another_thing_however_long_the_rest(text: str) -> None:
    found = match(text, "Thistledown arm", "Thistledown xy clip")
    assert not found.sure
    assert found.nearest[0].score >= 80


def test_words_in_another_order_are_the_same_name() -> None:
    assert [match(text).score for text in ("150 tall Alder", "rods Teasel 450 15mm")] == [100, 100]


def test_a_name_of_figures_alone_is_matched_too() -> None:
    assert match("No. 1050", "1050").part == ""
    assert match("1050.", "1050").part == "1050"


def test_the_three_nearest_are_shown() -> None:
    assert [each.part for each in match("Dunlin").nearest] == ["Dunlin 32", "Dunlin 50", "Dunlin 31-217"]
    assert len(shelf({f"Dunlin {number}": "lens" for number in range(9)}).match("Dunlin").nearest) == 3


def test_two_parts_that_differ_by_capitals_alone_are_asked_about() -> None:
    assert not match("vetch 7", "VETCH 7").sure


def test_the_right_one_of_very_many_that_differ_by_their_numbers_is_found() -> None:
    """However many parts have the same words."""
    many = {f"Dunlin {number}": "lens" for number in range(300)}
    assert shelf(many).match("Dunlin 287mm lens").part == "Dunlin 287"


@given(st.text(max_size=40))
def test_any_text_is_matched_or_not(text: str) -> None:
    found = match(text)
    assert 0 <= found.score <= 100
    assert not found.sure or found.score >= 90


@given(st.sampled_from(sorted(PARTS)), st.integers(0, 9), st.data())
def test_a_figure_changed_is_never_the_same_part(part: str, figure: int, data: st.DataObject) -> None:
    places = [at for at, letter in enumerate(part) if letter.isdecimal()]
    if not places:
        return
    at = data.draw(st.sampled_from(places))
    typed = part[:at] + str(figure) + part[at + 1 :]
    assert match(typed).part in ("", part if typed == part else typed)


def test_every_kind_of_part_has_its_words() -> None:
    assert set(KIND_WORDS) == set(KINDS)
