"""Cells of an inventory as values of fields: what a person means by signs and short words, and nothing guessed."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.reading.document import Quantity
from kitproof.reading.fields import read_line
from kitproof.sheets.cells import Cell
from kitproof.sheets.figures import plain_text, unit_of, value_of, with_height, with_steps
from kitproof.sheets.part_columns import FIELDS, SIDES
from kitproof.words.dimensions import LENGTH, MASS, TORQUE

BY_NAME = {each.role.name: each for each in (*FIELDS, *SIDES)}

READ = [
    ("mass", "Weight (kg)", "6.4", "6.4 kg"),
    ("mass", "Mass lb", "14.1", "14.1 lb"),
    ("mass", "Weight", "6.4KG", "6.4 kg"),
    ("mass", "Weight (kg)", "14 lbs", "14 lbs"),
    ("mass", "wt.kg", "approx 6.4", "about 6.4 kg"),
    ("mass", "wt.kg", "~6.4", "about 6.4 kg"),
    ("mass", "Weight (kg)", "6.4 (approx)", "about 6.4 kg"),
    ("size", "L x W x H mm", "320x180x150", "320 x 180 x 150 mm"),
    ("size", "Dims", "320 mm × 180 mm × 150 mm", "320 mm x 180 mm x 150 mm"),
    ("size", "Dims (cm)", "32*18 by 15", "32 x 18 x 15 cm"),
    ("size", "Dims", '12" x 4" x 3"', "12 in x 4 in x 3 in"),
    ("rated", "Payload (kg)", "30", "30 kg"),
    ("rated", "Payload", "30kg @ 125mm", "30 kg at 125 mm"),
    ("rated", "Payload (kg at mm)", "30 @ 125", "30 kg at 125 mm"),
    ("chart", "Load chart", "30 kg @ 125 mm; 24kg@180mm", "30 kg at 125 mm, 24 kg at 180 mm"),
    ("counterbalance", "C/B (Nm)", "4-38", "4 to 38 N·m"),
    ("counterbalance", "C/B", "4 – 38 Nm", "4 to 38 N·m"),
    ("counterbalance", "C/B", "12 kg @ 150mm", "12 kg at 150 mm"),
    ("tilt", "Tilt range (deg)", "+90/-75", "-75° to 90°"),
    ("tilt", "Tilt", "±90°", "± 90°"),
    ("tilt", "Tilt", "−75° to +90°", "-75° to 90°"),
    ("axis", "Tilt axis (mm)", "42", "42 mm below plate"),
    ("legs", "Height range (mm)", "600-1600", "600 to 1600 mm"),
    ("bowl", "Bowl", "100mm", "bowl 100 mm"),
    ("bowl", "Bowl (mm)", "100", "bowl 100 mm"),
    ("bowl", "Fitting", "100 mm bowl", "bowl 100 mm"),
    ("bowl", "Bowl", "Flat base", "flat"),
    ("energy", "Wh", "98", "98 Wh"),
    ("energy", "Energy", "7 Ah", "7 Ah"),
    ("voltage", "Voltage", "14.4V", "14.4 V"),
    ("draws", "Draw (W)", "38", "38 W"),
    ("count", "Qty", "4 pcs", "4"),
    ("count", "Qty", "x3", "3"),
    ("note", "Notes", 'said "so"', "'said \"so\"'"),
]
KINDS = {"legs": "sticks", "energy": "battery", "voltage": "battery"}


@pytest.mark.parametrize(("role", "heading", "typed", "value"), READ, ids=lambda each: str(each))
def test_what_is_meant_is_put_in_words_that_a_book_takes(role: str, heading: str, typed: str, value: str) -> None:
    wanted = BY_NAME[role]
    assert value_of(wanted, Cell(typed), heading) == value
    word = "sits on" if role == "bowl" else wanted.word
    line = read_line("part", KINDS.get(role, "head"), f"  {word} {value}")
    assert line.field is not None
    assert line.field.value is not None
    assert line.slips == ()


NOT_READ = [
    ("mass", "Weight", "6.4"),
    ("mass", "Weight kg/lb", "6.4"),
    ("mass", "Weight (mm)", "6.4"),
    ("mass", "Weight (kg)", "6,4"),
    ("mass", "Weight (kg)", "heavy"),
    ("mass", "Weight (kg)", "6 lb 3 oz"),
    ("mass", "Weight (kg)", "6.4 or 6.8"),
    ("mass", "Weight (kg)", "320 mm"),
    ("mass", "Weight (kg)", "=1+1"),
    ("size", "Size mm", "320 x 180"),
    ("counterbalance", "C/B", "4-38"),
    ("tilt", "Tilt (deg)", "90/75"),
    ("count", "Qty", "2.5"),
    ("count", "Qty", "some"),
]


@pytest.mark.parametrize(("role", "heading", "typed"), NOT_READ, ids=lambda each: str(each))
def test_what_is_in_doubt_is_not_guessed(role: str, heading: str, typed: str) -> None:
    wanted = BY_NAME[role]
    line = read_line("part", "head", f"  {wanted.word} {value_of(wanted, Cell(typed), heading)}")
    assert line.slips


@pytest.mark.parametrize(
    ("heading", "unit"),
    [("Weight (kg)", "kg"), ("WEIGHT KG", "kg"), ("wt/lbs", "lb"), ("Mass", ""), ("kg or lb", ""), ("Height mm", "")],
)
def test_a_heading_names_one_unit_or_none(heading: str, unit: str) -> None:
    assert unit_of(heading, MASS) == unit


def test_units_of_other_dimensions_in_a_heading_are_passed_over() -> None:
    assert unit_of("Payload (kg at mm)", LENGTH) == "mm"
    assert unit_of("C/B Nm", TORQUE) == "N·m"


@given(
    st.integers(1, 999_999), st.sampled_from(["kg", "g", "lb", "oz"]), st.sampled_from(["({})", "{}", "in {}", "/{}"])
)
def test_a_number_under_a_unit_is_that_many(thousandths: int, unit: str, form: str) -> None:
    number = f"{thousandths / 1000:.3f}"
    value = value_of(BY_NAME["mass"], Cell(number), f"Weight {form.format(unit)}")
    field = read_line("part", "head", f"  mass {value}").field
    written = read_line("part", "head", f"  mass {number} {unit}").field
    assert field is not None
    assert written is not None
    assert isinstance(field.value, Quantity)
    assert isinstance(written.value, Quantity)
    assert (field.value.low, field.value.high) == (written.value.low, written.value.high)


@given(st.text(max_size=30))
def test_no_text_raises(text: str) -> None:
    for wanted in BY_NAME.values():
        value_of(wanted, Cell(text.strip()), text)
    assert "\n" not in plain_text(Cell(text))


def test_what_goes_with_a_load_and_a_counterbalance() -> None:
    assert with_height("30 kg", Cell("125"), "At height (mm)") == "30 kg at 125 mm"
    assert with_height("30 kg", Cell("6-8 in"), "") == "30 kg at 6 to 8 in"
    assert with_height("30 kg at 150 mm", Cell("125"), "At height (mm)") == "30 kg at 150 mm"
    assert with_steps("4 to 38 N·m", Cell("10"), "Steps") == "4 to 38 N·m, 10 steps"
    assert with_steps("4 to 38 N·m", Cell("Stepless"), "Steps") == "4 to 38 N·m, stepless"
