"""The reader loads lark with the first value unlike any before, pint with the first unusual unit, and not earlier."""

from __future__ import annotations

import os
import subprocess
import sys

import pytest


@pytest.mark.parametrize(
    ("code", "loaded"),
    [
        ("import kitproof.reading", []),
        ("from kitproof.reading.entries import read; read('# nothing', 'a')", []),
        ("""from kitproof.reading.entries import read; read('part light "a"\\n  mass 14 lb\\n', 'a')""", ["lark"]),
        (
            """from kitproof.reading.entries import read; read('part light "a"\\n  mass 1 stone\\n', 'a')""",
            ["lark", "pint"],
        ),
    ],
)
def test_what_is_loaded(code: str, loaded: list[str]) -> None:
    show = "import sys; print(*sorted({'lark', 'pint'} & set(sys.modules)))"
    nothing_kept = {**os.environ, "KITPROOF_KEEPS_IN": ""}
    words = [sys.executable, "-c", f"{code}\n{show}"]
    run = subprocess.run(words, env=nothing_kept, capture_output=True, text=True, check=True)
    assert run.stdout.split() == loaded
