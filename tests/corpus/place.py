"""How planters write: amounts as people type them, and things hung on a camera."""

from __future__ import annotations

from kitproof.model.rigs import Rig
from tests.corpus.draft import Draft, Line

G = 9.80665
"""m/s²."""


def kg(mass: float) -> str:
    return f"{mass:.3f} kg"


def mm(length: float) -> str:
    """A length in m, typed in mm."""
    return f"{1000 * length:.2f} mm"


def hang(paper: Draft, rig: Rig, name: str, mass: float, **at: float) -> Line:
    """One more thing on the camera, its mass in kg and its place in mm: forward or back, up, left or right.

    It gets an entry of its own and is ordered where the list has orders.
    """
    where = ", ".join(f"{length:.0f} mm {way}" for way, length in at.items())
    paper.end(f'part accessory "{name}"', f"  mass {kg(mass)}", "  cog 0 mm up", "  size 90 x 60 x 60 mm")
    if paper.before.orders:
        paper.entry(paper.before.orders[0].where).add(f'{len(paper.before.rigs)} x "{name}"')
        paper.pack(name, "accessory")
    return paper.entry(rig.where).add(f'accessory "{name}", at {where or "60 mm up"}')
