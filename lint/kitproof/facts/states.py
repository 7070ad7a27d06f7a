"""What rules call the states of a packed thing, and the words that a `holds` line has for them."""

from __future__ import annotations

import math

from kitproof.facts.values import Amount, Held, Words

STATES: dict[str, tuple[str, ...]] = {
    "tilted": ("level", "tilted down", "tilted up"),
    "tension": ("counterbalance",),
    "tilt_lock": ("tilt locked", "tilt free"),
    "pan_bar_left": ("pan bar off", "pan bar loose", "pan bar down", "pan bar along legs"),
    "slide_left": ("slide on", "slide off"),
    "charge": ("charge",),
    "terminals_covered": ("terminals covered",),
    "spare": ("spare", "fitted in"),
    "camera_left": ("camera on",),
    "on_sticks": ("on sticks",),
    "in_own_case": ("in own case",),
}
"""For each fact about a packed thing that is a state, the words of which a line has one."""

_BEFORE = {"tilt_lock": "tilt", "pan_bar_left": "pan bar", "slide_left": "slide"}
_SAID = ("terminals_covered", "spare", "camera_left", "on_sticks", "in_own_case")


def state_words(fact: str, value: Held) -> str | None:
    """The state that gives a fact a value: a number, a word, or "yes" for what is so when it is said."""
    if isinstance(value, Words) and value.text:
        if fact in _BEFORE:
            return f"{_BEFORE[fact]} {value.text}"
        return STATES[fact][0] if fact in _SAID and value.text == "yes" else None
    if not isinstance(value, Amount) or not value.sharp:
        return None
    if fact == "tension":
        return "counterbalance off" if value.low == 0 else f"counterbalance {value.low:g}"
    if fact == "charge":
        return f"charge {value.low * 100:g} %"
    if fact == "tilted":
        angle = math.degrees(value.low)
        return "level" if angle == 0 else f"tilted {'up' if angle > 0 else 'down'} {abs(angle):g}°"
    return None
