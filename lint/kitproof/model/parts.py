"""One kind of thing, as a parts book describes it. Its attributes are the field words of the registry of part kinds."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct

from kitproof.model.quantities import Interval, Range, Reach, Spot
from kitproof.reading.document import Where


class Seat(Struct, frozen=True, kw_only=True):
    """An interface: two mate where family and size agree. `at` is a port's place from the part's seat, if said."""

    family: str
    size: str
    at: Spot | None = None

    @property
    def words(self) -> str:
        return f"{self.family} {self.size}".strip()


class Point(Struct, frozen=True, kw_only=True):
    """A value and the height where it holds (for feet: the leg height); None where no height is said."""

    value: Interval
    at: Interval | None = None
    where: Where


class Counterbalance(Struct, frozen=True, kw_only=True):
    """Least to most, in N·m, or in kg at a height above the plate (`at`); `steps` None where not said."""

    reach: Reach
    at: Interval | None = None
    steps: int | None = None
    stepless: bool = False


class Draw(Struct, frozen=True, kw_only=True):
    usual: Interval
    most: Interval | None = None


class Weighed(Struct, frozen=True, kw_only=True):
    """Two scales: what each showed, and where it stood, forward of the part's seat."""

    front: Interval
    front_at: Range
    rear: Interval
    rear_at: Range


class Named(Struct, frozen=True, kw_only=True):
    """A part named by another: a companion, or what a kit includes."""

    name: str
    count: int
    where: Where


class Part(Struct, frozen=True, kw_only=True):
    """A part. A field that is None or empty was not written; an interval with `known` False was written as `?`.

    `places` says where each field stands; `unread` names the fields whose line could not be read; `described` is False
    for a name that no parts book describes, and `lost` says why where it is for another reason.
    """

    kind: str
    name: str
    where: Where
    places: Mapping[str, Where] = {}
    unread: frozenset[str] = frozenset()
    described: bool = True
    lost: str = ""

    mass: Interval | None = None
    weighed: Weighed | None = None
    cog: Spot | None = None
    cog_known: bool = True
    height: Interval | None = None
    size: tuple[Interval, ...] = ()
    sits_on: tuple[Seat, ...] = ()
    takes: tuple[Seat, ...] = ()
    have: int | None = None
    draws: Draw | None = None
    folds_to: Interval | None = None
    sail_area: Interval | None = None
    goes_with: tuple[Named, ...] = ()
    includes: tuple[Named, ...] = ()
    note: tuple[str, ...] = ()
    tag: Mapping[str, str | Interval] = {}

    rated: tuple[Point, ...] = ()
    chart: tuple[Point, ...] = ()
    tried: tuple[Point, ...] = ()
    feet: tuple[Point, ...] = ()
    legs: Reach | None = None
    tilt_axis: Interval | None = None
    counterbalance: Counterbalance | None = None
    tilt: Reach | None = None
    drag: Reach | None = None
    pan_drag: Reach | None = None
    quick_release: tuple[str, ...] = ()
    pan_bar: str | None = None
    own_case: str | None = None
    travel: Reach | None = None
    slides_itself: bool = False
    lens_moment: Interval | None = None
    sensor: tuple[Interval, ...] = ()
    power: Reach | None = None
    length: Interval | None = None
    front: Interval | Reach | None = None
    image_circle: Interval | None = None
    needs_support: bool = False
    diameter: Interval | None = None
    wall: Interval | None = None
    made_of: tuple[str, ...] = ()
    energy: Interval | None = None
    voltage: Interval | None = None
    delivers: Interval | None = None
    chemistry: tuple[str, ...] = ()
    charges_at_once: int | None = None
    charges_in: Interval | None = None
    inside: tuple[Interval, ...] = ()
    outside: tuple[Interval, ...] = ()
    limit: Interval | None = None

    @property
    def label(self) -> str:
        return f'{self.kind} "{self.name}"' if self.name else self.kind

    def blank(self, field: str) -> bool:
        """Whether a field is written and not known: as `?`, or in a line that could not be read."""
        return field in self.unread or (field in self.places and not getattr(self, field))

    def lacks(self, field: str) -> str:
        """How the lists of what is missing call a field of this part that is not known."""
        if self.lost:
            return self.lost
        if not self.described:
            return f"{self.label}: in no parts book"
        spot = self.places.get(field)
        unread = f" (line {spot.line} could not be read)" if field in self.unread and spot else ""
        return f"{self.label}: {field.replace('_', ' ')}{unread}"

    def where_of(self, field: str) -> Where:
        """The place of a field, or of the part itself where the field is not written."""
        return self.places.get(field, self.where)
