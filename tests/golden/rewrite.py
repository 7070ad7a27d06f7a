"""Writes every golden file anew, or those named: `python -m tests.golden.rewrite`. Read the change, then keep it."""

from __future__ import annotations

import sys
from pathlib import Path

from tests.golden.cases import HERE, golden_files, read


def main(names: list[str]) -> int:
    changed = 0
    for path in [Path(name).resolve() for name in names] or golden_files():
        before = path.read_bytes()
        after = read(path).shown().encode()
        if after != before:
            path.write_bytes(after)
            changed += 1
            print(f"written: {path.relative_to(HERE)}")
    print(f"{changed} changed")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
