"""Puts a mutant into the modules as they are loaded, so that nothing need be imported anew: `Live.put_in`.

A changed function gives its code to the functions that are there. A value that a module names is worked out again and
put in the place of the old one wherever that was imported under its name.
"""

from __future__ import annotations
import __future__

import ast
import gc
import sys
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from types import CodeType, FunctionType, ModuleType

from kitproof.reading.entries import read
from kitproof.rulebook.expressions import parse
from kitproof.words import shipped
from tests.mutants.changes import Mutant, changed, is_value

PACKAGE = Path(shipped.__file__).parents[1]

Key = tuple[str, str, int]
"""The file, the name in full and the first line of a function."""


def path_of(module: str) -> Path:
    """The file of a module by its room and its name: "mechanics/ranges"."""
    return PACKAGE / f"{module}.py"


class CannotPutInError(Exception):
    """A mutant that loaded modules cannot take in."""


class Live:
    """The functions and the modules of Kitproof as they are loaded."""

    def __init__(self) -> None:
        self._functions: dict[Key, list[FunctionType]] = defaultdict(list)
        self._remembering = [each for each in gc.get_objects() if type(each).__name__ == "_lru_cache_wrapper"]
        here = str(PACKAGE)
        for each in gc.get_objects():
            if isinstance(each, FunctionType) and each.__code__.co_filename.startswith(here):
                self._functions[_key(each.__code__)].append(each)
        self._sources = {path: path.read_text(encoding="utf-8") for path in _files()}

    def source(self, module: str) -> str:
        return self._sources[path_of(module)]

    def lines_that_use(self, mutant: Mutant) -> dict[str, set[int]]:
        """By file, the lines whose running shows that a mutant is reached: those of a function that is changed, or of
        every function that uses a changed value of a module."""
        here = str(path_of(mutant.module))
        if not is_value(mutant):
            return {here: set(mutant.lines)}
        lines: dict[str, set[int]] = defaultdict(set)
        for functions in self._functions.values():
            for each in functions:
                if mutant.function in names_in(each.__code__):
                    lines[each.__code__.co_filename] |= {line for _, _, line in each.__code__.co_lines() if line}
        return dict(lines)

    def forget(self, module: str) -> None:
        """Empties what functions of a module remember of their answers."""
        name = _module(module).__name__
        for each in self._remembering:
            if each.__module__ == name:
                each.cache_clear()

    def put_in(self, mutant: Mutant) -> None:
        """Changes what is loaded. There is no way back: this is for a process that ends when its tests are run."""
        self.forget(mutant.module)
        path = path_of(mutant.module)
        statement = changed(ast.parse(self._sources[path]), mutant)
        code = compile(
            ast.Module([statement], []), str(path), "exec", __future__.annotations.compiler_flag, dont_inherit=True
        )
        if is_value(mutant):
            _replace_value(mutant, code)
        elif ("args", None) in mutant.path:
            self._replace_defaults(mutant, statement)
        else:
            self._replace_code(code)

    def _replace_code(self, code: CodeType) -> None:
        new: dict[Key, list[CodeType]] = defaultdict(list)
        for each in _inside(code):
            new[_key(each)].append(each)
        done = 0
        for key, codes in new.items():
            for function in self._functions[key]:
                if len(codes) > 1:
                    raise CannotPutInError(f"two functions begin at line {key[2]}")
                if function.__code__ != codes[0]:
                    done += _give(function, codes[0])
        if not done:
            raise CannotPutInError("no such function is loaded, or its code stays as it is")

    def _replace_defaults(self, mutant: Mutant, statement: ast.stmt) -> None:
        for each in ast.walk(statement):
            if not isinstance(each, ast.FunctionDef):
                continue
            first = each.decorator_list[0].lineno if each.decorator_list else each.lineno
            for function in self._functions[str(path_of(mutant.module)), mutant.function, first]:
                function.__defaults__ = tuple(_worked_out(value, function) for value in each.args.defaults) or None
                named = zip(each.args.kwonlyargs, each.args.kw_defaults, strict=True)
                with_default = {name.arg: _worked_out(value, function) for name, value in named if value is not None}
                function.__kwdefaults__ = with_default or None


def _files() -> Iterator[Path]:
    return PACKAGE.rglob("*.py")


def _module(module: str) -> ModuleType:
    return sys.modules["kitproof." + module.removesuffix("/__init__").replace("/", ".")]


def _key(code: CodeType) -> Key:
    return code.co_filename, code.co_qualname, code.co_firstlineno


def _inside(code: CodeType) -> Iterator[CodeType]:
    for each in code.co_consts:
        if isinstance(each, CodeType):
            yield each
            yield from _inside(each)


def names_in(code: CodeType) -> set[str]:
    """The names that a function uses."""
    return {*code.co_names, *(name for inner in _inside(code) for name in inner.co_names)}


def _give(function: FunctionType, code: CodeType) -> int:
    """1 where the function takes the code. One made by another function may not: that is made anew with the change."""
    try:
        function.__code__ = code
    except ValueError:
        return 0
    return 1


def _worked_out(value: ast.expr, function: FunctionType) -> object:
    return eval(compile(ast.Expression(value), "<default>", "eval"), function.__globals__)


def _replace_value(mutant: Mutant, code: CodeType) -> None:
    home = _module(mutant.module)
    old = vars(home).get(mutant.function)
    exec(code, vars(home))
    new = vars(home)[mutant.function]
    for module in _loaded():
        for name, value in list(vars(module).items()):
            if name == mutant.function and value is old:
                setattr(module, name, new)


def _loaded() -> Iterable[ModuleType]:
    is_ours: Callable[[str], bool] = lambda name: name.startswith(("kitproof", "tests"))  # noqa: E731
    return [module for name, module in list(sys.modules.items()) if is_ours(name)]


def warm() -> None:
    """Reads something, so that the readers of both grammars are made once and not for every mutant."""
    read('part camera "Brack"\n  mass 1 kg\n', "")
    parse("1 > 2")
