"""What facts are worked out from, for those who write rules: two facts that share an input are not to be compared.

Doubt about what both sides of a comparison rest on counts twice. The joint facts, such as `load_share`, are there so
that nobody has to. A name here is a fact of the same subject, or one of `INPUTS`.
"""

from __future__ import annotations

from collections.abc import Mapping

INPUTS: Mapping[str, str] = {
    "masses": "the masses of its parts",
    "places": "the places of its parts",
    "figures": "the figures given for its head",
    "ratings": "the ratings of its parts",
    "springs": "the counterbalance of its head",
    "feet": "the feet of its sticks",
    "wind": "the wind and what it meets",
    "mount": "what its lens hangs on",
    "powers": "what its parts draw",
    "cells": "what its batteries hold, give and deliver",
    "cold": "how cold it gets",
    "chargers": "what charges its batteries",
    "window": "the voltages that its camera runs on",
    "limits": "what a case may weigh",
    "lift": "how a case is lifted",
}
"""What is written in lists and books, in words."""

USES: Mapping[str, Mapping[str, tuple[str, ...]]] = {
    "rig": {
        "carried": ("masses",),
        "cog_up": ("masses", "places"),
        "cog_forward": ("masses", "places"),
        "cog_left": ("masses", "places"),
        "sticks_bear": ("masses",),
        "standing": ("masses",),
        "standing_cog_up": ("masses", "places"),
        "chart_top": ("figures",),
        "capacity": ("cog_up", "figures"),
        "load_share": ("carried", "capacity"),
        "safe_share": ("carried", "capacity"),
        "height_limit": ("carried", "figures"),
        "legs_share": ("sticks_bear", "ratings"),
        "stack_share": ("masses", "ratings"),
        "slide_needed": ("masses", "places"),
        "slide_spare": ("slide_needed",),
        "counterbalance_needed": ("masses", "places"),
        "counterbalance_share": ("counterbalance_needed", "springs"),
        "counterbalance_short": ("counterbalance_needed", "springs"),
        "counterbalance_over": ("counterbalance_needed", "springs"),
        "counterbalance_step": ("counterbalance_needed", "springs"),
        "torque_left": ("masses", "places", "springs"),
        "foot_radius": ("feet",),
        "tip_angle_level": ("masses", "places", "feet"),
        "tip_angle_tilted": ("masses", "places", "feet"),
        "lean": ("masses", "places"),
        "levelled_share": ("lean", "feet"),
        "overturn_share": ("masses", "places", "feet", "wind"),
        "ballast_needed": ("masses", "places", "feet", "wind"),
        "lens_torque": ("masses", "places"),
        "lens_share": ("lens_torque", "mount"),
        "draw": ("powers",),
        "draw_most": ("powers",),
        "energy": ("cells",),
        "cold_share": ("cold",),
        "runtime": ("energy", "cold_share", "draw"),
        "batteries_needed": ("cells", "cold_share", "draw"),
        "batteries_charging": ("cells", "cold_share", "draw", "chargers"),
        "draw_share": ("draw_most", "cells"),
        "current": ("draw_most", "cells"),
        "voltage_spare": ("cells", "window"),
    },
    "case": {
        "case_mass": ("masses",),
        "case_limit": ("limits",),
        "case_spare": ("case_mass", "case_limit"),
        "lift_index": ("case_mass", "lift"),
        "team_index": ("lift_index",),
    },
}
"""By subject and fact. A fact that is not here does not say what it rests on, and no rule is warned because of it."""

NEVER_BELOW_NOTHING = frozenset(
    {
        "carried",
        "sticks_bear",
        "standing",
        "capacity",
        "load_share",
        "safe_share",
        "legs_share",
        "stack_share",
        "foot_radius",
        "draw",
        "draw_most",
        "energy",
        "cold_share",
        "runtime",
        "batteries",
        "batteries_needed",
        "batteries_charging",
        "draw_share",
        "current",
    }
)
"""Facts about a rig that are never less than 0. The masses, energies, powers and areas that are written never are."""
