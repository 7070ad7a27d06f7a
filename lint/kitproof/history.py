"""The history of a folder, read with git as a program of its own: what has changed, and files as they were.

Nothing is fetched, asked for or written, and no program that a repository names is run.
"""

from __future__ import annotations

import os
from pathlib import Path

from kitproof.words.nearest import nearest

NONE_KEPT = "This folder keeps no history."
NO_GIT = "The history of a folder is read with git, and git is not on this machine."

_OF_A_HOOK = ("GIT_DIR", "GIT_WORK_TREE", "GIT_INDEX_FILE", "GIT_PREFIX", "GIT_OBJECT_DIRECTORY", "GIT_NAMESPACE")
"""What git tells the hooks that it runs; here it would lead to another repository than the list's own."""
_QUIET = {"LC_ALL": "C", "GIT_OPTIONAL_LOCKS": "0", "GIT_TERMINAL_PROMPT": "0", "GIT_LITERAL_PATHSPECS": "1"}
_FILE = ("100644", "100755")
"""How git marks a plain file; links, folders and other repositories are marked otherwise."""


class NoHistoryError(Exception):
    """A history that cannot be read as asked; its text says why, in a person's words.

    `none` is True where the folder has none at all.
    """

    def __init__(self, says: str, none: bool = False) -> None:
        super().__init__(says)
        self.none = none


class History:
    """The repository that a folder lies in. Raises NoHistoryError where it lies in none."""

    def __init__(self, folder: Path) -> None:
        self.top = folder
        self.top = Path(os.fsdecode(self._git("rev-parse", "--show-toplevel").rstrip(b"\r\n")))

    def commit(self, revision: str) -> str:
        """What names a revision for good. Raises NoHistoryError for one that is not there."""
        try:
            asked = f"{revision}^{{commit}}"
            return self._git("rev-parse", "--verify", "--quiet", "--end-of-options", asked).decode("ascii").strip()
        except NoHistoryError:
            raise NoHistoryError(self._no_revision(revision)) from None

    def _no_revision(self, revision: str) -> str:
        says = f'There is no revision "{revision}" here.'
        if self._git("rev-parse", "--is-shallow-repository").strip() == b"true":
            return (
                f"{says} This clone is shallow, so that older revisions are not in it: "
                "fetch the whole history first, with git fetch --unshallow."
            )
        names = self._git("for-each-ref", "--format=%(refname:short)").decode("utf-8", "replace").split()
        near = nearest(revision, ("HEAD", *names))
        return f"{says} The nearest: {', '.join(near)}." if near else says

    def changed_after(self, commit: str) -> frozenset[Path]:
        """The files that differ now from what they were, those that are new or gone, and those not yet added."""
        differ = ("diff", "--name-only", "-z", "--no-renames", "--no-ext-diff", "--no-textconv", commit, "--")
        new = ("ls-files", "--others", "--exclude-standard", "-z")
        names = [name for words in (differ, new) for name in self._git(*words).split(b"\0") if name]
        found = [self.top / os.fsdecode(name) for name in names]
        return frozenset([*found, *(Path(os.path.realpath(each)) for each in found)])

    def file(self, commit: str, path: Path) -> bytes | None:
        """A file as it was, by its whole path; None where it was not there as a plain file."""
        if not path.is_relative_to(self.top):
            return None
        name = path.relative_to(self.top).as_posix()
        listed = self._git("ls-tree", "-z", "--full-tree", commit, "--", name)
        mode, _, rest = listed.partition(b"\0")[0].partition(b" ")
        if mode.decode() not in _FILE:
            return None
        return self._git("cat-file", "blob", rest.split()[1].decode("ascii"))

    def _git(self, *words: str) -> bytes:
        """What git prints from the top. Raises NoHistoryError where it cannot do as asked."""
        import subprocess  # only where there is a history to read

        surroundings = {name: value for name, value in os.environ.items() if name not in _OF_A_HOOK}
        command = ("git", "-c", "core.fsmonitor=false", *words)
        try:
            ended = subprocess.run(
                command, cwd=self.top, env={**surroundings, **_QUIET}, stdin=subprocess.DEVNULL, capture_output=True
            )
        except OSError as error:
            raise NoHistoryError(NO_GIT if isinstance(error, FileNotFoundError) else NONE_KEPT, none=True) from error
        if ended.returncode == 0:
            return ended.stdout
        complaint = ended.stderr.decode("utf-8", "replace").strip().partition("\n")[0].removeprefix("fatal: ")
        if complaint.startswith("not a git repository"):
            raise NoHistoryError(NONE_KEPT, none=True)
        raise NoHistoryError(f"The history of this folder cannot be read. Git says: {complaint}")
