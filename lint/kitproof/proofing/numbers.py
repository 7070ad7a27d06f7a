"""The facts of every rig of a list, combination by combination."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from msgspec import Struct
from msgspec.structs import replace

from kitproof.facts.boxes import boxes, build_at, count, holding
from kitproof.facts.build import Build, combinations
from kitproof.facts.fact import Fact
from kitproof.facts.rig import RigSubject
from kitproof.facts.stages import stages
from kitproof.facts.subject import Setting, Subject
from kitproof.facts.values import Amount, Words
from kitproof.model.rigs import Rig
from kitproof.proofing.worked import Worked, worked
from kitproof.words.dimensions import Dimension

MANY = 10_000
"""Of a rig with more combinations than this the numbers are worked out for one only: nobody reads them all."""

Numbers = Mapping[str, tuple[Amount | Words, Dimension | None]]


class StageNumbers(Struct, frozen=True):
    """A stage of building up: after which part, and its facts."""

    after: str
    facts: Numbers


class CombinationNumbers(Struct, frozen=True):
    """The facts of one combination by name, each with its dimension (None for a word); worked where it was asked."""

    choice: Mapping[str, str]
    facts: Numbers
    names: frozenset[str]
    worked: tuple[Worked, ...] = ()
    stages: tuple[StageNumbers, ...] = ()

    @property
    def load(self) -> float:
        """How much of the head it uses at most."""
        value = self.amount("load_share")
        return 0.0 if value is None else value.high

    def amount(self, name: str) -> Amount | None:
        """A number by its name, in SI; None where no number of this name is there."""
        value, _ = self.facts.get(name, (None, None))
        return value if isinstance(value, Amount) else None


class RigNumbers(Struct, frozen=True):
    """The numbers of a rig: of `of` combinations those that are asked for, or of very many one."""

    name: str
    path: str
    combinations: tuple[CombinationNumbers, ...]
    of: int


def computed(setting: Setting) -> list[Fact]:
    """The facts of a rig that are worked out: those with a source, in the order of the registry."""
    return [each for each in setting.facts["rig"].values() if each.source]


def numbers(setting: Setting, rig: Rig, *, work: bool = False, names: Sequence[str] = ()) -> RigNumbers:
    """Every worked-out fact of a rig for each of its combinations; with `work` how each came about.

    Of a rig with more than MANY combinations it is worked out for one: for the one that loads the head most of those
    that hold all of some names.
    """
    of = count(rig)
    if of <= MANY:
        found = tuple(_numbers(setting, build, work) for build in combinations(rig))
    else:
        build = _loads_most(setting, rig, names)
        found = () if build is None else (_numbers(setting, build, work),)
    return RigNumbers(rig.name, setting.kitlist.path, found, of)


def _numbers(setting: Setting, build: Build, work: bool) -> CombinationNumbers:
    wanted, subject = computed(setting), RigSubject(setting, build)
    names = frozenset(each.part.name for each in build.standing)
    how = tuple(worked(setting, build, wanted)) if work else ()
    built = tuple(
        StageNumbers(stage.after.part.name or stage.after.part.kind, _facts(stage, setting.facts["stage"].values()))
        for stage in stages(subject)
    )
    return CombinationNumbers(dict(build.choice), _facts(subject, wanted), names, how, built)


def _loads_most(setting: Setting, rig: Rig, names: Sequence[str]) -> Build | None:
    """The combination that loads the head most, of those that hold all of some names; None where there is none."""
    from kitproof.proofing.looking import Rigs
    from kitproof.proofing.worst import most

    found = boxes(rig)
    for name in names:
        found = [part for box in found for part in holding(rig, box, name)]
    if not found:
        return None
    _, box = most(Rigs(setting, rig), found, lambda subject: subject.amount("load_share").high, "load_share")
    return build_at(rig, box.first, box.stands)


def _facts(subject: Subject, wanted: Iterable[Fact]) -> Numbers:
    """The facts that are numbers or words, by name; what is not there is left out."""
    values = ((each, subject.value(each.name)) for each in wanted)
    return {
        each.name: (value, each.type.dimension)
        for each, value in values
        if isinstance(value, Amount) or (isinstance(value, Words) and each.about == "rig")
    }


def narrowed(rig: RigNumbers, names: Sequence[str], *, every: bool) -> RigNumbers:
    """A rig with the combinations that are asked for: those that hold all of some names, and of them, unless every one
    is wanted, the one that loads the head most."""
    fitting = [each for each in rig.combinations if each.names.issuperset(names)]
    chosen = fitting if every else sorted(fitting, key=lambda each: each.load)[-1:]
    return replace(rig, combinations=tuple(chosen))
