"""What people call kinds of part in a sheet, beside a part's name or in its place, and what heads a section.

Tables, as everywhere in words of the trade: common practice, no source.
"""

from __future__ import annotations

KIND_WORDS: dict[str, tuple[str, ...]] = {
    "sticks": ("sticks", "legs", "tripod", "tripods", "tripod legs", "set of sticks", "set of legs"),
    "spreader": ("spreader", "spreaders", "floor spreader"),
    "riser": ("riser", "risers"),
    "adapter": ("adapter", "adapters", "adaptor", "adaptors"),
    "head": ("head", "heads", "fluid head", "tripod head", "pan and tilt head"),
    "plate": ("plate", "plates", "quick release plate", "quick-release plate", "qr plate"),
    "slide": ("slide", "slides", "sliding plate", "dovetail", "dovetail plate", "sliding dovetail"),
    "base": ("base", "bases", "base plate", "baseplate", "bridge plate", "bridgeplate"),
    "camera": ("camera", "cameras", "camera body", "body", "bodies", "cam"),
    "lens": ("lens", "lenses", "prime", "primes", "zoom", "prime lens", "zoom lens", "glass"),
    "pan bar": ("pan bar", "pan bars", "pan handle"),
    "arm": ("arm", "arms"),
    "tie-down": ("tie down", "tie downs", "tiedown"),
    "rods": ("rods", "bars", "pair of rods", "set of rods"),
    "lens support": ("lens support", "lens supports"),
    "matte box": ("matte box", "matte boxes", "mattebox"),
    "follow focus": ("follow focus",),
    "battery": ("battery", "batteries", "batt", "batts", "bat"),
    "charger": ("charger", "chargers"),
    "monitor": ("monitor", "monitors", "on board monitor", "onboard monitor", "mon"),
    "recorder": ("recorder", "recorders"),
    "light": ("light", "lights"),
    "handle": ("handle", "handles"),
    "ballast": ("ballast", "weight", "weights"),
    "accessory": (),
    "kit": ("kit", "kits", "set", "sets"),
    "case": ("case", "cases", "flight case"),
}
"""For each kind of part, what may stand beside its name without changing which part is meant."""

SECTION_WORDS = frozenset(
    {
        *(word for words in KIND_WORDS.values() for word in words),
        "accessories", "bits and pieces", "camera accessories", "camera dept", "camera department", "camera equipment",
        "camera package", "camera support", "cases and bags", "consumables", "expendables", "extras", "filters",
        "focus", "grip", "lens accessories", "lens control", "lenses and filters", "matte boxes and filters", "media",
        "misc", "miscellaneous", "monitoring", "other", "power", "power and batteries", "batteries and power",
        "rigging", "sound", "sundries", "support", "tripods and heads", "heads and legs", "legs and heads", "video",
        "wireless",
    }
)  # fmt: skip
"""What a row that heads a section says, compared as headings of columns are."""

SMALL_WORDS = frozenset({"a", "an", "and", "for", "of", "the", "with"})
"""Words that a name may have more or fewer of. Not "or", and not "with" or "and" once anything else is left over."""
