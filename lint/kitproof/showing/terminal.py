"""Lines with styles on a terminal, by rich."""

from __future__ import annotations

from collections.abc import Sequence

from kitproof.showing.text import Line

STYLES = {
    "stop": "bold red",
    "wrong": "bold magenta",
    "watch": "bold yellow",
    "note": "bold cyan",
    "title": "bold",
    "word": "dim",
    "place": "dim",
    "": "",
}


def styled(lines: Sequence[Line]) -> str:
    """Lines with the codes that style them on this terminal, as wide as they are written: wrapping is done already."""
    from rich.console import Console
    from rich.text import Text

    console = Console(highlight=False, soft_wrap=True)
    with console.capture() as captured:
        for line in lines:
            text = Text()
            for piece in line:
                text.append(piece.text.encode("utf-8", errors="replace").decode("utf-8"), STYLES[piece.style])
            console.print(text)
    return captured.get()
