"""Drafts to values for the lines of rigs, orders and cases: names with clauses after them."""

from __future__ import annotations

from typing import Any

from msgspec import Struct

from kitproof.reading import wanted
from kitproof.reading.characters import fold
from kitproof.reading.document import (
    Also,
    Choices,
    Held,
    Lift,
    Name,
    Ordered,
    Phrase,
    Quantity,
    Reach,
    State,
    Without,
)
from kitproof.reading.drafts import (
    AlsoDraft,
    Clause,
    Counted,
    Doubt,
    HeldDraft,
    OrderedDraft,
    PlaceDraft,
    SlotDraft,
    StateDraft,
    WithoutDraft,
    Word,
)
from kitproof.reading.notes import Notes
from kitproof.reading.quantities import amount, count_of, quantity, reach
from kitproof.reading.values import place, rig_name
from kitproof.words.dimensions import ANGLE, FREQUENCY, LENGTH, MASS, NUMBER
from kitproof.words.kinds import KINDS, STATES, FieldWord
from kitproof.words.nearest import nearest

_RIG_SLOTS = tuple(word for word, kind in KINDS.items() if kind.in_rigs)
_ON = ("head", "sticks", "ground")
_ONE_ONLY = (
    ("level", "tilted down", "tilted up"),
    ("tilt locked", "tilt free"),
    ("counterbalance",),
    ("pan bar off", "pan bar loose", "pan bar down", "pan bar along legs"),
    ("on sticks", "in own case"),
    ("slide on", "slide off"),
    ("camera on",),
    ("charge",),
    ("spare", "fitted in"),
)
"""States of which a thing can be in one only, and in that once."""


def read_slot(draft: SlotDraft, field: FieldWord, notes: Notes) -> Choices | None:
    """A slot line; None where one of its clauses cannot be taken, since half a line would stand for another build."""
    before = len(notes.slips)
    mass = quantity(draft.mass, (MASS,), notes) if draft.mass else None
    clauses = _Clauses(mass=mass)
    if draft.mass:
        clauses.seen.add("mass")
    for each in draft.clauses:
        _take(each, clauses, notes)
    at = place(PlaceDraft(tuple(clauses.parts), *clauses.place), notes) if clauses.place else None
    if len(notes.slips) > before:
        return None
    return Choices(
        tuple(None if word.text.casefold() == "none" else notes.name(word) for word in draft.options),
        draft.options[0].start if draft.options else draft.mass.start if draft.mass else notes.value_start,
        notes.line.end,
        clauses.mass,
        at,
        clauses.on,
        clauses.on_is_name,
        clauses.legs,
        clauses.hung,
        clauses.spare,
        clauses.only_with,
        clauses.on_place,
    )


class _Clauses(Struct):
    """What the clauses of one slot line say, while they are read."""

    mass: Quantity | None = None
    parts: Any = ()
    place: tuple[int, int] | None = None
    on: str = ""
    on_is_name: bool = False
    on_place: Phrase | None = None
    legs: Reach | None = None
    hung: Quantity | None = None
    spare: int = 0
    only_with: tuple[Name, ...] = ()
    seen: Any = None
    last: str = ""

    def __post_init__(self) -> None:
        self.parts, self.seen = [], set()


def _take(clause: Clause, into: _Clauses, notes: Notes) -> None:
    """One clause into what was read so far."""
    what, value = clause.what, clause.value
    if what == "more":
        if into.last != "at" or not into.parts or into.place is None:
            notes.add("unreadable-line", clause.start, clause.end, "at before a place, such as at 60 mm forward")
            return
        into.parts.append(value)
        into.place = (into.place[0], clause.end)
        return
    if what in into.seen:
        notes.add("figures-contradict", clause.start, clause.end, f"{what} stands once in a line")
        return
    into.seen.add(what)
    into.last = what
    _TAKE[what](clause, value, into, notes)


def _take_mass(clause: Clause, value: Any, into: _Clauses, notes: Notes) -> None:
    into.mass = quantity(value, (MASS,), notes)


def _take_at(clause: Clause, value: Any, into: _Clauses, notes: Notes) -> None:
    into.place = (clause.start, clause.end)
    into.parts = [] if value is None else [value]


