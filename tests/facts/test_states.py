"""The words of a `holds` line for the states of a packed thing."""

from __future__ import annotations

import math

import pytest

from kitproof.facts.packing import packed_things
from kitproof.facts.states import STATES, state_words
from kitproof.facts.values import Amount, Held, Truth, Verdict, Words
from kitproof.words import kinds
from tests.model.texts import made, setting


def held(states: str = "") -> dict[str, Held]:
    """What the facts of a packed thing say of its states."""
    parts = 'part battery "Osmer 98"\n  mass 0.8 kg\n\npart camera "Quillon S6"\n  mass 4.1 kg\n\n'
    text = f'{parts}case "k"\n  holds "Osmer 98"{states and ", " + states}\n'
    (packed,) = packed_things(setting(made(text, parts="")))
    return {name: packed.value(name) for name in STATES}


WRITTEN = [
    ("tilted", Amount(0, 0), "level"),
    ("tilted", Amount(math.pi / 6, math.pi / 6), "tilted up 30°"),
    ("tilted", Amount(-math.pi / 4, -math.pi / 4), "tilted down 45°"),
    ("tilted", Amount(math.pi / 360, math.pi / 360), "tilted up 0.5°"),
    ("tension", Amount(0, 0), "counterbalance off"),
    ("tension", Amount(8, 8), "counterbalance 8"),
    ("tilt_lock", Words("locked"), "tilt locked"),
    ("tilt_lock", Words("free"), "tilt free"),
    *(("pan_bar_left", Words(word), f"pan bar {word}") for word in ("off", "loose", "down", "along legs")),
    ("slide_left", Words("on"), "slide on"),
    ("slide_left", Words("off"), "slide off"),
    ("charge", Amount(0.3, 0.3), "charge 30 %"),
]
SAID = [
    ("terminals_covered", "terminals covered"),
    ("spare", "spare"),
    ("camera_left", "camera on"),
    ("on_sticks", "on sticks"),
    ("in_own_case", "in own case"),
]


@pytest.mark.parametrize(("fact", "value", "words"), WRITTEN)
def test_a_state_is_written_as_it_is_read(fact: str, value: Held, words: str) -> None:
    assert state_words(fact, value) == words
    found = held(words)[fact]
    if isinstance(value, Amount):
        assert isinstance(found, Amount)
        assert (found.low, found.high) == (pytest.approx(value.low), pytest.approx(value.high))
    else:
        assert found == value


@pytest.mark.parametrize(("fact", "words"), SAID)
def test_what_is_so_when_it_is_said(fact: str, words: str) -> None:
    """There is no word that takes it back: it is not so where it is not said."""
    assert state_words(fact, Words("yes")) == words
    assert state_words(fact, Words("no")) is None
    assert held(words)[fact] == Verdict(Truth.TRUE)


@pytest.mark.parametrize(
    ("fact", "value"),
    [
        ("tilted", Amount(0, 0.1)),
        ("tension", Amount(0, 3)),
        ("charge", Amount(0.2, 0.3)),
        ("tilt_lock", Words(None)),
        ("tilted", Words("yes")),
        ("camera_left", Amount(1, 1)),
        ("tilted", None),
    ],
)
def test_what_is_no_one_state_is_not_written(fact: str, value: Held) -> None:
    assert state_words(fact, value) is None


FIGURES = {
    "tilted up": " 10°",
    "tilted down": " 10°",
    "counterbalance": " 2",
    "charge": " 30 %",
    "fitted in": ' "Quillon S6"',
}


@pytest.mark.parametrize("word", kinds.STATES)
def test_every_state_that_a_line_may_say_belongs_to_one_fact(word: str) -> None:
    before, after = held(), held(word + FIGURES.get(word, ""))
    assert [name for name in STATES if before[name] != after[name]] == [
        fact for fact, words in STATES.items() if word in words
    ]
