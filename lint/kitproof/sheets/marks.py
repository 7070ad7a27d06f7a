"""What the sender of an XLSX file has struck out or hidden: values alone do not show it, and such a row is in doubt."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from html import unescape

from msgspec import Struct

_SHEET = re.compile(rb"<(?:\w+:)?sheet\b[^>]*>")
_RELATION = re.compile(rb"<Relationship\b[^>]*>")
_FONTS = re.compile(rb"<(?:\w+:)?fonts\b[^>]*>(.*?)</(?:\w+:)?fonts>", re.DOTALL)
_FONT = re.compile(rb"<(?:\w+:)?font(?:\s[^>]*)?(?:/>|>(.*?)</(?:\w+:)?font>)", re.DOTALL)
_STRUCK = re.compile(rb"""<(?:\w+:)?strike(?:\s+val\s*=\s*["'](?:1|true)["'])?\s*/>""")
_CELL_STYLES = re.compile(rb"<(?:\w+:)?cellXfs\b[^>]*>(.*?)</(?:\w+:)?cellXfs>", re.DOTALL)
_STYLE = re.compile(rb"<(?:\w+:)?xf\b([^>]*)>")
_FONT_OF = re.compile(rb"""\bfontId\s*=\s*["'](\d+)["']""")
_CELL = re.compile(rb"<(?:\w+:)?c\b([^>]*)>(?:\s*<(?:\w+:)?v>(\d+)<)?")
_PLACE_OF = re.compile(rb"""\br\s*=\s*["']([A-Z]{1,3})(\d+)["']""")
_STYLE_OF = re.compile(rb"""\bs\s*=\s*["'](\d+)["']""")
_IS_SHARED = re.compile(rb"""\bt\s*=\s*["']s["']""")
_TEXT = re.compile(rb"<(?:\w+:)?si\b.*?</(?:\w+:)?si\s*>", re.DOTALL)
_HIDDEN_ROW = re.compile(rb"""<(?:\w+:)?row\b(?=[^>]*\bhidden\s*=\s*["'](?:1|true)["'])[^>]*\br\s*=\s*["'](\d+)["']""")


class Marks(Struct, frozen=True):
    """The cells of a sheet that are struck out, wholly or in part, by the number of the row and the column's letters;
    and the numbers of the rows that are hidden."""

    struck: frozenset[tuple[int, str]] = frozenset()
    hidden: frozenset[int] = frozenset()


NO_MARKS = Marks()


def marks_of(parts: Mapping[str, bytes]) -> dict[str, Marks]:
    """The marks of each sheet, by its name, from the parts of an XLSX file; nothing for a file of another kind."""
    styles = _struck_styles(parts.get("xl/styles.xml", b""))
    texts = _struck_texts(parts.get("xl/sharedStrings.xml", b""))
    found = {}
    for name, part in _sheets(parts):
        text = parts.get(part, b"")
        struck = frozenset(_struck_cells(text, styles, texts)) if styles or texts else frozenset()
        found[name] = Marks(struck, frozenset(int(row) for row in _HIDDEN_ROW.findall(text)))
    return found


def _sheets(parts: Mapping[str, bytes]) -> Iterator[tuple[str, str]]:
    """Each sheet's name, and the part that it stands in."""
    targets = {
        _attribute(each[0], b"Id"): _attribute(each[0], b"Target")
        for each in _RELATION.finditer(parts.get("xl/_rels/workbook.xml.rels", b""))
    }
    for found in _SHEET.finditer(parts.get("xl/workbook.xml", b"")):
        target = targets.get(_attribute(found[0], rb"\w+:id"), "")
        yield unescape(_attribute(found[0], b"name")), target.lstrip("/") if target[:1] == "/" else f"xl/{target}"


def _attribute(element: bytes, name: bytes) -> str:
    found = re.search(rb"\s" + name + rb"""\s*=\s*(?:"([^"]*)"|'([^']*)')""", element)
    return (found[1] or found[2] or b"").decode("utf-8", "replace") if found else ""


def _struck_styles(styles: bytes) -> frozenset[int]:
    """The styles of cells whose font is struck out."""
    fonts, cells = _FONTS.search(styles), _CELL_STYLES.search(styles)
    if not fonts or not cells or b"strike" not in fonts[1]:
        return frozenset()
    struck = {number for number, font in enumerate(_FONT.finditer(fonts[1])) if _STRUCK.search(font[1] or b"")}
    of_styles = (_FONT_OF.search(style[1]) for style in _STYLE.finditer(cells[1]))
    return frozenset(number for number, font in enumerate(of_styles) if font and int(font[1]) in struck)


def _struck_texts(shared: bytes) -> frozenset[int]:
    """The texts, kept once for all cells, of which some words are struck out."""
    if b"strike" not in shared:
        return frozenset()
    return frozenset(number for number, text in enumerate(_TEXT.findall(shared)) if _STRUCK.search(text))


def _struck_cells(sheet: bytes, styles: frozenset[int], texts: frozenset[int]) -> Iterator[tuple[int, str]]:
    for cell in _CELL.finditer(sheet):
        about, text = cell[1], cell[2]
        if about.endswith(b"/"):  # an empty cell
            continue
        style, place = _STYLE_OF.search(about), _PLACE_OF.search(about)
        shared = text is not None and int(text) in texts and _IS_SHARED.search(about)
        if place and (shared or (style and int(style[1]) in styles)):
            yield int(place[2]), place[1].decode()
