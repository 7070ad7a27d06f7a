"""Two lists compared: rigs and cases matched by what is in them, then each difference, number and finding."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import zip_longest

from msgspec import Struct

from kitproof.comparing import cases, numbers, rigs
from kitproof.comparing.differences import Difference, part
from kitproof.comparing.findings import Findings, Renamed, findings
from kitproof.comparing.lists import list_itself
from kitproof.comparing.matching import Pairs, Thing, paired
from kitproof.comparing.numbers import Moved
from kitproof.comparing.said import bare
from kitproof.facts.subject import Setting
from kitproof.model.kitlist import Case, KitList
from kitproof.model.parts import Part
from kitproof.model.rigs import Rig
from kitproof.proofing.findings import Proof
from kitproof.rulebook.messages import Units


class Side(Struct, frozen=True):
    """One of the two lists: what it is called here, what its facts are worked out with, and its proof."""

    called: str
    setting: Setting
    proof: Proof

    @property
    def kitlist(self) -> KitList:
        return self.setting.kitlist


class Compared(Struct, frozen=True):
    """A thing of the list that is not as it was: `was` and `now` are its names, None where it is new or gone."""

    kind: str
    was: str | None
    now: str | None
    differences: tuple[Difference, ...] = ()
    numbers: tuple[Moved, ...] = ()


class Comparison(Struct, frozen=True):
    """All that is not as it was. `renamed` leads from old names of rigs and cases to new ones; those that changed in
    name alone stand there and nowhere else."""

    was: str
    now: str
    things: tuple[Compared, ...]
    renamed: Mapping[str, str]
    findings: Findings

    @property
    def same(self) -> bool:
        """Whether nothing of the build has changed, nor any number or finding."""
        return not self.things and not self.findings.stepped


def compare(was: Side, now: Side, units: Units) -> Comparison:
    """Compares two lists, words and numbers in the units given."""
    rig_pairs = paired([_rig_thing(each) for each in was.kitlist.rigs], [_rig_thing(each) for each in now.kitlist.rigs])
    case_pairs = paired(
        [_case_thing(each) for each in was.kitlist.cases], [_case_thing(each) for each in now.kitlist.cases]
    )
    labels = {old.label: new.label for old, new in rig_pairs.both}
    labels |= {old.label: new.label for old, new in case_pairs.both}
    renamed = Renamed(labels)
    things = [
        *_list(was, now, renamed, units),
        *_rigs(was, now, rig_pairs, units),
        *_cases(was, now, case_pairs, units),
        *_parts(was.kitlist, now.kitlist, units),
    ]
    stepped = findings(was.proof.findings, now.proof.findings, renamed)
    return Comparison(was.called, now.called, tuple(things), renamed.labels, stepped)


def _rig_thing(rig: Rig) -> Thing[Rig]:
    says = tuple(rigs.line_says(each) for each in rig.lines)
    conditions = tuple(bare(getattr(rig, name)) for name in rigs.CONDITIONS)
    whole = (frozenset((each, says.count(each)) for each in says), repr(conditions), bare(rig.site))
    names = tuple((line.slot, name) for line in rig.lines for name in rigs.names_on(line))
    return Thing(rig.name, whole, names, rig)


def _case_thing(case: Case) -> Thing[Case]:
    says = tuple(cases.held_says(each) for each in case.holds)
    names = tuple(cases.name_of(each) for each in case.holds)
    house = case.house_case.name if case.house_case else ""
    sizes = repr([bare(each) for each in (case.inside, case.outside, case.mass, case.limit, case.lifted, case.tag)])
    whole = (frozenset((each, says.count(each)) for each in says), house, case.goes, sizes)
    return Thing(case.name, whole, names, case)


def _label(thing: Rig | Case | None) -> str | None:
    return None if thing is None else thing.label


def _list(was: Side, now: Side, renamed: Renamed, units: Units) -> Iterator[Compared]:
    found = list_itself(was.kitlist, now.kitlist, renamed, units)
    if found:
        yield Compared("list", was.kitlist.label, now.kitlist.label, tuple(found))


def _rigs(was: Side, now: Side, pairs: Pairs[Rig], units: Units) -> Iterator[Compared]:
    names = {old.name: new.name for old, new in pairs.both}
    # What the list says for all its rigs is told once, of the list.
    shared = set(list_itself(was.kitlist, now.kitlist, Renamed({}), units))
    for old, new in pairs.both:
        differences = [each for each in rigs.rig(old, new, names, units) if each not in shared]
        yield from _compared("rig", old, new, was, now, differences)
    for new in pairs.new:
        yield from _compared("rig", None, new, was, now, rigs.lines((), new.lines, units))
    for old in pairs.gone:
        yield from _compared("rig", old, None, was, now, [])


def _compared(
    kind: str, old: Rig | None, new: Rig | None, was: Side, now: Side, differences: Sequence[Difference]
) -> Iterator[Compared]:
    before, after = numbers.of_rig(was.setting, old), numbers.of_rig(now.setting, new)
    moved = numbers.moved(now.setting, "rig", before, after)
    if differences or moved or old is None or new is None:
        yield Compared(kind, _label(old), _label(new), tuple(differences), moved)


def _cases(was: Side, now: Side, pairs: Pairs[Case], units: Units) -> Iterator[Compared]:
    found: list[tuple[Case | None, Case | None]] = [*pairs.both, *((None, new) for new in pairs.new)]
    for old, new in [*found, *((old, None) for old in pairs.gone)]:
        differences = cases.case(old, new, units) if old and new else []
        before, after = numbers.of_case(was.setting, old), numbers.of_case(now.setting, new)
        moved = numbers.moved(now.setting, "case", before, after)
        if differences or moved or old is None or new is None:
            yield Compared("case", _label(old), _label(new), tuple(differences), moved)


def _parts(was: KitList, now: KitList, units: Units) -> Iterator[Compared]:
    """Parts that both lists speak of, where what is said of them is not the same."""
    before, after = _spoken_of(was), _spoken_of(now)
    for name, parts in after.items():
        for old, new in zip_longest(before.get(name, ()), parts):
            differences = part(old, new, units) if old is not None and new is not None else []
            if differences:
                yield Compared("part", old.label, new.label, tuple(differences))


def _spoken_of(kitlist: KitList) -> dict[str, list[Part]]:
    """The parts that rigs, orders and cases name, by name; more than one where lines describe it differently."""
    found: dict[str, list[Part]] = {}
    for each in _all_parts(kitlist):
        known = found.setdefault(each.name, [])
        if each.name and bare(each) not in [bare(other) for other in known]:
            known.append(each)
    return found


def _all_parts(kitlist: KitList) -> Iterator[Part]:
    for rig in kitlist.rigs:
        yield from (option.part for line in rig.lines for option in line.options if option.part is not None)
    yield from (line.part for order in kitlist.orders for line in order.lines)
    for case in kitlist.cases:
        yield from (packed.part for packed in case.holds if packed.part is not None)
        if case.house_case is not None:
            yield case.house_case
