"""How the makers of a list say what is wrong in it."""

from __future__ import annotations

from collections.abc import Callable

Report = Callable[..., None]
"""Takes a slip kind, its place, what was said, and the nearest known names."""
