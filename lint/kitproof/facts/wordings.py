"""How facts of a rig are spoken of where a fix asks for something: "so that the load is at most 100 % of what the head
holds there". Names as the rule language has them are for rules, not for people.
"""

from __future__ import annotations

from collections.abc import Mapping

ASKED_TO_BE: Mapping[str, str] = {
    "load_share": "the load is {} of what the head holds there",
    "safe_share": "the load is {} of what the head may be counted on to hold there",
    "stack_share": "what stands on it is {} of what it is rated for",
    "lens.front": "the front of the lens is {}",
    "legs_share": "what the sticks bear is {} of what they are rated for",
    "cog_up": "the height of the centre of gravity above the plate is {}",
    "slide_spare": "it balances with {} of travel left",
    "counterbalance_share": "the build asks for {} of the most counterbalance that the head gives",
    "counterbalance_over": "the weakest setting of the head gives {} more than the build asks for",
    "torque_left": "{} of torque is left about the tilt axis",
    "drag_hold": "the torque that is left is {} of the most drag of the head",
    "max(head.drag)": "the most drag of the head is {}",
    "tip_angle_level": "the slope at which it tips, head level, is {}",
    "tip_angle_tilted": "the slope at which it tips, at its worst tilt, is {}",
    "overturn_share": "what overturns it is {} of what keeps it on its feet",
    "rod_sag": "the ends of the rods go down by {}",
    "lens.image_circle": "the image circle of the lens is {}",
    "draw_share": "the greatest draw is {} of what the battery delivers",
    "voltage_spare": "the battery's voltage lies {} inside what the camera runs on",
    "legs_at": "the height at which the legs are to stand is {}",
    "tilts": "all that the rig tilts is {}",
}
"""By what is asked for, as a rule writes it, the clause that says so; {} stands for "at most 100 %" and the like."""

NOUNS: Mapping[str, str] = {
    "clamp.front": "what it clamps",
    "chart_top": "the greatest height for which a load is given",
    "slope": "the slope of the ground",
    "drag": "the drag that is asked for",
    "camera.sensor_diagonal": "the diagonal of the sensor",
    "sticks.legs": "what the legs reach",
    "head.tilt": "what the head tilts",
}
"""What something is held against, as a rule writes it, in words."""

ENDLESS: Mapping[str, str] = {
    "height_limit": "no limit",
    "ballast_needed": "no amount is enough",
    "runtime": "without end",
}
"""What is printed where a fact has no end: ballast that can be hung in any amount and does not help, for instance."""

BEYOND = "beyond any figure"
"""The same for any other number."""
