"""Good lines to mutate and to check laws on: those of the conformance cases, by entry."""

from __future__ import annotations

from kitproof.words.shipped import folder

GOOD = ("packing", "parts", "quantities", "rigs")


def case_text(name: str) -> str:
    """The list of one conformance case."""
    return (folder("grammar") / "cases" / f"{name}.case").read_text("utf-8").split("\n---\n")[0] + "\n"


def good_texts() -> list[str]:
    return [case_text(name) for name in GOOD]


def fragments() -> list[str]:
    """Words and marks of every case, for splicing into other lines."""
    words = {word for name in (*GOOD, "slips") for word in case_text(name).split()}
    return [
        *sorted(words),
        "\t",
        '"',
        "'",
        "“",
        "#",
        ",",
        "½",
        "?",
        "±",
        "\x00",
        "\u2028",
        "\r",
        "9" * 30,
        "İ",
        "ſ",
        "K",
    ]