def _take_on(clause: Clause, value: Any, into: _Clauses, notes: Notes) -> None:
    into.on_place = Phrase(notes.line.typed[clause.start : clause.end], clause.start, clause.end)
    if isinstance(value, Word):
        into.on, into.on_is_name = notes.name(value).text, True
        return
    word = _slot_word(value, (*_ON, *_RIG_SLOTS), "head, sticks, ground, a slot, or a part's name in quotes", notes)
    into.on = word or ""


def _take_legs(clause: Clause, value: Any, into: _Clauses, notes: Notes) -> None:
    into.legs = reach(value, LENGTH, notes)


def _take_hung(clause: Clause, value: Any, into: _Clauses, notes: Notes) -> None:
    into.hung = quantity(value, (LENGTH,), notes)


def _take_spare(clause: Clause, value: Any, into: _Clauses, notes: Notes) -> None:
    into.spare = count_of(value, notes) or 0


def _take_only_with(clause: Clause, value: Any, into: _Clauses, notes: Notes) -> None:
    into.only_with = tuple(notes.name(each) for each in value)


_TAKE = {
    "mass": _take_mass,
    "at": _take_at,
    "on": _take_on,
    "legs": _take_legs,
    "hung": _take_hung,
    "spare": _take_spare,
    "only with": _take_only_with,
}


def _slot_word(words: tuple[Word, ...], known: tuple[str, ...], says: str, notes: Notes) -> str | None:
    """The slot that the words name, None with a slip."""
    text = fold(" ".join(word.text for word in words))
    for word in known:
        if text.replace("-", " ") == word.replace("-", " "):
            return word
    notes.add("unknown-word", words[0].start, words[-1].end, says, nearest(text, known))
    return None


def read_also(draft: AlsoDraft, field: FieldWord, notes: Notes) -> Also | None:
    slot = _slot_word(draft.slot, _RIG_SLOTS, "a slot, such as monitor", notes)
    choices = read_slot(draft.choices, field, notes)
    if slot is None or choices is None:
        return None
    return Also(slot, choices, draft.slot[0].start, notes.line.end)


def read_without(draft: WithoutDraft, field: FieldWord, notes: Notes) -> Without | None:
    slot = _slot_word(draft.slot, _RIG_SLOTS, "a slot, such as monitor", notes)
    if slot is None:
        return None
    return Without(slot, notes.name(draft.name) if draft.name else None, draft.slot[0].start, notes.line.end)


def _thing(draft: Counted, notes: Notes) -> tuple[int, Name] | None:
    count = count_of(draft.number, notes) if draft.number else 1
    return None if count is None else (count, notes.name(draft.name))


def read_ordered(draft: OrderedDraft, field: FieldWord, notes: Notes) -> Ordered | None:
    """A line of an order: how many of what, for which rig, how many of them spare."""
    thing = _thing(draft.thing, notes)
    for_rig, spare = "", 0
    seen: set[str] = set()
    for each in draft.clauses:
        if each.what in seen:
            notes.add("figures-contradict", each.start, each.end, f"{each.what} stands once in a line")
            return None
        seen.add(each.what)
        if each.what == "for":
            for_rig = rig_name(each.value, notes).text  # type: ignore[arg-type] # a `for` clause holds words
        else:
            spare = count_of(each.value, notes) or 0  # type: ignore[arg-type] # and any other a number
    if thing is None or notes.slips:
        return None
    if spare > thing[0]:
        notes.add("figures-contradict", notes.value_start, notes.line.end, "no more can be spare than are ordered")
        return None
    return Ordered(thing[0], thing[1], for_rig, spare, notes.value_start, notes.line.end)


def read_held(draft: HeldDraft, field: FieldWord, notes: Notes) -> Held | None:
    """A packed thing and its states. A state that cannot be taken is left out: it is then not known. So are two that
    contradict each other."""
    thing = _thing(draft.thing, notes)
    if thing is None:
        return None
    mass: Quantity | None = None
    states: list[State] = []
    for each in draft.states:
        if not each.words:
            if mass is not None:
                notes.add("figures-contradict", each.start, each.end, "a line says one mass")
            elif isinstance(each.value, Doubt):
                mass = quantity(each.value, (MASS,), notes)
            continue
        state = _state(each, notes)
        if state is not None:
            states.append(state)
    kept = _agreeing(states, notes)
    return Held(thing[1], draft.is_case, thing[0], mass, kept, notes.value_start, notes.line.end)


