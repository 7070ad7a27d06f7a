"""Small changes to the source of one module, each a mistake that somebody might make: `mutants_of`.

A mutant is one change at one place: a comparison turned about or widened, a sign, a number, `and` for `or`, `min` for
`max`, an argument in the wrong place, a statement left out, a condition that always or never holds. Docstrings,
annotations, decorators, bodies of classes and assertions are left alone.
"""

from __future__ import annotations

import ast
from collections import Counter
from collections.abc import Iterable, Iterator
from itertools import pairwise
from pathlib import Path
from typing import NamedTuple

Step = tuple[str, int | None]
"""A field of a node, and which of its list, None where it is not a list."""


class Mutant(NamedTuple):
    """One change. `was` and `now` are the text about it, the `nth` of its kind in the function, from 1."""

    module: str
    function: str
    was: str
    now: str
    nth: int
    lines: range
    path: tuple[Step, ...]
    node: ast.AST

    @property
    def name(self) -> tuple[str, str, str, str, int]:
        """What it is known by, wherever its lines move to."""
        return self.module, self.function, self.was, self.now, self.nth


def is_value(mutant: Mutant) -> bool:
    """Whether it is in a value that a module names, and not in a function."""
    return mutant.path[1] == ("value", None)


class _Place(NamedTuple):
    """Where a node stands: how to come to it, the function and the statement that it is in, and what holds it."""

    path: tuple[Step, ...]
    function: str
    statement: ast.stmt
    above: ast.AST


Found = tuple[_Place, ast.AST, ast.AST]
"""A place, what stands there, and what is to stand there."""


def only(mutants: Iterable[Mutant], file: Path) -> list[Mutant]:
    """Those of them that a file names, as `tests.mutants.run --survivors` writes it."""
    wanted = set(file.read_text(encoding="utf-8").splitlines())
    return [each for each in mutants if repr(each.name) in wanted]


def mutants_of(module: str, source: str) -> list[Mutant]:
    """Every mutant of a module's source, in the order of its lines."""
    tree = ast.parse(source)
    mutants: list[Mutant] = []
    met: Counter[tuple[str, str, str]] = Counter()
    for number, statement in enumerate(tree.body):
        for place, old, new in _in_top(statement, (("body", number),), tree):
            was, now = _texts(place, old, new)
            if was == now:
                continue
            met[place.function, was, now] += 1
            nth = met[place.function, was, now]
            mutants.append(Mutant(module, place.function, was, now, nth, _lines(place), place.path, new))
    return mutants


def changed(tree: ast.Module, mutant: Mutant) -> ast.stmt:
    """The statement at the top of a fresh tree that holds a mutant, the change made in it."""
    *before, (field, at) = mutant.path
    holder: ast.AST = tree
    for step in before:
        holder = _at(holder, step)
    if at is None:
        setattr(holder, field, mutant.node)
    else:
        getattr(holder, field)[at] = mutant.node
    top = mutant.path[0][1]
    assert top is not None, "every path begins with a statement of the module"
    return ast.fix_missing_locations(tree.body[top])


def _at(node: ast.AST, step: Step) -> ast.AST:
    field, at = step
    found = getattr(node, field)
    return found if at is None else found[at]  # type: ignore[no-any-return]  # a path leads from node to node only


def _lines(place: _Place) -> range:
    """The lines of a statement, without those of the statements inside it; of a default, those of its function."""
    if isinstance(place.statement, ast.FunctionDef):
        return range(place.statement.lineno, (place.statement.end_lineno or 0) + 1)
    inner = getattr(place.statement, "body", None)
    last = max(place.statement.lineno, inner[0].lineno - 1) if inner else place.statement.end_lineno
    return range(place.statement.lineno, (last or place.statement.lineno) + 1)


def _in_top(node: ast.stmt, path: tuple[Step, ...], above: ast.AST, within: str = "") -> Iterator[Found]:
    if isinstance(node, ast.FunctionDef):
        yield from _in_function(node, path, f"{within}{node.name}")
    elif isinstance(node, ast.ClassDef):
        for number, inner in enumerate(node.body):
            if isinstance(inner, ast.FunctionDef):
                yield from _in_top(inner, (*path, ("body", number)), node, f"{within}{node.name}.")
    elif isinstance(node, ast.Assign | ast.AnnAssign) and node.value is not None and not within:
        target = node.targets[0] if isinstance(node, ast.Assign) else node.target
        if isinstance(target, ast.Name) and not _is_type(node.value):
            yield from _in_expression(node.value, _Place((*path, ("value", None)), target.id, node, node))


def _is_type(value: ast.expr) -> bool:
    """Whether what a module names is a type, or a set of facts or rules that is collected when it is imported."""
    return isinstance(value, ast.Name | ast.Subscript) or (
        isinstance(value, ast.BinOp) and isinstance(value.op, ast.BitOr)
    )


