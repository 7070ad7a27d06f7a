"""Where output goes: a terminal with colour, anywhere else plain UTF-8, or a file."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from pathlib import Path

from kitproof.showing.text import Line, plain


def printed(lines: Sequence[Line], output: str | None) -> str:
    """Lines as text: for a terminal with styles, unless NO_COLOR is set; else, and for a file or a pipe, plain."""
    if output is None and sys.stdout.isatty() and not os.environ.get("NO_COLOR"):
        from kitproof.showing import terminal

        return terminal.styled(lines)
    return plain(lines)


def encoded(text: str) -> bytes:
    """Text as UTF-8; a byte of a file's name that is no text stands as a question mark."""
    return text.encode("utf-8", errors="replace")


def write(text: str, output: str | None) -> None:
    """Writes text and nothing else. A reader that has gone away is no fault; a file that cannot be written exits 2."""
    write_bytes(encoded(text), output)


def write_bytes(data: bytes, output: str | None) -> None:
    """The same for bytes as they are: a list whose text is not all UTF-8."""
    try:
        if output is not None:
            Path(output).write_bytes(data)
            return
        sys.stdout.buffer.write(data)
        sys.stdout.buffer.flush()
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    except OSError as error:
        print(f'"{output}" cannot be written: {(error.strerror or "no reason given").lower()}.', file=sys.stderr)
        raise SystemExit(2) from error
