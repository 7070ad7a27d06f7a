"""Values read after the pattern of others: never another draft than the grammar makes, and without lark."""

from __future__ import annotations

import os
import random
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.reading.alike import draft, figures_blotted
from kitproof.reading.drafts import UnreadableError
from tests.reading.mutated import STARTS, differences, values


def test_other_figures_and_other_pieces_read_as_the_grammar_reads_them() -> None:
    chance = random.Random(7)
    found = [each for value in values(3000, 7) for each in differences(value, chance.choice(STARTS))]
    assert found == []


@given(st.text(alphabet="0123456789.,-+/ °'\"½xmkgtoaupbckfrwd?±", max_size=24), st.sampled_from(STARTS))
def test_any_figures_and_marks_read_as_the_grammar_reads_them(value: str, start: str) -> None:
    assert differences(value, start) == []


@pytest.mark.parametrize(
    ("text", "blotted"),
    [
        ("2.94 kg", "1.11 kg"),
        ("-7 mm forward, 56 mm up", "-1 mm forward, 11 mm up"),
        ("12 m3", None),  # a figure of the unit: another one is another unit, or none
        ("12 ft^3", None),
        ("wedge 38 mm", "wedge 11 mm"),
        ("9" * 201, None),
    ],
)
def test_figures_of_numbers_are_blotted_and_those_of_words_are_not(text: str, blotted: str | None) -> None:
    assert figures_blotted(text) == blotted


def test_what_cannot_be_read_is_told_by_the_column_where_it_stands() -> None:
    for line in ("  mass 12 kg kg", "      mass 99 kg kg"):
        with pytest.raises(UnreadableError) as trouble:
            draft("quantity", line, line.index("mass") + 5, len(line))
        assert trouble.value.at == len(line) - 2


def test_a_line_like_one_that_was_read_before_does_not_load_lark(tmp_path: Path) -> None:
    code = (
        "import sys; from kitproof.kept import here; from kitproof.recalling import Recall; "
        "from kitproof.reading.entries import read; recall = Recall(here()); "
        "document = read('part head \"Head %s\"\\n  rated %s kg at 1%s mm\\n', 'a', recall.known('a')); "
        "recall.keep([document]); print('lark' in sys.modules, document.entries[0].slips)"
    )
    around = {**os.environ, "KITPROOF_KEEPS_IN": str(tmp_path)}
    found = [
        subprocess.run(
            [sys.executable, "-c", code % (name, rated, name)], env=around, capture_output=True, text=True, check=True
        ).stdout.split()
        for name, rated in (("10", "12.5"), ("24", "18.0"))
    ]
    assert found == [["True", "()"], ["False", "()"]]
