"""What every public call of the numbers says of itself, and how long a function may get: read from the source."""

import ast
import builtins
import contextlib
import importlib.util
import inspect
import re
from pathlib import Path

import pytest

import shoulder_model as sm

HOME = Path(sm.__file__).parent
LONGEST, MOST_POSITIONAL = 30, 8  # lines without the docstring; parameters
OF_NUMBERS = [
    path
    for path in sorted(HOME.rglob("*.py"))
    if path.relative_to(HOME).parts[0] not in ("draw", "panels", "lab", "recipes")
    and not path.name.startswith("__")
    and path.parent.name
    != "items"  # a template takes a Chance and gives an Item, all alike; its name says what it asks
]
UNIT = re.compile(
    r"\[[^\]]*(m|N|rad|kg|deg|cm|mm|°|SD|²)[^\]]*\]"
    r"|\b(radians?|degrees?|metres|centimetres|kilograms|millimetres|ratios?|without unit|units?|words?|names?|text"
    r"|sets|whole numbers?|people|dicts?|in a word|per cent|tuple|whether|slice|share|axes as columns|symbols?)\b",
    re.IGNORECASE,
)


def functions(path):
    """Name, node and docstring of every function and method of a file, private ones too."""

    def inside(node, prefix):
        for child in node.body:
            if isinstance(child, ast.FunctionDef):
                yield f"{prefix}{child.name}", child, ast.get_docstring(child) or ""
            elif isinstance(child, ast.ClassDef):
                yield from inside(child, f"{prefix}{child.name}.")

    return list(inside(ast.parse(path.read_text(encoding="utf-8")), ""))


def arguments(node):
    """Names of a function's arguments."""
    given = node.args
    plain = [argument.arg for argument in given.posonlyargs + given.args + given.kwonlyargs]
    starred = [argument.arg for argument in (given.vararg, given.kwarg) if argument]
    return [name for name in plain + starred if name not in ("self", "cls")]


def named(name, doc):
    """Whether a docstring names an argument: in ``double quotes``, or at the head of a line of its parameters."""
    return re.search(rf"``[^`]*\b{name}\b[^`]*``|^\W*[\w, ]*\b{name}\b[\w, ]*( :|$)", doc, re.MULTILINE)


@pytest.mark.parametrize("path", OF_NUMBERS, ids=lambda path: path.relative_to(HOME).as_posix())
def test_public_calls_name_every_argument_and_a_unit_or_kind(path):
    for name, node, doc in functions(path):
        if not any(part.startswith("_") for part in name.split(".")):
            missing = [argument for argument in arguments(node) if not named(argument, doc)]
            assert not missing, f"{name}: {missing}"
            assert UNIT.search(doc), f"{name} names no unit and no kind of answer"


def reaches(start, parts):
    """Whether ``a.b.c`` leads from a module or class to something: a module below it, an attribute, a field."""
    if not parts:
        return True
    first, *rest = parts
    nexts = []
    if inspect.ismodule(start):
        with contextlib.suppress(ImportError):
            nexts.append(importlib.import_module(f"{start.__name__}.{first}"))
    if hasattr(start, first):
        nexts.append(getattr(start, first))
    if first in getattr(start, "__dataclass_fields__", {}):
        return not rest
    return any(reaches(place, rest) for place in nexts)


@pytest.mark.parametrize("path", sorted(HOME.rglob("*.py")), ids=lambda path: path.relative_to(HOME).as_posix())
def test_a_name_in_single_backticks_leads_somewhere(path):
    """From the file itself, one of its classes, its room or the package."""
    if path.name == "__main__.py":
        pytest.skip("starts a server")
    *rooms, _ = path.relative_to(HOME.parent).parts
    module = ".".join([*rooms, path.stem] if path.stem != "__init__" else rooms)
    own = importlib.import_module(module)
    starts = [
        own,
        *(value for value in vars(own).values() if inspect.isclass(value)),
        importlib.import_module(".".join(rooms)),
        sm,
    ]
    docs = [
        ast.get_docstring(ast.parse(path.read_text(encoding="utf-8"))) or "",
        *(doc for _, _, doc in functions(path)),
    ]
    docs += [
        ast.get_docstring(node) or ""
        for node in ast.parse(path.read_text(encoding="utf-8")).body
        if isinstance(node, ast.ClassDef)
    ]
    for name in re.findall(r"(?<!`)`([A-Za-z_][\w.]*)`(?!`)", "\n".join(docs)):
        parts = name.split(".")
        outside = [importlib.import_module(parts[0])] if importlib.util.find_spec(parts[0]) else [builtins]
        assert any(reaches(start, parts) for start in starts) or reaches(outside[0], parts[outside != [builtins] :]), (
            name
        )


@pytest.mark.parametrize("path", sorted(HOME.rglob("*.py")), ids=lambda path: path.relative_to(HOME).as_posix())
def test_functions_are_short_and_take_few_things_by_place(path):
    for name, node, _ in functions(path):
        doc = node.body[0] if ast.get_docstring(node) is not None else None
        lines = node.end_lineno - node.lineno + 1 - (doc.end_lineno - doc.lineno + 1 if doc else 0)
        assert lines <= LONGEST, f"{name} has {lines} lines"
        assert len(node.args.posonlyargs + node.args.args) <= MOST_POSITIONAL + 1, name  # and self
