"""What people write above the columns of an order: a table of words for each thing that a column can hold.

A heading is known by these words whatever its capitals and stops, and also when more words follow them: "Qty (pcs)",
"Description of item". `sure` words mean that and nothing else; `maybe` words count where no sure one stands.
"""

from __future__ import annotations

from msgspec import Struct


class Role(Struct, frozen=True):
    """One thing that a column can hold: its name, as `--column NAME=HEADING` has it, what it is in a person's words,
    and what may stand above it. `figures` says whether what is under it is mostly figures (True), mostly words (False).
    """

    name: str
    says: str
    sure: tuple[str, ...]
    maybe: tuple[str, ...] = ()
    figures: bool | None = None


COUNT = Role(
    "count",
    "how many",
    (
        "qty", "qnty", "qnt", "qtty", "quan", "quant", "quantity", "quantities", "count", "how many", "pcs", "pc",
        "pieces", "piece", "units", "unit count", "number of", "no of", "nos", "ordered", "required", "reqd", "req",
        "needed", "wanted", "amount of",
    ),
    ("no", "nr", "num", "number", "amount", "total", "x", "#", "unit", "each", "ea"),
    figures=True,
)  # fmt: skip
NAME = Role(
    "name",
    "what it is",
    (
        "item", "items", "description", "desc", "equipment", "kit", "kit item", "gear", "product", "article",
        "item name", "item description", "name", "part", "part name", "model", "what", "thing",
    ),
    ("camera", "camera equipment", "kit list", "equipment list", "make and model", "details", "type"),
    figures=False,
)  # fmt: skip
NOTE = Role(
    "note",
    "notes",
    ("note", "notes", "comment", "comments", "remark", "remarks", "info", "instructions", "special requests"),
    ("details", "other", "extra", "extras"),
)
DAYS = Role(
    "days",
    "for how many days, or which",
    ("days", "day", "hire days", "no of days", "number of days", "duration", "period", "hire period", "weeks"),
    ("hire", "rental"),
)
DATES = Role("dates", "for which days", ("dates", "date", "hire dates", "shoot dates", "when", "date needed"))
FIRST = Role(
    "first",
    "the first day",
    (
        "from", "start", "starts", "start date", "date out", "out", "collect", "collection", "pick up", "pickup",
        "first day", "delivery", "hire from", "on hire", "date from", "going out",
    ),
)  # fmt: skip
LAST = Role(
    "last",
    "the last day",
    (
        "to", "until", "till", "end", "ends", "end date", "date in", "in", "return", "returns", "due back", "back",
        "last day", "hire to", "off hire", "date to", "coming back",
    ),
)  # fmt: skip
RIG = Role("rig", "the rig that it is for", ("rig", "build", "set up", "setup", "unit/rig", "camera build", "for rig"))
CASE = Role("case", "the case that it lies in", ("case", "case no", "case number", "box", "flight case", "packed in"))
SECTION = Role(
    "section", "the section it is listed under", ("section", "department", "dept", "category", "group", "class")
)
SUPPLIER = Role(
    "supplier",
    "whom it is from",
    (
        "supplier",
        "from whom",
        "hire from whom",
        "hired from",
        "vendor",
        "rental house",
        "hire company",
        "house",
        "owner",
        "source",
        "supplied by",
    ),
)
SPARE = Role("spare", "how many of them are spares", ("spare", "spares", "of which spare", "spare qty"), figures=True)
MAKE = Role("make", "who makes it", ("make", "maker", "manufacturer", "brand"))

ORDER: tuple[Role, ...] = (COUNT, NAME, NOTE, DAYS, DATES, FIRST, LAST, RIG, CASE, SECTION, SUPPLIER, SPARE, MAKE)
"""What the columns of an order can hold."""