def _in_function(node: ast.FunctionDef, path: tuple[Step, ...], name: str) -> Iterator[Found]:
    arguments = node.args
    for field in ("defaults", "kw_defaults"):
        for number, value in enumerate(getattr(arguments, field)):
            if value is not None:
                place = _Place((*path, ("args", None), (field, number)), name, node, arguments)
                yield from _in_expression(value, place)
    yield from _in_body(node, "body", path, name)


def _in_body(node: ast.AST, field: str, path: tuple[Step, ...], name: str) -> Iterator[Found]:
    for number, statement in enumerate(getattr(node, field)):
        yield from _in_statement(statement, _Place((*path, (field, number)), name, statement, node))


def _in_statement(node: ast.stmt, place: _Place) -> Iterator[Found]:
    if isinstance(node, ast.Assert) or (isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)):
        return
    if isinstance(node, ast.FunctionDef):
        yield from _in_function(node, place.path, f"{place.function}.{node.name}")
        return
    yield from ((place, node, new) for new in _other_statements(node))
    for field, value in ast.iter_fields(node):
        if field in ("body", "orelse", "finalbody"):
            yield from _in_body(node, field, place.path, place.function)
        elif field == "handlers":
            for number, handler in enumerate(value):
                yield from _in_body(handler, "body", (*place.path, (field, number)), place.function)
        elif field == "cases":
            for number, case in enumerate(value):
                yield from _in_body(case, "body", (*place.path, (field, number)), place.function)
        elif field not in ("annotation", "target", "targets"):
            yield from _in_field(node, field, value, place)


def _in_field(node: ast.AST, field: str, value: object, place: _Place) -> Iterator[Found]:
    several = value if isinstance(value, list) else [value]
    for number, inner in enumerate(several):
        if isinstance(inner, ast.AST) and not isinstance(
            inner, ast.expr_context | ast.operator | ast.cmpop | ast.boolop
        ):
            step = (field, number if isinstance(value, list) else None)
            yield from _in_expression(inner, place._replace(path=(*place.path, step), above=node))


def _in_expression(node: ast.AST, place: _Place) -> Iterator[Found]:
    if isinstance(node, ast.keyword) and node.arg == "strict":
        return  # a guard like an assertion
    yield from ((place, node, new) for new in _others(node, place.above))
    for field, value in ast.iter_fields(node):
        if not (isinstance(node, ast.FormattedValue) and field == "format_spec"):
            yield from _in_field(node, field, value, place)


def _texts(place: _Place, old: ast.AST, new: ast.AST) -> tuple[str, str]:
    """The text about a change, before and after: of the expression that holds it, or of the statement."""
    if isinstance(old, ast.stmt):
        return _head(old), _head(new)
    field, at = place.path[-1]
    whole = place.above if isinstance(place.above, ast.expr | ast.keyword | ast.comprehension) else old
    if whole is old:
        return ast.unparse(old), ast.unparse(new)
    was = ast.unparse(whole)
    values = getattr(whole, field)
    if at is None:
        setattr(whole, field, new)
    else:
        values[at] = new
    now = ast.unparse(whole)
    if at is None:
        setattr(whole, field, old)
    else:
        values[at] = old
    return was, now


def _head(node: ast.AST) -> str:
    return ast.unparse(node).partition("\n")[0]


def _other_statements(node: ast.stmt) -> Iterator[ast.stmt]:
    nothing = ast.copy_location(ast.Pass(), node)
    match node:
        case ast.Expr() | ast.AugAssign() | ast.Raise() | ast.Delete():
            yield nothing
        case ast.Assign(targets=[ast.Attribute() | ast.Subscript()]):
            yield nothing
        case ast.Return(value=value) if value is not None and not _is(value, None):
            yield ast.copy_location(ast.Return(ast.Constant(None)), node)
        case ast.Break():
            yield ast.copy_location(ast.Continue(), node)
        case ast.Continue():
            yield ast.copy_location(ast.Break(), node)


def _is(node: ast.AST, value: object) -> bool:
    return isinstance(node, ast.Constant) and node.value is value


COMPARISONS: dict[type[ast.cmpop], tuple[type[ast.cmpop], ...]] = {
    ast.Lt: (ast.LtE, ast.GtE),
    ast.LtE: (ast.Lt, ast.Gt),
    ast.Gt: (ast.GtE, ast.LtE),
    ast.GtE: (ast.Gt, ast.Lt),
    ast.Eq: (ast.NotEq,),
    ast.NotEq: (ast.Eq,),
    ast.Is: (ast.IsNot,),
    ast.IsNot: (ast.Is,),
    ast.In: (ast.NotIn,),
    ast.NotIn: (ast.In,),
}
SIGNS: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.FloorDiv: ast.Mult,
    ast.Mod: ast.Mult,
    ast.Pow: ast.Mult,
    ast.BitOr: ast.BitAnd,
    ast.BitAnd: ast.BitOr,
}
NAMES = {"min": "max", "max": "min", "any": "all", "all": "any", "floor": "ceil", "ceil": "floor", "sin": "cos"}
NAMES |= {"cos": "sin", "startswith": "endswith", "endswith": "startswith", "lstrip": "rstrip", "rstrip": "lstrip"}
NAMES |= {"bisect_left": "bisect_right", "bisect_right": "bisect_left"}