def _agreeing(states: list[State], notes: Notes) -> tuple[State, ...]:
    """The states that nothing contradicts; a slip at each that does not agree with one before it. What is said twice
    alike is kept once."""
    lost: list[State] = []
    for number, state in enumerate(states):
        other = next((each for each in states[:number] if _one_only(state, each)), None)
        if other is not None:
            notes.add("figures-contradict", state.start, state.end, f"it does not agree with “{_typed(other, notes)}”")
            lost += [state] if _typed(state, notes) == _typed(other, notes) else [state, other]
    return tuple(each for each in states if each not in lost)


def _one_only(state: State, other: State) -> bool:
    return any(state.text in group and other.text in group for group in _ONE_ONLY)


def _typed(state: State, notes: Notes) -> str:
    return fold(notes.line.typed[state.start : state.end])


def _state(draft: StateDraft, notes: Notes) -> State | None:
    """One state with its angle, step, share or name; None with a slip."""
    text = fold(" ".join(word.text for word in draft.words))
    start, end, value = draft.start, draft.end, draft.value
    if text == "counterbalance off" and value is None:
        return State("counterbalance", start, end, step=0)
    if text not in STATES:
        words_end = draft.words[-1].end
        notes.add("unknown-word", start, words_end, wanted.STATE, nearest(text, STATES))
        return None
    if text == "fitted in":
        if isinstance(value, Word):
            return State(text, start, end, name=notes.name(value))
    elif text == "counterbalance":
        step = _step(value)
        if step is not None:
            return State(text, start, end, step=step)
        if isinstance(value, Doubt) and value.how == "unknown":
            return None  # not known, said on purpose
    elif text in ("tilted down", "tilted up", "charge"):
        if value is None and text != "charge":
            return State(text, start, end)
        if isinstance(value, Doubt):
            found = quantity(value, (NUMBER if text == "charge" else ANGLE,), notes)
            return State(text, start, end, quantity=found) if found else None
    elif value is None:
        return State(text, start, end)
    notes.add("unreadable-line", start, end, _STATE_WANTED.get(text, f"{text}, and nothing after it"))
    return None


_STATE_WANTED = {
    "fitted in": 'what it is fitted in, such as fitted in "Quillon S2"',
    "counterbalance": "its step, such as counterbalance 8, or counterbalance off",
    "tilted down": "an angle, such as tilted down 70°",
    "tilted up": "an angle, such as tilted up 30°",
    "charge": "a share, such as charge 30 %",
}


def _step(value: Word | Doubt | None) -> int | None:
    """The step of a counterbalance: a whole number and no unit."""
    if not isinstance(value, Doubt) or value.how != "exact" or value.first is None or value.first.unit is not None:
        return None
    text = value.first.number.text
    return int(text) if text.isdigit() and len(text) < 10 else None


def read_lift(draft: list[Clause], field: FieldWord, notes: Notes) -> Lift | None:
    """How many lift it, from and to what height, how far out, how often."""
    found: dict[str, Any] = {}
    for each in draft:
        if each.what in found:
            notes.add("figures-contradict", each.start, each.end, "each thing is named once")
            return None
        found[each.what] = _lift_clause(each, notes)
        if found[each.what] is None:
            return None
    if "by" not in found:
        notes.add("unreadable-line", notes.value_start, notes.line.end, "by how many, such as by 2")
        return None
    low, high = found.get("from", (None, None))
    return Lift(found["by"], low, high, found.get("out"), found.get("rate"), notes.value_start, notes.line.end)


def _lift_clause(clause: Clause, notes: Notes) -> Any:
    value: Any = clause.value
    if clause.what == "by":
        people = count_of(value, notes)
        if people == 0:
            notes.add("figures-contradict", clause.start, clause.end, "at least one person lifts")
            return None
        return people
    if clause.what == "from":
        low, high = value
        first = amount(low, LENGTH, notes, high.unit)
        last = amount(high, LENGTH, notes)
        if first is None or last is None:
            return None
        units = ((low.unit or high.unit).text, high.unit.text)
        return (
            Quantity(first, first, LENGTH, low.start, low.end, "exact", units[0]),
            Quantity(last, last, LENGTH, high.start, high.end, "exact", units[1]),
        )
    return quantity(value, (LENGTH if clause.what == "out" else FREQUENCY,), notes)
