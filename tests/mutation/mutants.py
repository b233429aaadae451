"""Small faults, planted one at a time in the text of a module: what a slip of the pen would do."""

import ast
import copy
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation

COMPARISONS = {
    ast.Lt: (ast.LtE, ast.GtE), ast.LtE: (ast.Lt, ast.Gt), ast.Gt: (ast.GtE, ast.LtE),
    ast.GtE: (ast.Gt, ast.Lt), ast.Eq: (ast.NotEq,), ast.NotEq: (ast.Eq,), ast.Is: (ast.IsNot,),
    ast.IsNot: (ast.Is,), ast.In: (ast.NotIn,), ast.NotIn: (ast.In,),
}  # fmt: skip
SUMS = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.Pow: ast.Mult,
    ast.FloorDiv: ast.Mult, ast.Mod: ast.Mult, ast.BitAnd: ast.BitOr, ast.BitOr: ast.BitAnd,
}  # fmt: skip
CALLS = {"min": "max", "max": "min", "any": "all", "all": "any", "ceil": "floor", "floor": "ceil"}


@dataclass(frozen=True)
class Mutant:
    """One planted fault: the line it is in, what it was, what it became, and the whole module."""

    line: int
    was: str
    becomes: str
    tree: ast.Module

    @property
    def name(self) -> str:
        """How it is told and looked up: not by its line, which moves."""
        return f"{self.was} → {self.becomes}"


def mutants(text: str) -> Iterator[Mutant]:
    """Yield the mutants of a module in the order of its lines."""
    tree = ast.parse(text)
    places = [node for node in _code(tree) if any(True for _ in _other(node))]
    for number, node in enumerate(places):
        for turn in range(len(list(_other(node)))):
            twin = copy.deepcopy(tree)
            place = [n for n in _code(twin) if any(True for _ in _other(n))][number]
            was = ast.unparse(place)
            other = list(_other(place))[turn]
            changed = _Replace(place, other).visit(twin)
            yield Mutant(
                line=getattr(node, "lineno", 0),
                was=was,
                becomes=ast.unparse(other),
                tree=ast.fix_missing_locations(changed),
            )


def _code(node: ast.AST) -> Iterator[ast.AST]:
    """Yield what is carried out: no annotation, no decorator, no text that is only read."""
    yield node
    for name, value in ast.iter_fields(node):
        if name in {"annotation", "returns", "decorator_list", "type_params", "format_spec"}:
            continue
        for child in value if isinstance(value, list) else [value]:
            if isinstance(child, ast.AST) and not _is_words(child):
                yield from _code(child)


def _is_words(node: ast.AST) -> bool:
    """Return whether a node is an error that is raised, or a text: wording is no arithmetic."""
    if isinstance(node, ast.JoinedStr | ast.ImportFrom | ast.Import):
        return True
    return isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)


def _other(node: ast.AST) -> Iterator[ast.AST]:
    """Yield what a node may be mistaken for."""
    match node:
        case ast.Compare():
            yield from _other_comparison(node)
        case ast.BinOp() | ast.BoolOp() | ast.UnaryOp():
            yield from _other_operator(node)
        case ast.If(test=test) | ast.IfExp(test=test):
            # A comparison is turned round where it stands.
            if isinstance(test, ast.Name | ast.Attribute | ast.Call):
                yield type(node)(ast.UnaryOp(ast.Not(), test), node.body, node.orelse)
        case ast.Constant(value=int(value) | float(value)):
            yield ast.Constant(not value if isinstance(value, bool) else value + 1)
        case ast.Call():
            yield from _other_call(node)
        case ast.Expr(value=ast.Call()) | ast.AugAssign():
            yield ast.Pass()


def _other_comparison(node: ast.Compare) -> Iterator[ast.AST]:
    first, *others = node.ops
    for kind in COMPARISONS[type(first)]:
        yield ast.Compare(node.left, [kind(), *others], node.comparators)
    if others:
        for kind in COMPARISONS[type(others[-1])]:
            yield ast.Compare(node.left, [*node.ops[:-1], kind()], node.comparators)


def _other_operator(node: ast.AST) -> Iterator[ast.AST]:
    match node:
        case ast.BinOp(op=op) if type(op) in SUMS and not _joins_texts(node):
            yield ast.BinOp(node.left, SUMS[type(op)](), node.right)
        case ast.BoolOp(op=op):
            yield ast.BoolOp(ast.And() if isinstance(op, ast.Or) else ast.Or(), node.values)
        case ast.UnaryOp(op=ast.Not() | ast.USub()):
            yield node.operand


def _other_call(node: ast.Call) -> Iterator[ast.AST]:
    match node:
        case ast.Call(func=ast.Name(id="Decimal"), args=[ast.Constant(value=str(value))]):
            yield from _other_decimal(value)
        case ast.Call(func=ast.Name(id=name)) if name in CALLS and node.args:
            yield ast.Call(ast.Name(CALLS[name], ast.Load()), node.args, node.keywords)
        case ast.Call(func=ast.Attribute(attr=name)) if name in CALLS:
            func = ast.Attribute(node.func.value, CALLS[name], ast.Load())
            yield ast.Call(func, node.args, node.keywords)


def _other_decimal(value: str) -> Iterator[ast.AST]:
    try:
        other = str(Decimal(value) + 1)
    except InvalidOperation:
        return
    yield ast.Call(ast.Name("Decimal", ast.Load()), [ast.Constant(other)], [])


def _joins_texts(node: ast.BinOp) -> bool:
    return any(
        isinstance(side, ast.JoinedStr)
        or (isinstance(side, ast.Constant) and isinstance(side.value, str))
        for side in (node.left, node.right)
    )


class _Replace(ast.NodeTransformer):
    def __init__(self, old: ast.AST, new: ast.AST) -> None:
        self.old, self.new = old, new

    def visit(self, node: ast.AST) -> ast.AST:
        return self.new if node is self.old else super().visit(node)
