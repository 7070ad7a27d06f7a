"""Building up: the rig stage by stage, in the order of its lines.

Stages start with the camera, and there is one after each later line that adds to what is carried. A stage is the rig
cut off there, so that every fact of a rig is a fact of a stage as well.
"""

from __future__ import annotations

import math
from typing import ClassVar

from kitproof.facts.balance import slides, tilting
from kitproof.facts.build import Build, Standing
from kitproof.facts.fact import Fact, fact
from kitproof.facts.rig import RigSubject
from kitproof.facts.subject import Subject
from kitproof.facts.tilting import no_weight, weight, weights
from kitproof.facts.values import TRUTH, Amount, Held, Truth, Verdict, Words, joined, number, text, thing
from kitproof.mechanics.torques import left_over_range
from kitproof.reading.document import Where
from kitproof.words.dimensions import LENGTH, MASS, NUMBER, TORQUE

OF_THE_RIG = {
    "carried": MASS,
    "cog_up": LENGTH,
    "slide_needed": LENGTH,
    "slide_spare": LENGTH,
    "counterbalance_needed": TORQUE,
    "counterbalance_step": NUMBER,
    "counterbalance_share": NUMBER,
    "load_share": NUMBER,
}
"""Facts of a rig that a stage has as well."""


class StageSubject(Subject):
    """A rig as it stands after one of its lines; `before` is the stage before it."""

    about: ClassVar[str] = "stage"

    def __init__(
        self, rig: RigSubject, now: RigSubject, before: RigSubject | None, after: Standing, last: bool
    ) -> None:
        super().__init__(rig.setting)
        self.rig, self.now, self.before, self.after, self.last = rig, now, before, after, last

    @property
    def label(self) -> str:
        return f"{self.rig.label} after {self.after.part.label}"

    @property
    def within(self) -> tuple[str, ...]:
        return self.rig.within

    def place(self, field: str) -> Where:
        return self.after.where


def stages(rig: RigSubject) -> list[StageSubject]:
    """The stages of building up, in order; none without a camera."""
    standing = rig.build.standing
    camera = rig.build.first("camera")
    if camera is None:
        return []
    carried = {id(each.standing) for each in rig.carried}
    start = standing.index(camera)
    found: list[StageSubject] = []
    before: RigSubject | None = None
    ends = [n for n in range(start, len(standing)) if id(standing[n]) in carried]
    for number_of, end in enumerate(ends):
        build = Build(rig.rig, standing[: end + 1], rig.build.choice)
        now = rig if end == len(standing) - 1 else RigSubject(rig.setting, build)
        found.append(StageSubject(rig, now, before, standing[end], number_of == len(ends) - 1))
        before = now
    return found


def stage_fields() -> list[Fact]:
    """The facts that a stage shares with a rig."""
    return [
        Fact(name, "stage", number(dimension), f"{name.replace('_', ' ')} at this stage", _of_now(name))
        for name, dimension in OF_THE_RIG.items()
    ]


def _of_now(name: str):  # type: ignore[no-untyped-def]  # a closure for the table above
    return lambda stage: stage.now.value(name)


@fact("rig", "stage", thing("rig"), "the rig that is being built up")
def rig_of(stage: StageSubject) -> Held:
    return stage.rig


@fact("after", "stage", text(), "what was put on last", certain=True)
def after(stage: StageSubject) -> Words:
    return Words(f'"{stage.after.part.name}"' if stage.after.part.name else f"the {stage.after.part.kind}")


@fact("last", "stage", TRUTH, "whether the rig is whole at this stage", certain=True)
def last(stage: StageSubject) -> Verdict:
    return Verdict(Truth.TRUE if stage.last else Truth.FALSE)


@fact(
    "left_over",
    "stage",
    number(TORQUE),
    "the torque fore and aft, lens-down positive, if the slide is left where the stage before had it; 0 at the first",
    "g × the mass on the slide × (where it stood − where it must stand now)",
    "statics: moments about the tilt axis",
)
def left_over(stage: StageSubject) -> Amount:
    if stage.before is None:
        return Amount(0.0, 0.0)
    found = slides(stage.now)
    travel = found[0].part.travel if len(found) == 1 else None
    if travel is None or not travel.known:
        lacks = (found[0].part.lacks("travel"),) if found else (f"{stage.rig.label}: a slide",)
        return Amount(-math.inf, math.inf, lacks)
    were = {id(each.standing) for each in tilting(stage.before)}
    before = weights(stage.before)
    new = [weight(stage.now, each) for each in tilting(stage.now) if id(each.standing) not in were]
    return Amount(
        *left_over_range(before, new, (travel.low, travel.high)),
        joined(no_weight(stage.now, "forward")),
    )
