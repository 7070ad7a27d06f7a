"""What a proof printed, kept with every look that it took: asked the same again, it is printed again."""

from __future__ import annotations

import marshal
import os
import sys
import time

from kitproof.kept import Kept
from kitproof.looks import Seen, same

SURROUNDINGS = ("NO_COLOR", "FORCE_COLOR", "COLORTERM", "TERM", "TTY_COMPATIBLE")
"""What may change how it is printed."""


def _name(keep: Kept, words: list[str]) -> str:
    """What names this very question: its words, the folder, the day, and what the surroundings say about printing."""
    around = [f"{each}={os.environ.get(each)}" for each in SURROUNDINGS]
    return keep.name(os.getcwd(), time.strftime("%Y-%m-%d"), str(sys.stdout.isatty()), *around, *words)


def answer(keep: Kept, words: list[str]) -> tuple[bytes, int] | None:
    """What to print, and the exit status; None where nothing is kept, or any look sees something else now."""
    found = keep.get("answer", _name(keep, words)) if keep.where else None
    if found is None:
        return None
    seen, printed, status = marshal.loads(found)
    return (printed, status) if same(seen) else None


def keep_answer(keep: Kept, words: list[str], seen: dict[tuple[str, str], Seen], printed: bytes, status: int) -> None:
    """Keeps what was printed for these words, and the exit status."""
    keep.put("answer", _name(keep, words), marshal.dumps((seen, printed, status)))
    keep.thin_out()
