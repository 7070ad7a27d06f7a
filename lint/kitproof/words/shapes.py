"""The shapes a field's value can have. The grammar has a start for each; the registry says which field has which."""

from __future__ import annotations

from enum import StrEnum


class Shape(StrEnum):
    QUANTITY = "quantity"  # 6.4 kg ± 2 %
    REACH = "reach"  # -30° to 20°
    TRAVEL = "travel"  # 60 mm back to 80 mm forward
    PLACE = "place"  # 60 mm forward, 190 mm up
    SIZE = "size"  # 320 x 180 x 150 mm
    POINTS = "points"  # 18 kg at 150 mm, 12 kg at 220 mm
    INTERFACE = "interface"  # bowl 100 mm
    PORT = "port"  # lens PL at 40 mm forward, 60 mm up
    AXIS = "axis"  # 42 mm below plate
    STEPS = "steps"  # 4 to 38 N·m, 10 steps
    DRAW = "draw"  # 38 W, 60 W at most
    WEIGHED = "weighed"  # front 2.1 kg at 60 mm forward, rear 1.9 kg at 90 mm back
    PHRASES = "phrases"  # manual lock, safety catch
    FLAG = "flag"  # nothing more
    NAME = "name"  # "Fenner bar"
    COUNTED = "counted"  # 2 x "Osmer 98", "Brack 7"
    TEXT = "text"  # "said in a person's words"
    COUNT = "count"  # 4
    DATE = "date"  # 2027-03-08
    DATES = "dates"  # 2027-03-08 to 2027-03-19
    UNIT_NAMES = "unit_names"  # kg, mm
    TAG = "tag"  # colour "red"
    SLOT = "slot"  # "Pell 50" or "Pell 85", only with "Quillon S2"
    OR_SLOT = "or_slot"  # the rest of a slot line that starts with `or`
    ALSO = "also"  # monitor "Brack 7", at 60 mm up
    WITHOUT = "without"  # monitor "Brack 7"
    RIG_NAME = "rig_name"  # A
    ORDERED = "ordered"  # 2 x "Osmer 98", for rig A, spare 1
    HELD = "held"  # "Fenner 12 head", tilted down 70°, tilt locked
    LIFT = "lift"  # by 2, from 0 mm to 1200 mm, 350 mm out, 20 times an hour