def _others(node: ast.AST, above: ast.AST) -> Iterator[ast.AST]:
    """What else might stand in the place of an expression."""
    for new in _unplaced(node, above):
        yield ast.copy_location(new, node) if isinstance(node, ast.expr) else new


def _unplaced(node: ast.AST, above: ast.AST) -> Iterator[ast.AST]:
    match node:
        case ast.Compare(left=left, ops=ops, comparators=comparators):
            for number, sign in enumerate(ops):
                for other in COMPARISONS[type(sign)]:
                    yield ast.Compare(left, [*ops[:number], other(), *ops[number + 1 :]], comparators)
        case ast.BinOp(left=left, op=op, right=right) if type(op) in SIGNS:
            yield ast.BinOp(left, SIGNS[type(op)](), right)
        case ast.UnaryOp(op=ast.Not() | ast.USub(), operand=operand):
            yield operand
        case ast.BoolOp(op=op, values=values):
            yield ast.BoolOp(ast.Or() if isinstance(op, ast.And) else ast.And(), values)
            for number in range(len(values)):
                left_over = [*values[:number], *values[number + 1 :]]
                yield left_over[0] if len(left_over) == 1 else ast.BoolOp(op, left_over)
        case ast.Constant(value=value) if not isinstance(above, ast.FormattedValue):
            yield from (ast.Constant(other) for other in _other_values(value))
        case ast.Call(func=func, args=args, keywords=keywords):
            yield from _other_calls(func, args, keywords)
        case ast.IfExp(body=body, orelse=orelse):
            yield body
            yield orelse
        case ast.Subscript(slice=ast.Slice()):
            yield from _other_slices(node)
        case ast.comprehension(ifs=[_, *_] as ifs):
            for number in range(len(ifs)):
                fewer = [*ifs[:number], *ifs[number + 1 :]]
                yield ast.comprehension(node.target, node.iter, fewer, node.is_async)
        case ast.Attribute(attr="inf"):
            yield ast.Constant(0.0)
        case ast.List(elts=[_, _, *_] as elements) | ast.Set(elts=[_, _, *_] as elements):
            for number in range(len(elements)):
                rest = [*elements[:number], *elements[number + 1 :]]
                yield ast.Set(rest) if isinstance(node, ast.Set) else ast.List(rest, ast.Load())
    if isinstance(above, ast.If | ast.While) and node is above.test:
        yield ast.Constant(False)
        if isinstance(above, ast.If):
            yield ast.Constant(True)


def _other_values(value: object) -> Iterator[bool | int | float | str]:
    match value:
        case bool():
            yield not value
        case int():
            yield value + 1
        case float():
            yield 1.0 if value == 0 else value * 1.5
        case str() if value:
            yield f"{value}~"


def _other_calls(func: ast.expr, args: list[ast.expr], keywords: list[ast.keyword]) -> Iterator[ast.expr]:
    match func:
        case ast.Name(id=name) if name in NAMES:
            yield ast.Call(ast.copy_location(ast.Name(NAMES[name], ast.Load()), func), args, keywords)
        case ast.Name(id="abs" | "sorted" | "set" | "tuple" | "frozenset") if args:
            yield args[0]
        case ast.Attribute(value=of, attr=name) if name in NAMES:
            yield ast.Call(ast.copy_location(ast.Attribute(of, NAMES[name], ast.Load()), func), args, keywords)
    for number, (one, other) in enumerate(pairwise(args)):
        if ast.dump(one) != ast.dump(other) and not isinstance(one, ast.Starred) and not isinstance(other, ast.Starred):
            if isinstance(func, ast.Name) and func.id in ("min", "max", "isinstance", "cast"):
                continue
            yield ast.Call(func, [*args[:number], other, one, *args[number + 2 :]], keywords)
    for number, each in enumerate(keywords):
        if each.arg in ("key", "default", "reverse"):
            yield ast.Call(func, args, [*keywords[:number], *keywords[number + 1 :]])


def _other_slices(node: ast.Subscript) -> Iterator[ast.expr]:
    whole = node.slice
    assert isinstance(whole, ast.Slice), "asked by whoever calls"
    if whole.lower is not None:
        yield ast.Subscript(node.value, ast.Slice(None, whole.upper, whole.step), node.ctx)
    if whole.upper is not None:
        yield ast.Subscript(node.value, ast.Slice(whole.lower, None, whole.step), node.ctx)
    if whole.step is not None:
        yield ast.Subscript(node.value, ast.Slice(whole.lower, whole.upper, None), node.ctx)
