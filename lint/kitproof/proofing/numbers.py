"""The facts of every rig of a list, combination by combination."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from msgspec import Struct
from msgspec.structs import replace

from kitproof.facts.build import combinations
from kitproof.facts.fact import Fact
from kitproof.facts.rig import RigSubject
from kitproof.facts.stages import stages
from kitproof.facts.subject import Setting, Subject
from kitproof.facts.values import Amount, Words
from kitproof.model.rigs import Rig
from kitproof.proofing.worked import Worked, worked
from kitproof.words.dimensions import Dimension

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
    name: str
    path: str
    combinations: tuple[CombinationNumbers, ...]
    of: int


def computed(setting: Setting) -> list[Fact]:
    """The facts of a rig that are worked out: those with a source, in the order of the registry."""
    return [each for each in setting.facts["rig"].values() if each.source]


def numbers(setting: Setting, rig: Rig, *, work: bool = False) -> RigNumbers:
    """Every worked-out fact of a rig for each of its combinations; with `work` how each came about."""
    wanted = computed(setting)
    found = []
    for build in combinations(rig):
        subject = RigSubject(setting, build)
        names = frozenset(each.part.name for each in build.standing)
        how = tuple(worked(setting, build, wanted)) if work else ()
        built = tuple(
            StageNumbers(stage.after.part.name or stage.after.part.kind, _facts(stage, setting.facts["stage"].values()))
            for stage in stages(subject)
        )
        found.append(CombinationNumbers(dict(build.choice), _facts(subject, wanted), names, how, built))
    return RigNumbers(rig.name, setting.kitlist.path, tuple(found), len(found))


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
    return replace(rig, combinations=tuple(chosen), of=len(rig.combinations))
