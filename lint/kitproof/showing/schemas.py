"""The JSON Schemas (draft 2020-12) of what is printed for machines, as they ship beside this module."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

FOLDER = Path(__file__).with_name("schemas")


def schema(name: str) -> dict[str, Any]:
    """The schema of an output by the name that stands in it, `kitproof/findings/1`. Raises KeyError for any other."""
    file = FOLDER / f"{name.removeprefix('kitproof/').replace('/', '-')}.json"
    if not name.startswith("kitproof/") or not file.is_file():
        raise KeyError(name)
    found: dict[str, Any] = json.loads(file.read_text("utf-8"))
    return found
