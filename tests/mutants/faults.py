"""The faults: what each kind of node of a syntax tree can be changed to."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from typing import Any

Change = tuple[int, int, str, ast.AST]  # line, column, what is done in words, the new node

COMPARED: dict[type[ast.cmpop], type[ast.cmpop]] = {
    **{ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt},
    **{ast.Eq: ast.NotEq, ast.NotEq: ast.Eq, ast.Is: ast.IsNot, ast.IsNot: ast.Is},
    **{ast.In: ast.NotIn, ast.NotIn: ast.In},
}
RECKONED: dict[type[ast.operator], type[ast.operator]] = {
    **{ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult},
    **{ast.FloorDiv: ast.Mult, ast.Mod: ast.Mult, ast.Pow: ast.Mult},
    **{ast.BitAnd: ast.BitOr, ast.BitOr: ast.BitAnd},
}
SWAPPED = {
    **{"min": "max", "max": "min", "any": "all", "all": "any"},
    **{"minimum": "maximum", "maximum": "minimum"},
}
SIGNS: dict[type[ast.AST], str] = {
    **{ast.Lt: "<", ast.LtE: "<=", ast.Gt: ">", ast.GtE: ">=", ast.Eq: "==", ast.NotEq: "!="},
    **{ast.Is: "is", ast.IsNot: "is not", ast.In: "in", ast.NotIn: "not in"},
    **{ast.Add: "+", ast.Sub: "-", ast.Mult: "*", ast.Div: "/", ast.FloorDiv: "//"},
    **{ast.Mod: "%", ast.Pow: "**", ast.BitAnd: "&", ast.BitOr: "|"},
    **{ast.And: "and", ast.Or: "or"},
}
# What can't be subtracted: the fault would be a TypeError that any test at all sees.
TEXTS = (ast.JoinedStr, ast.List, ast.Tuple, ast.ListComp, ast.Dict)
TELLING = ("print", "log", "logger", "logging", "warnings")


def changes(node: ast.AST) -> Iterator[Change]:
    """Every fault this node itself can have; those of the nodes inside it are theirs."""
    make = MAKERS.get(type(node))
    if make:
        yield from make(node)


def _to(old: type[ast.AST], new: type[ast.AST]) -> str:
    return f"{SIGNS[old]} to {SIGNS[new]}"


def _with(node: ast.AST, **fields: Any) -> ast.AST:
    """The node with other fields."""
    kept = dict(ast.iter_fields(node))
    return ast.copy_location(type(node)(**{**kept, **fields}), node)


def _compare(node: ast.Compare) -> Iterator[Change]:
    lefts = [node.left, *node.comparators]
    for place, op in enumerate(node.ops):
        new = COMPARED[type(op)]
        ops = [*node.ops[:place], new(), *node.ops[place + 1 :]]
        end = lefts[place]
        yield (
            end.end_lineno or end.lineno,
            end.end_col_offset or 0,
            _to(type(op), new),
            _with(node, ops=ops),
        )


def _reckon(node: ast.BinOp) -> Iterator[Change]:
    new = RECKONED.get(type(node.op))
    if new and not (_is_text(node.left) or _is_text(node.right)):
        end = node.left
        yield (
            end.end_lineno or end.lineno,
            end.end_col_offset or 0,
            _to(type(node.op), new),
            _with(node, op=new()),
        )


def _is_text(node: ast.expr) -> bool:
    return isinstance(node, TEXTS) or (
        isinstance(node, ast.Constant) and isinstance(node.value, (str, bytes, type(None)))
    )


def _augmented(node: ast.AugAssign) -> Iterator[Change]:
    new = RECKONED.get(type(node.op))
    if new and not _is_text(node.value):
        what = f"{SIGNS[type(node.op)]}= to {SIGNS[new]}="
        yield node.lineno, node.col_offset, what, _with(node, op=new())


def _joined(node: ast.BoolOp) -> Iterator[Change]:
    new = ast.Or if isinstance(node.op, ast.And) else ast.And
    end = node.values[0]
    line, column = end.end_lineno or end.lineno, end.end_col_offset or 0
    yield line, column, _to(type(node.op), new), _with(node, op=new())


def _unary(node: ast.UnaryOp) -> Iterator[Change]:
    if isinstance(node.op, ast.Not):
        yield node.lineno, node.col_offset, "not dropped", node.operand
    elif isinstance(node.op, ast.USub):
        yield node.lineno, node.col_offset, "- dropped", node.operand


def _constant(node: ast.Constant) -> Iterator[Change]:
    value: Any = node.value
    if isinstance(value, bool):
        new: Any = not value
    elif isinstance(value, (int, float)):
        new = value + 1
    else:
        return
    yield node.lineno, node.col_offset, f"{value} to {new}", _with(node, value=new)


def _subscript(node: ast.Subscript) -> Iterator[Change]:
    """[0] to [-1] and back; any other index is a number like others."""
    ends = {0: -1, -1: 0}
    place = index(node)
    if place in ends:
        new = ends[place]
        where = node.slice
        made = _with(node, slice=ast.copy_location(ast.Constant(new), where))
        yield where.lineno, where.col_offset, f"[{place}] to [{new}]", made


def index(node: ast.Subscript) -> int | None:
    """The whole number a subscript asks for, if it is one."""
    try:
        value = ast.literal_eval(node.slice)
    except (ValueError, TypeError):
        return None
    return value if type(value) is int else None


def _called(node: ast.Call) -> Iterator[Change]:
    inner = node.func
    if isinstance(inner, ast.Name) and inner.id in SWAPPED:
        old, new = inner.id, _with(inner, id=SWAPPED[inner.id])
    elif isinstance(inner, ast.Attribute) and inner.attr in SWAPPED:
        old, new = inner.attr, _with(inner, attr=SWAPPED[inner.attr])
    else:
        return
    yield node.lineno, node.col_offset, f"{old} to {SWAPPED[old]}", _with(node, func=new)


def _chosen(node: ast.IfExp) -> Iterator[Change]:
    made = _with(node, body=node.orelse, orelse=node.body)
    yield node.lineno, node.col_offset, "branches swapped", made


def _returned(node: ast.Return) -> Iterator[Change]:
    if node.value is not None and not _is_none_or_false(node.value):
        made = _with(node, value=ast.copy_location(ast.Constant(None), node.value))
        yield node.lineno, node.col_offset, "returned None", made


def _is_none_or_false(node: ast.expr) -> bool:
    return isinstance(node, ast.Constant) and (node.value is None or node.value is False)


def _statement(node: ast.Expr) -> Iterator[Change]:
    """A call made for what it does."""
    if isinstance(node.value, ast.Call):
        name = ast.unparse(node.value.func)
        if name.split(".")[0] not in TELLING:
            yield node.lineno, node.col_offset, f"{_last(name)}() dropped", ast.Pass()


def _last(name: str) -> str:
    return name.rsplit(".", 1)[-1]


MAKERS: dict[type[ast.AST], Any] = {
    **{ast.Compare: _compare, ast.BinOp: _reckon, ast.AugAssign: _augmented, ast.BoolOp: _joined},
    **{ast.UnaryOp: _unary, ast.Constant: _constant, ast.Subscript: _subscript},
    **{ast.Call: _called, ast.IfExp: _chosen, ast.Return: _returned, ast.Expr: _statement},
}
