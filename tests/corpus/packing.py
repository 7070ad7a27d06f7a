"""Faults of the groups packing, order and air: heads packed badly, things not ordered, batteries in the air."""

from __future__ import annotations

from random import Random

from kitproof.facts.cases import cases
from kitproof.facts.packing import CaseSubject
from kitproof.mechanics.lifting import TEAM_SHARES
from kitproof.model.kitlist import Case, OrderLine, Packed
from kitproof.model.parts import Part
from kitproof.proofing.proof import setting_of
from tests.corpus.draft import Draft, Entry, Line
from tests.proofing.lists import DAY, book

FLYING = ("air cabin", "air hold")


def _held(paper: Draft, kind: str) -> list[tuple[Case, Packed, Part]]:
    return [
        (case, held, held.part)
        for case in paper.before.cases
        for held in case.holds
        if held.part is not None and held.part.kind == kind
    ]


def _state(paper: Draft, held: Packed, start: str, state: str) -> Line:
    """Another state in place of one that starts so, or one more."""
    line = paper.at(held.where)
    words = [each.strip() for each in line.text.split(",") if not each.strip().startswith(start)]
    line.text = f"  {', '.join([*words, state] if state else words)}"
    return line


def _head(paper: Draft, chance: Random, start: str, state: str) -> Line | None:
    heads = _held(paper, "head")
    return _state(paper, chance.choice(heads)[1], start, state) if heads else None


def head_tilted(paper: Draft, chance: Random) -> Line | None:
    tilt = f"tilted {chance.choice(['up', 'down'])} {chance.uniform(5.1, 75):.1f}°"
    return _head(paper, chance, "level", tilt)


def head_under_tension(paper: Draft, chance: Random) -> Line | None:
    """The counterbalance left on, on a journey that is long enough as it is, or made longer."""
    for move in paper.before.moves.values():
        if chance.random() < 0.5:
            paper.entry(move.where).set("lasts", f"{chance.randint(15, 60)} days")
    return _head(paper, chance, "counterbalance", f"counterbalance {chance.randint(1, 8)}")


def camera_on(paper: Draft, chance: Random) -> Line | None:
    return _head(paper, chance, "camera", "camera on")


def slide_on(paper: Draft, chance: Random) -> Line | None:
    return _head(paper, chance, "slide", "slide on")


def pan_bar_along_legs(paper: Draft, chance: Random) -> Line | None:
    return _head(paper, chance, "pan bar", "pan bar along legs")


def head_on_sticks(paper: Draft, chance: Random) -> Line | None:
    """A head that has a case of its own travels on the sticks."""
    heads = [held for _, held, part in _held(paper, "head") if part.own_case]
    return _state(paper, chance.choice(heads), "in own case", "on sticks") if heads else None


def states_at_odds(paper: Draft, chance: Random) -> Line | None:
    """A head in two states of which it can be in one only."""
    heads = _held(paper, "head")
    if not heads:
        return None
    line = paper.at(chance.choice(heads)[1].where)
    one, other = chance.choice([("slide off", "slide on"), ("level", "tilted up 20°"), ("tilt free", "tilt locked")])
    words = [each.strip() for each in line.text.split(",") if each.strip() not in (one, other)]
    line.text = f"  {', '.join([*words, one, other])}"
    return line


# ---- cases ---------------------------------------------------------------------------------------------------------


def _a_case(paper: Draft, chance: Random) -> tuple[CaseSubject, Entry] | None:
    """A case as it was, and its entry in the draft."""
    setting = setting_of(paper.before, book(), DAY)
    if not paper.before.cases:
        return None
    case = chance.choice(cases(setting))
    return case, paper.entry(case.case.where)


def case_too_low(paper: Draft, chance: Random) -> Line | None:
    """A case that is lower inside than the thinnest side of something in it."""
    found = _a_case(paper, chance)
    if found is None:
        return None
    case, entry = found
    sides = [[side.low for side in held.part.size] for held in case.case.holds if held.part and held.part.size]
    if not sides:
        return None
    low = min(chance.choice(sides)) * chance.uniform(0.3, 0.98)
    return entry.set("inside", f"2000 x 2000 x {1000 * low:.2f} mm")


def case_too_heavy(paper: Draft, chance: Random) -> Line | None:
    """A limit that is less than what the packed case weighs."""
    found = _a_case(paper, chance)
    if found is None:
        return None
    case, entry = found
    return entry.set("limit", f"{case.amount('case_mass').low * chance.uniform(0.2, 0.99):.3f} kg")


def lift_too_heavy(paper: Draft, chance: Random) -> Line | None:
    """A lift from low to high for which even under the best grip less than 12.5 kg is recommended for one person."""
    found = _a_case(paper, chance)
    if found is None:
        return None
    case, entry = found
    mass = case.amount("case_mass").low
    people = [count for count, share in TEAM_SHARES.items() if mass > 12.5 * share]
    if not people:
        return None
    ends = f"from {chance.randint(0, 300)} mm to {chance.randint(1000, 1700)} mm"
    how = f"{chance.randint(300, 600)} mm out, {chance.randint(1, 120)} times an hour"
    return entry.set("lifted", f"by {chance.choice(people)}, {ends}, {how}")


def in_no_case(paper: Draft, chance: Random) -> Line | None:
    """Something that is ordered and lies in a case is taken out of it."""
    held = [(each, each.part.name) for case in paper.before.cases for each in case.holds if each.part is not None]
    ordered = [line for line in _ordered(paper) if line.part.name in {name for _, name in held}]
    if not ordered:
        return None
    one = chance.choice(ordered)
    for each, name in held:
        if name == one.part.name:
            paper.drop(paper.at(each.where))
    return paper.at(one.where)


