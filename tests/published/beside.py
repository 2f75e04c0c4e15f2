"""What stands beside a check: the citations and the notes of doubt in its name, its docstring and the comments above it and
above the values that it uses.
"""

import ast
import re
import tokenize
from functools import cache
from io import StringIO
from pathlib import Path

CITATION = re.compile(
    r"[A-Z][A-Za-z]*(?: (?:[A-Z][A-Za-z.]*|of|and|in|online|&))* (?:19|20)\d\d;\d+(?:\([\d-]+\))?(?::[\w-]+)?"  # a journal
    r"|[A-Z][A-Za-z ]+ (?:19|20)\d\d, doi 10\.[\w./()-]+\w"
    r"|ANSUR II,? (?:2012 public release, )?\(?NATICK/TR-15/007"
    r"|OpenStax [A-Z][a-z]+ Physics|Physics: Principles with Applications, 7th ed\.|Package fsrs [\d.]+|package fsrs [\d.]+"
    r"|Winter, Biomechanics and Motor Control of Human Movement, 3rd ed\.|SportRxiv 2024"
)
IN_A_NAME = re.compile(r"_((?:j|clin|arch|jses|physiol)_?[a-z_]*?)_((?:(?:19|20)\d\d_)?\d+(?:_[a-z]?\d+)+)$")
WEAK = re.compile(r"from memory|\(M[HML]?\)|\bM[HML]\b|cannot be located")
ONLY_PAGES = re.compile(r"\((?:pages|title)[^()]*(?:from memory|M[HM])[^()]*\)|(?:pages|title) (?:from memory|M[HM])")


@cache
def comments(path):
    """Comments of a file by their line."""
    found, text = {}, Path(path).read_text(encoding="utf-8")
    for token in tokenize.generate_tokens(StringIO(text).readline):
        if token.type == tokenize.COMMENT:
            found[token.start[0]] = token.string.lstrip("# ")
    return found


def text_of(path, node):
    """Comments straight above a node and inside it, and its docstring."""
    notes, line = comments(path), min([node.lineno, *(one.lineno for one in getattr(node, "decorator_list", ()))]) - 1
    above = []
    while line in notes:
        above.insert(0, notes[line])
        line -= 1
    inside = [notes[line] for line in range(node.lineno, node.end_lineno + 1) if line in notes]
    doc = ast.get_docstring(node) if isinstance(node, ast.FunctionDef) else None
    return " ".join([*above, *inside, doc or ""])


@cache
def parts(path):
    """A file's tree, and its functions and values at the top by name."""
    tree, named = ast.parse(Path(path).read_text(encoding="utf-8")), {}
    for node in tree.body:
        if isinstance(node, ast.FunctionDef):
            named[node.name] = node
        elif isinstance(node, ast.Assign):
            for target in node.targets:
                for one in target.elts if isinstance(target, ast.Tuple) else (target,):
                    if isinstance(one, ast.Name):
                        named[one.id] = node
    return tree, named


def levels(path, name):
    """Text beside the function ``name`` of a file, level by level: its own, that of what it names, of what that names, and on."""
    _, named = parts(path)
    seen, level = set(), [name]
    while level:
        seen |= set(level)
        yield " ".join(text_of(path, named[one]) for one in level)
        inside = [node.id for one in level for node in ast.walk(named[one]) if isinstance(node, ast.Name)]
        level = list(dict.fromkeys(one for one in inside if one in named and one not in seen))


def in_name(name):
    """A citation in the name of a test, as text."""
    found = IN_A_NAME.search(name)
    if not found:
        return ""
    words = [part if part in ("of",) else part.capitalize() for part in found[1].split("_")]
    return f"{' '.join(words)} {found[2].replace('_', ';', 1).replace('_', ':', 1)}"


def citations(text):
    """Citations in a text, once each, in order."""
    return list(dict.fromkeys(CITATION.findall(text)))


def sources(path, name):
    """What a check is held against: the nearest citations, in its name, its own text, what it uses, or the file's docstring."""
    if in_name(name):
        return [in_name(name)]
    for text in levels(path, name):
        if citations(text):
            return citations(text)
    return citations(ast.get_docstring(parts(path)[0]) or "")


def is_weak(path, name):
    """Whether a value of a check, or one that it names, is from memory or cannot be located; pages or a title are no value."""
    near = " ".join(list(levels(path, name))[:2])
    return bool(WEAK.search(ONLY_PAGES.sub("", near)))
