"""How much of what a head holds is used: M / C(S / M), with M = Σm and S = Σmr, exactly.

M and S share their masses, and C falls with S / M, so corners of the box are not enough. What (M, S) can reach is a
flat region: for each M, S lies between a lower edge (all places at their low end, masses at their low end and then
raised one after another by rising place) and an upper edge (places at their high end, masses raised by falling place).
At one M the share rises with S. So the greatest share lies on the upper edge, with the lower capacity curve, and the
least on the lower edge, with the upper curve.

Along one side of an edge S = s₀ + r M, so h = r + s₀ / M runs one way. Within one piece of a curve:

- straight, C = c − b h: the share is M² / ((c − b r) M − b s₀), convex in M, with its least value at
  M = 2 b s₀ / (c − b r) if that lies on the side; otherwise the ends decide;
- a lever law, C = k / (h + a): the share is (S + a M) / k, linear along the side: the ends decide;
- level: the share is M / c: the ends decide.

So the ends of each side, the heights at which pieces meet and the stationary point are enough. Where a curve drops, the
share on both sides of the drop is taken if the side goes there: a limit counts as reached.

Edge cases, which a second implementation should share: nothing carried (M = 0) is a share of 0, whatever the capacity;
a mass more than 0 on a capacity of 0 is ∞; hung below the plate (h < 0) the lower curve is 0, so the greatest share is
∞; a mass without bound makes the greatest ∞, and so does a place without bound, either way; where nothing is known of
the head, the share is [0, ∞].
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from kitproof.mechanics.curves import HAIR, Curve, Line, Piece
from kitproof.mechanics.holding import Holding
from kitproof.mechanics.means import Term, mass_range, moment_range
from kitproof.mechanics.ranges import Interval


class Side(NamedTuple):
    """A straight side of the reachable region: M runs from `start` to `end` (which may be ∞), S = offset + slope M."""

    start: float
    end: float
    offset: float
    slope: float

    def height(self, mass: float) -> float:
        """S / M in m."""
        return self.slope if self.offset == 0 or mass == math.inf else self.slope + self.offset / mass

    def mass_at(self, height: float) -> float:
        """M at which S / M is a height, in kg, kept within the side."""
        gap = height - self.slope
        return self.end if gap == 0 else min(max(self.offset / gap, self.start), self.end)


class Edge(NamedTuple):
    """One edge of the reachable region: its first corner, all masses at their low end, and its sides from there."""

    mass: float
    moment: float
    sides: tuple[Side, ...]


def share_range(terms: Sequence[Term], holding: Holding) -> Interval:
    """`load_share`: what is carried over what the head holds at that height, exactly."""
    live = _live(terms)
    if not live:
        return 0.0, 0.0
    return _least(live, holding.upper), _greatest(live, holding.lower)


def safe_range(terms: Sequence[Term], holding: Holding) -> Interval:
    """`safe_share`: what is carried over what the head holds for certain (the lower bound) at that height, exactly."""
    live = _live(terms)
    if not live:
        return 0.0, 0.0
    return _least_safe(live, holding.lower), _greatest(live, holding.lower)


def stack_range(stack: Iterable[tuple[Interval, Interval]]) -> Interval:
    """`stack_share`: the greatest of mass above over rating, from (mass, rating) of each rated part in the stack.

    Exact, although the parts share what stands above them: all shares are least together and greatest together. A
    rating that is not known is (0, ∞). An empty stack bears nothing: 0.
    """
    shares = [(_share(mass[0], rating[1]), _share(mass[1], rating[0])) for mass, rating in stack]
    return max((low for low, _ in shares), default=0.0), max((high for _, high in shares), default=0.0)


def _live(terms: Sequence[Term]) -> list[Term]:
    return [term for term in terms if term.m_high > 0]


def _share(mass: float, capacity: float) -> float:
    """0 for no mass and for a capacity without bound; ∞ for a mass on no capacity."""
    if mass == 0 or capacity == math.inf:
        return 0.0
    return mass / capacity if capacity > 0 else math.inf


def _greatest(terms: Sequence[Term], lower: Curve) -> float:
    """The greatest share: on the upper edge, unless something has no bound or may hang below the plate."""
    unbounded = any(math.inf in (term.m_high, term.r_high) for term in terms)
    if unbounded or moment_range(terms)[0] < -HAIR:
        return math.inf
    return max(_shares(_upper_edge(terms), lower))


def _least(terms: Sequence[Term], upper: Curve) -> float:
    """The least share: on the lower edge. A place without lower bound puts that edge at a height of −∞ for every M."""
    if any(term.r_low == -math.inf for term in terms):
        return _share(mass_range(terms)[0], upper.value(-math.inf))
    return min(_shares(_lower_edge(terms), upper))


def _least_safe(terms: Sequence[Term], lower: Curve) -> float:
    """The least share by a curve that is 0 below the plate, and so falls on either side of it.

    It lies on the lower edge where that is above the plate. Else the best height is 0, and the least M that reaches it
    is either the least of all or where an edge crosses the plate. Whatever else is looked at can be reached as well.
    """
    low, high = _first_moment(terms)
    shares = [math.inf]
    if low <= HAIR and high >= -HAIR:
        shares.append(_share(mass_range(terms)[0], lower.value(0.0)))
    if low > -math.inf:
        shares += _shares(_lower_edge(terms), lower)
    if high < math.inf:
        shares += _shares(_upper_edge(terms), lower)
    return min(shares)


def _first_moment(terms: Sequence[Term]) -> Interval:
    """S with all masses at their low end, or as little above it as one likes: a place without bound counts."""
    if any(term.r_low == -math.inf for term in terms):
        low = -math.inf
    else:
        low = math.fsum(term.m_low * term.r_low for term in terms)
    if any(term.r_high == math.inf for term in terms):
        return low, math.inf
    return low, math.fsum(term.m_low * term.r_high for term in terms)


def _upper_edge(terms: Sequence[Term]) -> Edge:
    return _edge(sorted(((term.r_high, term.m_low, term.m_high) for term in terms), reverse=True))


def _lower_edge(terms: Sequence[Term]) -> Edge:
    return _edge(sorted((term.r_low, term.m_low, term.m_high) for term in terms))


def _edge(ordered: Sequence[tuple[float, float, float]]) -> Edge:
    """The edge along which masses, as (place, low, high), are raised in that order. A mass without bound ends it."""
    mass = first_mass = math.fsum(low for _, low, _ in ordered)
    moment = first_moment = math.fsum(low * place for place, low, _ in ordered)
    sides = []
    for place, low, high in ordered:
        if high > low:
            sides.append(Side(mass, mass + high - low, moment - place * mass, place))
        if high == math.inf:
            break
        mass += high - low
        moment += (high - low) * place
    return Edge(first_mass, first_moment, tuple(sides))


def _shares(edge: Edge, curve: Curve) -> Iterator[float]:
    """The share at all points of an edge that can be extreme."""
    yield _share(edge.mass, curve.value(edge.moment / edge.mass)) if edge.mass > 0 else 0.0
    for side in edge.sides:
        for place, piece in enumerate(curve.pieces):
            yield from _on_piece(side, piece, first=place == 0)


def _on_piece(side: Side, piece: Piece, *, first: bool) -> Iterator[float]:
    """The shares that can be extreme on the stretch of a side over which a piece holds; none if it holds nowhere."""
    ends = side.height(side.start), side.height(side.end)
    low, high = max(min(ends), piece.start), min(max(ends), piece.end)
    if low > high + HAIR or (high <= piece.start + HAIR and not first):
        return
    masses = [side.start, side.end]
    if abs(ends[0] - ends[1]) > HAIR:
        masses = sorted(_mass(side, height, ends) for height in (low, high))
    if isinstance(piece, Line):
        masses += [mass for mass in _stationary(side, piece) if masses[0] < mass < masses[-1]]
    for mass in masses:
        height = side.height(mass) if mass > 0 else side.slope
        yield _share(mass, piece.value(min(max(height, piece.start), piece.end)))


def _mass(side: Side, height: float, ends: tuple[float, float]) -> float:
    """M at a height on a side; a height that is an end's, but for a rounding, gives that end."""
    if abs(height - ends[0]) <= HAIR:
        return side.start
    return side.end if abs(height - ends[1]) <= HAIR else side.mass_at(height)


def _stationary(side: Side, line: Line) -> list[float]:
    """M at which the share along a side is stationary under C = c − b h: 2 b s₀ / (c − b r)."""
    if line.slope == 0:
        return []
    under = line.at_start + line.slope * (line.start - side.slope)
    return [2 * line.slope * side.offset / under] if under != 0 else []