# ---- orders --------------------------------------------------------------------------------------------------------


def _ordered(paper: Draft) -> list[OrderLine]:
    return [line for order in paper.before.orders for line in order.lines]


def _in_rigs(paper: Draft) -> dict[str, int]:
    """How often each part stands in the rigs at most, all of them together."""
    found: dict[str, int] = {}
    for rig in paper.before.rigs:
        for line in rig.lines:
            for name in {option.part.name for option in line.options if option.part}:
                found[name] = found.get(name, 0) + 1
    return found


def more_ordered(paper: Draft, chance: Random) -> Line | None:
    """One thing more is ordered, and no rig has it."""
    if not paper.before.orders or not paper.before.rigs:
        return None
    used = _in_rigs(paper)
    kinds = ("head", "sticks", "slide", "camera", "lens", "monitor", "matte box", "riser")
    spare = [part for part in paper.before.parts.values() if part.kind in kinds and part.name not in used]
    order = paper.entry(chance.choice(paper.before.orders).where)
    return order.add(f'{chance.randint(1, 3)} x "{chance.choice(spare).name}"')


def fewer_ordered(paper: Draft, chance: Random) -> Line | None:
    """Fewer than the rigs need together."""
    used = _in_rigs(paper)
    found = [line for line in _ordered(paper) if 1 < used.get(line.part.name, 0) == line.count]
    if not found:
        return None
    one = chance.choice(found)
    line = paper.at(one.where)
    line.text = line.text.replace(f"{one.count} x", f"{chance.randint(1, one.count - 1)} x")
    return _first_use(paper, one.part)


def not_ordered(paper: Draft, chance: Random) -> Line | None:
    """A line of an order left out."""
    used = _in_rigs(paper)
    found = [line for line in _ordered(paper) if line.part.name in used]
    if not found:
        return None
    one = chance.choice(found)
    paper.drop(paper.at(one.where))
    return _first_use(paper, one.part)


def _first_use(paper: Draft, part: Part) -> Line | None:
    for rig in paper.before.rigs:
        for line in rig.lines:
            for option in line.options:
                if option.part and option.part.name == part.name:
                    return paper.at(option.where)
    return None


# ---- air -----------------------------------------------------------------------------------------------------------


def _in_air(paper: Draft, *ways: str) -> list[tuple[Case, Packed, Part]]:
    moves = paper.before.moves
    return [each for each in _held(paper, "battery") if any(moves[name].by in ways for name in each[0].goes)]


def no_approval(paper: Draft, chance: Random) -> Line | None:
    """The carrier has not agreed; or one more larger battery flies where it has agreed to none."""
    flying = [held for _, held, part in _in_air(paper, *FLYING) if part.energy and part.energy.low > 100 * 3600]
    if not flying:
        return None
    for move in paper.before.moves.values():
        if move.by in FLYING:
            paper.entry(move.where).drop("carrier agrees")
    return paper.at(chance.choice(flying).where)


def battery_too_large(paper: Draft, chance: Random) -> Line | None:
    """Batteries that fly hold more than any passenger may take."""
    flying = _in_air(paper, *FLYING)
    if not flying:
        return None
    _, held, part = chance.choice(flying)
    energy = f"{chance.uniform(161, 900):.0f} Wh"
    name = f"{part.name}, large"
    fields = [line.text for line in paper.entry(part.where).fields]
    first = paper.end(f'part battery "{name}"', *fields)
    for line in paper.own[paper.own.index(first) :]:
        if line.text.split()[:1] == ["energy"]:
            line.text = f"  energy {energy}"
    paper.entry(paper.before.orders[0].where).add(f'{held.count} x "{name}"')
    line = paper.at(held.where)
    line.text = line.text.replace(f'"{part.name}"', f'"{name}"')
    return line


def spare_in_hold(paper: Draft, chance: Random) -> Line | None:
    """Cabin baggage given up: it goes in the hold."""
    flying = [held for _, held, _ in _in_air(paper, "air cabin") if "spare" in held.states]
    if not flying:
        return None
    for move in paper.before.moves.values():
        if move.by == "air cabin":
            paper.entry(move.where).set("by", "air hold")
    return paper.at(chance.choice(flying).where)


def terminals_bare(paper: Draft, chance: Random) -> Line | None:
    flying = [held for _, held, _ in _in_air(paper, *FLYING, "air cargo") if "spare" in held.states]
    return _state(paper, chance.choice(flying), "terminals covered", "") if flying else None


def too_many_spares(paper: Draft, chance: Random) -> Line | None:
    """More large spares in the cabin than its travellers may carry, or fewer travellers."""
    flying = [
        (case, held) for case, held, part in _in_air(paper, "air cabin") if part.energy and part.energy.low > 100 * 3600
    ]
    if not flying:
        return None
    case, held = chance.choice(flying)
    move = next(paper.before.moves[name] for name in case.goes if paper.before.moves[name].by == "air cabin")
    people = move.people or 1
    if people > 1 and held.count > 2 * (people - 1) and chance.random() < 0.5:
        paper.entry(move.where).set("people", str(people - 1))
    else:
        line = paper.at(held.where)
        more = 2 * people + chance.randint(1, 12)
        line.text = line.text.replace(f"{held.count} x", f"{more} x")
    return paper.at(move.where)
