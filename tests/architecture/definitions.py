"""What a package defines in public, and who in the package uses it; read from the text alone.

A module's own definitions are looked for by the place they are imported from, so that two
functions of one name do not keep each other alive; members of a class by their name alone.
"""

import ast
from collections import Counter
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

Definition = ast.FunctionDef | ast.ClassDef | ast.Assign | ast.AnnAssign


@dataclass(frozen=True)
class Defined:
    """One public definition: where, its name with its class, and the statement."""

    module: str
    name: str
    node: Definition

    @property
    def place(self):
        return f"{self.module}:{self.name}"


@dataclass(frozen=True)
class Package:
    folder: Path

    @cached_property
    def trees(self):
        """Every module's tree by its dotted name."""
        found = {}
        for path in sorted(self.folder.rglob("*.py")):
            dotted = ".".join(path.relative_to(self.folder.parent).with_suffix("").parts)
            found[dotted.removesuffix(".__init__")] = ast.parse(path.read_text(encoding="utf-8"))
        return found

    @cached_property
    def own(self):
        """How often a name is read in its own module, by module."""
        return {module: plain_names(tree) for module, tree in self.trees.items()}

    @cached_property
    def from_other_modules(self):
        """How often `module:name` is used in another module."""
        found = Counter()
        for module, tree in self.trees.items():
            found.update(self._uses(module, tree))
        return found

    @cached_property
    def members(self):
        """How often a name stands anywhere as an attribute, a keyword or a word of its own."""
        found = Counter()
        for tree in self.trees.values():
            found.update(member_names(tree))
        return found

    def _uses(self, module, tree):
        modules, names = self._imported(tree)
        room = module.rpartition(".")[0]
        for node in ast.walk(tree):
            match node:
                case ast.Name(id=name):
                    yield names.get(name)
                case ast.Attribute(value=ast.Name(id=name), attr=attr):
                    yield f"{modules.get(name)}:{attr}"
                case ast.Constant(value=str(text)):
                    yield f"{room}.{text}"  # a command names its place as “module:name”

    def _imported(self, tree):
        """Return what a module imports by the names it has there: modules, and what is in them."""
        modules, names = {}, {}
        for node in ast.walk(tree):
            for one in node.names if isinstance(node, ast.ImportFrom) else ():
                whole = f"{node.module}.{one.name}"
                if whole in self.trees:
                    modules[one.asname or one.name] = whole
                else:
                    names[one.asname or one.name] = f"{node.module}:{one.name}"
        return modules, names

    def unused(self):
        """Return every public definition nobody in the package uses."""
        return [one for one in self.defined() if not self._used(one)]

    def defined(self):
        for module, tree in self.trees.items():
            for name, node in public(tree.body):
                yield Defined(module, name, node)
                if isinstance(node, ast.ClassDef) and not is_enum(node):
                    for member, inside in public(node.body):
                        yield Defined(module, f"{name}.{member}", inside)

    def _used(self, one):
        name = one.name.rpartition(".")[2]
        if "." in one.name:
            # What it says of itself is no use, such as a function that calls itself.
            return self.members[name] > 0 and self.members[name] > member_names(one.node)[name]
        if self.from_other_modules[one.place]:
            return True
        return self.own[one.module][name] > plain_names(one.node)[name]


def public(body):
    """Yield names and statements of what a body defines without a leading underscore.

    Decorated functions belong to their decorator, but for those that are read as values.
    """
    for node in body:
        if isinstance(node, ast.ClassDef):
            names = [node.name]
        elif isinstance(node, ast.FunctionDef):
            names = [] if handed_over(node) else [node.name]
        elif isinstance(node, ast.Assign | ast.AnnAssign):
            targets = node.targets if isinstance(node, ast.Assign) else [node.target]
            names = [one.id for one in targets if isinstance(one, ast.Name)]
        else:
            continue
        yield from ((name, node) for name in names if not name.startswith("_"))


def handed_over(function):
    kept = {"property", "staticmethod", "classmethod", "cache", "lru_cache", "cached_property"}
    words = [name for one in function.decorator_list for name in plain_names(one)]
    return bool(words) and not kept & set(words)


def is_enum(node):
    """Members of an enumeration are chosen by the values that stand in files."""
    return any("Enum" in ast.unparse(base) for base in node.bases)


def plain_names(tree):
    return Counter(
        node.id
        for node in ast.walk(tree)
        if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Load)
    )


def member_names(tree):
    found = Counter()
    for node in ast.walk(tree):
        match node:
            case ast.Attribute():
                found[node.attr] += 1
            case ast.keyword(arg=str(name)) | ast.Constant(value=str(name)):
                found[name] += 1
    return found
