"""Which planters plant the faults of which rule."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from random import Random

from tests.corpus import flying, mating, ordering, packing, power, reading, standing, support
from tests.corpus.draft import Draft, Line

Planter = Callable[[Draft, Random], Line | None]
"""Writes a fault into a draft and gives the line at which it is to be found; None where there is no place for it."""

PLANTERS: Mapping[str, tuple[Planter, ...]] = {
    # support
    "overload-at-height": (support.chart_too_low, support.head_too_small, support.load_too_heavy),
    "sticks-overloaded": (support.sticks_too_weak,),
    "stack-overloaded": (support.stack_too_weak,),
    "uncharted-no-margin": (support.no_chart,),
    "chart-rises": (support.chart_turned,),
    "off-the-chart": (support.chart_too_short,),
    "counterbalance-too-weak": (support.spring_too_weak,),
    "counterbalance-too-strong": (support.spring_too_strong,),
    "drag-cannot-hold": (support.drag_too_light,),
    "head-for-lock-as-drag": (support.drag_asked_too_high,),
    "tilt-beyond-head": (support.tilt_too_far,),
    # balance
    "heavy-to-one-side": (support.heavy_on_one_side,),
    "slide-missing": (support.no_slide,),
    "slide-out-of-reach": (support.slide_too_short, support.load_too_far_out),
    "slide-no-spare": (support.slide_at_its_end,),
    "stage-out-of-balance": (support.stage_too_far_out,),
    # mating
    "seat-does-not-mate": (mating.other_family, mating.other_mount),
    "bowl-size-differs": (mating.other_bowl,),
    "screw-size-differs": (mating.other_screw,),
    "slide-width-differs": (mating.other_slide,),
    "rods-differ": (mating.other_rods,),
    "front-diameter-differs": (mating.other_front,),
    "image-circle-small": (mating.small_picture,),
    "quick-release-two-step": (mating.safety_by_hand,),
    # lens
    "lens-unsupported": (mating.lens_on_its_mount,),
    "rods-sag": (mating.thin_rods,),
    # standing
    "tips-on-slope": (standing.slope_too_steep,),
    "tips-when-tilted": (standing.slope_too_steep_when_tilted, standing.feet_too_narrow),
    "overturns-in-wind": (standing.push_too_hard, standing.wind_too_strong_to_stand),
    "wind-over-limit": (standing.wind_over_limit,),
    "ballast-short": (standing.ballast_taken,),
    "left-standing-unbalanced": (standing.left_alone, standing.left_with_a_weak_spring),
    "legs-beyond-range": (standing.legs_too_high,),
    "feet-may-slide": (standing.feet_on_a_hard_floor,),
    "fall-may-tip": (standing.camera_can_fall,),
    # scope
    "outside-this-proof": (standing.not_on_the_ground,),
    # power
    "runtime-short": (power.batteries_too_few,),
    "draw-over-battery": (power.battery_too_weak,),
    "voltage-outside": (power.other_voltage,),
    "battery-plate-differs": (power.other_plate,),
    "cold-day": (power.cold_site,),
    # packing
    "case-too-small": (packing.case_too_low,),
    "case-overweight": (packing.case_too_heavy,),
    "lift-too-heavy": (packing.lift_too_heavy,),
    "nothing-packed-for": (packing.in_no_case,),
    "camera-left-on": (packing.camera_on,),
    "head-packed-tilted": (packing.head_tilted,),
    "head-packed-under-tension": (packing.head_under_tension,),
    "head-with-own-case-on-sticks": (packing.head_on_sticks,),
    "pan-bar-bound": (packing.pan_bar_along_legs,),
    "slide-left-on": (packing.slide_on,),
    # order
    "companion-missing": (ordering.companion_left_out, ordering.chargers_left_out),
    "ordered-not-used": (packing.more_ordered,),
    "promised-twice": (ordering.promised_here_too, ordering.promised_to_another),
    "too-few-for-rigs": (packing.fewer_ordered,),
    "used-not-ordered": (packing.not_ordered,),
    # air
    "battery-needs-approval": (packing.no_approval,),
    "battery-too-large": (packing.battery_too_large,),
    "bag-over-advised": (flying.bag_over_advised,),
    "bag-too-heavy": (flying.bag_too_heavy,),
    "bag-too-large": (flying.bag_too_large,),
    "charge-too-high": (flying.loose_charge_too_high,),
    "packed-charge-too-high": (flying.packed_charge_too_high,),
    "spares-in-hold": (packing.spare_in_hold,),
    "terminals-bare": (packing.terminals_bare,),
    "too-many-spares": (packing.too_many_spares,),
    # reading
    "unreadable-line": (reading.quote_left_open, reading.word_where_a_number_was),
    "unknown-word": (reading.misspelt_word,),
    "unknown-part": (reading.misspelt_name,),
    "wrong-unit": (reading.other_unit,),
    "no-unit": (reading.no_unit,),
    "number-misread": (reading.comma_in_a_number, reading.fraction_in_a_number),
    "defined-twice": (reading.entry_twice,),
    "figures-contradict": (
        reading.dates_turned,
        reading.reach_turned,
        reading.height_twice,
        reading.field_twice,
        power.battery_of_nothing,
        power.day_too_long,
        packing.states_at_odds,
    ),
    "impossible-mass": (reading.impossible_mass,),
    "pounds-taken-for-kilograms": (reading.pounds_as_kilograms,),
    "circular-use": (reading.uses_itself,),
    "not-utf-8": (reading.other_letter, reading.other_letters),
    "nothing-listed": (reading.nothing_listed,),
    "list-named-twice": (ordering.named_twice,),
    "older-issue": (ordering.older_issue,),
    "used-file-missing": (reading.book_missing,),
    "used-file-outside": (reading.book_outside,),
    "waiver-of-nothing-known": (reading.waiver_of_an_unknown_rule, reading.waiver_in_an_unknown_subject),
    "waiver-unused": (reading.waiver_of_nothing,),
    "waiver-out-of-date": (reading.waiver_run_out,),
    "waiver-not-allowed": (reading.waiver_not_taken,),
}
