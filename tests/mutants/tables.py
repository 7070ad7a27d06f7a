"""`python -m tests.mutants.tables MODULE…`: would a test find a mistake in a table that is taken up at once?

What a module makes when it is imported others may take up right then: the registry of facts takes the house's numbers,
a class takes its defaults. A change that is put in later comes too late, and `tests.mutants.run` calls it a survivor.
Here each change of such a value is there from the first import on, in a process of its own, and a fixed set of quick
tests is run, so that one is not called caught for less.
"""

from __future__ import annotations

import argparse
import ast
import os
import sys
from collections import Counter
from collections.abc import Sequence
from importlib import import_module
from importlib.abc import Loader, MetaPathFinder
from importlib.machinery import ModuleSpec
from importlib.util import spec_from_loader
from pathlib import Path
from types import CodeType, ModuleType

import pytest

from tests.mutants.changes import Mutant, changed, is_value, mutants_of, only
from tests.mutants.known import entry, known

PACKAGE = Path(__file__).parents[2] / "lint" / "kitproof"
TESTS = (
    "tests/house/test_reference.py",
    "tests/facts/test_wordings.py",
    "tests/facts/test_fields.py",
    "tests/samples/test_expected.py",
)
BEFOREHAND = ("hypothesis", "lark", "click", "click.testing", "msgspec", "tomllib", "decimal", "xdist", "jsonschema")
"""What takes long to import and knows nothing of ours."""


class _Changed(MetaPathFinder, Loader):
    """Gives one module with its change in it, and leaves all others to whoever finds them."""

    def __init__(self, name: str, path: Path, code: CodeType) -> None:
        self._name, self._path, self._code = name, path, code

    def find_spec(self, fullname: str, path: object, target: ModuleType | None = None) -> ModuleSpec | None:
        return spec_from_loader(fullname, self, origin=str(self._path)) if fullname == self._name else None

    def exec_module(self, module: ModuleType) -> None:
        module.__file__ = str(self._path)
        exec(self._code, vars(module))


def made_at_import(module: str, *, whole: bool) -> list[Mutant]:
    """The mutants of the values that a module makes when it is imported; or all of it, where its functions run then."""
    source = (PACKAGE / f"{module}.py").read_text(encoding="utf-8")
    return [each for each in mutants_of(module, source) if whole or is_value(each)]


def code_of(module: str, mutant: Mutant | None) -> CodeType:
    tree = ast.parse((PACKAGE / f"{module}.py").read_text(encoding="utf-8"))
    if mutant is not None:
        changed(tree, mutant)
    return compile(tree, str(PACKAGE / f"{module}.py"), "exec")


def fails(module: str, mutant: Mutant | None, tests: Sequence[str]) -> bool:
    """Whether a test fails where everything is imported with a change in a module, or with none."""
    child = os.fork()
    if child == 0:
        _tried(module, mutant, tests)
    _, status = os.waitpid(child, 0)
    return status != 0


def _tried(module: str, mutant: Mutant | None, tests: Sequence[str]) -> None:
    ended = 1
    try:
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, 1)
        os.dup2(nowhere, 2)
        name = "kitproof." + module.replace("/", ".")
        sys.meta_path.insert(0, _Changed(name, PACKAGE / f"{module}.py", code_of(module, mutant)))
        as_it_is = ["-W", "ignore::pytest.PytestAssertRewriteWarning"]  # of what is imported beforehand
        ended = int(pytest.main(["-q", "-x", "-p", "no:cacheprovider", *as_it_is, *tests]))
    finally:
        os._exit(ended)


def main() -> int:
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("modules", nargs="+", metavar="MODULE")
    asked.add_argument("--tests", nargs="+", default=TESTS)
    asked.add_argument("--only", type=Path, help="try those of a file that --survivors of tests.mutants.run wrote")
    asked.add_argument(
        "--whole", action="store_true", help="functions too: those of the registry run when it is imported"
    )
    options = asked.parse_args()
    for name in BEFOREHAND:
        import_module(name)
    mutants = [each for module in options.modules for each in made_at_import(module, whole=options.whole)]
    if options.only:
        mutants = only(mutants, options.only)
    if fails(options.modules[0], None, options.tests):
        raise SystemExit("the tests fail on the code as it is")
    listed = {each.name for each in known()}
    count, left = Counter[str](), []
    for number, mutant in enumerate(mutants, start=1):
        caught = fails(mutant.module, mutant, options.tests)
        word = "caught" if caught else "listed" if mutant.name in listed else "open"
        count[word] += 1
        left += [mutant] if word == "open" else []
        print(f"{number}/{len(mutants)} {word}: {mutant.module} {mutant.function}: {mutant.now}", file=sys.stderr)
    print(f"{len(mutants)} made, {count['caught']} caught, {count['listed']} listed, {count['open']} open")
    for mutant in left:
        print(f"\n# line {mutant.lines.start}\n{entry(mutant.name)}")
    return 1 if left else 0


if __name__ == "__main__":
    sys.exit(main())
