"""The bytes of a file as text, and back again with not one of them changed."""

from __future__ import annotations

import codecs

from msgspec import Struct

_WIDE = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)


class FileText(Struct, frozen=True):
    """The text of a file, and the byte-order mark before it (none: no bytes).

    A byte that is no UTF-8 stands as a character that no line may have, so that its line is one that cannot be read.
    """

    text: str
    mark: bytes = b""

    def with_text(self, text: str) -> bytes:
        """The bytes of another text in the place of this one."""
        return self.mark + text.encode("utf-8", "surrogateescape")


def opened(data: bytes) -> FileText | None:
    """The text of a file; None for UTF-16, which is not changed but saved again as UTF-8 by whoever wrote it."""
    if data.startswith(_WIDE):
        return None
    mark = codecs.BOM_UTF8 if data.startswith(codecs.BOM_UTF8) else b""
    return FileText(data[len(mark) :].decode("utf-8", "surrogateescape"), mark)
