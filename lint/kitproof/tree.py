"""A small tree of files that lie in memory, looked at as one on disk is: nothing on disk is looked at for it."""

from __future__ import annotations

import os
from collections.abc import Mapping

from kitproof.looks import Looks, Seen

TOP_MARK = ".git"
"""What is there at the top of every tree: files outside it are used by none of its lists."""


class Tree(Looks):
    """Texts by their path from the top of the tree, with `/` between folders. Text stands for its UTF-8 bytes.

    The top stands for the current folder, as it is when the tree is made, so that paths are shown as they are given.
    Raises ValueError, in a person's words, for a path that does not lead into the tree.
    """

    def __init__(self, texts: Mapping[str, str | bytes]) -> None:
        super().__init__()
        self.top = os.getcwd()
        self.files: dict[str, bytes] = {}
        self.folders: dict[str, set[str]] = {"": set()}
        for path, text in texts.items():
            steps = os.path.normpath(path).replace(os.sep, "/").split("/")
            if not path or os.path.isabs(path) or steps[0] in ("..", "."):
                raise ValueError(f'"{path}" names no text in the tree. Name it by its path from the top, without "..".')
            # What no UTF-8 can hold is then said of the line that it stands in, as it is for a file.
            self.files["/".join(steps)] = text.encode("utf-8", "surrogatepass") if isinstance(text, str) else text
            for number in range(1, len(steps)):
                self.folders.setdefault("/".join(steps[:number]), set())
        for name in self.folders.keys() - {""}:
            self.folders[_folder(name)].add(f"{name.rsplit('/', 1)[-1]}/")
        for name in self.files:
            self.folders[_folder(name)].add(name.rsplit("/", 1)[-1])

    def _look(self, look: str, path: str) -> Seen:
        if look == "real":
            return os.path.abspath(path)
        if look == "link":
            return ""
        name = self._name(path)
        if look == "names":
            if name not in self.folders:
                raise FileNotFoundError(2, "no such folder", path)
            return tuple(sorted(self.folders[name]))
        is_folder, is_file = name in self.folders, name in self.files
        return {"folder": is_folder, "file": is_file}.get(look, is_folder or is_file or name == TOP_MARK)

    def bytes(self, path: str) -> bytes:
        name = self._name(path)
        if name not in self.files:
            raise FileNotFoundError(2, "no such file", path)
        return self.files[name]

    def _name(self, path: str) -> str:
        """A path from the top; one that does not lead into the tree as it is, which is the name of nothing in it."""
        whole = os.path.abspath(path)
        if whole == self.top:
            return ""
        inside = whole.startswith(self.top.rstrip(os.sep) + os.sep)
        return os.path.relpath(whole, self.top).replace(os.sep, "/") if inside else whole


def _folder(name: str) -> str:
    return name.rsplit("/", 1)[0] if "/" in name else ""
