"""Any list that can be typed gives a proof and never stops one: odd names, rings, question marks, half lines."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from kitproof.facts.registry import FACTS
from kitproof.facts.values import Amount
from tests.laws.lists import FEW
from tests.model.texts import PARTS, RIG, builds, made, subject
from tests.proofing.lists import proofed

NAMES = ("tall sticks", "small head", "wide slide", "big camera", "long lens", "seven inch", "nobody", "A", "k")
SLOTS = (
    "sticks",
    "head",
    "plate",
    "slide",
    "base",
    "camera",
    "lens",
    "battery",
    "monitor",
    "arm",
    "pan bar",
    "ballast",
)
CLAUSES = (
    ", at 20 mm forward",
    ", at ?",
    ", at ? up, 10 mm left",
    ", on head",
    ", on ground",
    ", on arm",
    ', on "seven inch"',
    ', only with "long lens"',
    ", spare 2",
    ", 0.4 kg",
    ", ? kg",
    ", hung at 300 mm",
    ", legs at 900 mm",
    ", and so on",
)
FIELDS = (
    "mass ?",
    "mass 0 kg",
    "mass 1..900 kg",
    "height ?",
    "height 10 mm",
    "cog ?",
    "cog 400 mm back, ? up",
    "weighed front ? at 10 mm forward, rear 1 kg at 10 mm forward",
    "chart ? at 100 mm, 6 kg at ?",
    "chart 5 kg at 0 mm",
    "rated ?",
    "rated 0 kg",
    "tried 3 kg at 100 mm",
    "tilt axis 500 mm above plate",
    "tilt axis ?",
    "travel ?",
    "travel 10 mm back to 10 mm forward",
    "counterbalance 2 to 12 kg at ?, 10 steps",
    "counterbalance ?",
    "legs ?",
    "legs 0..2000 mm",
    "feet 0 mm at 0 mm",
    "takes ?",
    "takes screw 3/8-16 at ?",
    "sits on lens PL",
    "slides itself",
    "needs support",
    "energy 5 Ah",
    "voltage 0 V",
    "length 0 mm",
    'includes 3 x "k"',
    "size 0 x 0 x 0 mm",
    "size ? x 10 x 10 mm",
)
CONDITIONS = (
    "underslung",
    "left standing",
    "tilts -90° to 90°",
    "tilts ?",
    "wind ?",
    "wind 0..90 m/s",
    "ground slope up to 90°",
    "push ? N",
    "drag ?",
    "dates 2027-05-01",
    "instead of A",
    "without lens",
    'without monitor "seven inch"',
    'or "short lens"',
    "or none",
    "day 0 h",
    "site temperature -40 to 60 °C",
)

name = st.sampled_from(NAMES).map(lambda each: f'"{each}"')
slot_line = st.builds(
    lambda also, slot, names, clauses: f"  {also}{slot} {' or '.join(names)}{''.join(clauses)}\n",
    st.sampled_from(["", "", "also "]),
    st.sampled_from(SLOTS),
    st.lists(st.one_of(name, st.just("none")), min_size=1, max_size=2),
    st.lists(st.sampled_from(CLAUSES), max_size=2),
)
rig = st.builds(
    lambda like, lines: f"rig B{like}\n{''.join(lines)}",
    st.sampled_from(["", " like A", " like C"]),
    st.lists(st.one_of(slot_line, slot_line, st.sampled_from(CONDITIONS).map(lambda each: f"  {each}\n")), max_size=7),
)
part = st.builds(
    lambda kind, called, fields: f"part {kind} {called}\n" + "".join(f"  {field}\n" for field in fields),
    st.sampled_from([*SLOTS, "kit", "case"]),
    name,
    st.lists(st.sampled_from(FIELDS), max_size=6),
)
REST = (
    'order\n  2 x "seven inch", for rig Z\n  "k"\n',
    'case "k"\n  is "k"\n  goes "van", "nowhere"\n  holds case "k"\n  holds "small head", level, counterbalance ?\n',
    'move "van"\n  lasts ?\n',
    "waive rods-sag in rig Q\n",
    "weights within ?\n",
    "weights within 300 %\n",
)


@given(st.lists(part, max_size=3), st.lists(rig, min_size=1, max_size=2), st.lists(st.sampled_from(REST), max_size=3))
@FEW
def test_any_list_has_a_proof_and_numbers(parts: list[str], rigs: list[str], rest: list[str]) -> None:
    # Its own parts first: they count before those that everything else is made of.
    listed = made("".join(["\n", *parts]) + PARTS + RIG + "".join([*rigs, *rest]), parts="")
    assert proofed(listed).judged >= 0
    for number in range(min(len(builds(listed, "B")), 6)):
        found = subject(listed, "B", number)
        for fact in FACTS["rig"].values():
            value = found.value(fact.name)
            assert not isinstance(value, Amount) or value.low <= value.high, fact.name
