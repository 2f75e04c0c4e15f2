"""Which names the cells of a chapter make and use, read from their source without running it."""

import ast
import inspect

import shoulder_model as sm

LOOPS = (ast.For, ast.While)


def is_folded(cell):
    """Whether a reader does not see the cell's code."""
    return bool(cell.metadata.get("jupyter", {}).get("source_hidden"))


class Cell(ast.NodeVisitor):
    """Names of one code cell: ``used`` before the cell makes them, ``made`` (name -> loops it is made in), ``leftovers``.

    A leftover is a name that a check uses outside the loop that made it last: it holds what the last turn left.
    """

    def __init__(self, source, made_before=()):
        self.used, self.made, self.leftovers, self.loops = set(), dict(made_before), set(), []
        self.own = set()
        for statement in ast.parse(source).body:
            self.visit(statement)

    def _make(self, name):
        self.made[name] = tuple(self.loops)
        self.own.add(name)

    def visit_Name(self, node):
        if isinstance(node.ctx, ast.Load):
            if node.id not in self.own:
                self.used.add(node.id)
        else:
            self._make(node.id)

    def visit_alias(self, node):
        self._make((node.asname or node.name).split(".")[0])

    def visit_Assign(self, node):
        self.visit(node.value)
        for target in node.targets:
            self.visit(target)

    def visit_AugAssign(self, node):
        self.visit(ast.Name(node.target.id, ast.Load()) if isinstance(node.target, ast.Name) else node.target)
        self.visit(node.value)
        self.visit(node.target)

    def visit_For(self, node):
        self.visit(node.iter)
        self.loops.append(id(node))
        self.visit(node.target)
        for statement in node.body:
            self.visit(statement)
        self.loops.pop()
        for statement in node.orelse:
            self.visit(statement)

    def visit_While(self, node):
        self.loops.append(id(node))
        self.generic_visit(node)
        self.loops.pop()

    def visit_ExceptHandler(self, node):
        if node.type:
            self.visit(node.type)
        if node.name:
            self._make(node.name)
        for statement in node.body:
            self.visit(statement)

    def visit_FunctionDef(self, node):
        self._make(node.name)
        outer, made = self.own, dict(self.made)
        self.own = outer | {argument.arg for argument in ast.walk(node.args) if isinstance(argument, ast.arg)}
        for statement in node.body:
            self.visit(statement)
        self.own, self.made = outer, made

    def _visit_scope(self, node):
        """A comprehension or lambda: its own names stay inside."""
        inner, outer = set(), self.own
        self.own = set(outer)
        made = dict(self.made)
        for part in getattr(node, "generators", ()):
            self.visit(part.iter)
            inner |= {name.id for name in ast.walk(part.target) if isinstance(name, ast.Name)}
            self.own |= inner
            for condition in part.ifs:
                self.visit(condition)
        if isinstance(node, ast.Lambda):
            self.own |= {argument.arg for argument in ast.walk(node.args) if isinstance(argument, ast.arg)}
            self.visit(node.body)
        elif isinstance(node, ast.DictComp):
            self.visit(node.key)
            self.visit(node.value)
        else:
            self.visit(node.elt)
        self.own, self.made = outer, made

    visit_ListComp = visit_SetComp = visit_DictComp = visit_GeneratorExp = visit_Lambda = _visit_scope

    def visit_Call(self, node):
        if isinstance(node.func, ast.Name) and node.func.id == "checked":
            self._note_leftovers(node)
        self.generic_visit(node)

    def _note_leftovers(self, check):
        bound = {
            name.id
            for part in ast.walk(check)
            if isinstance(part, ast.comprehension)
            for name in ast.walk(part.target)
            if isinstance(name, ast.Name)
        }
        for name in ast.walk(check):
            if isinstance(name, ast.Name) and name.id not in bound:
                loops = self.made.get(name.id, ())
                if not set(loops) <= set(self.loops):
                    self.leftovers.add(name.id)


def code_cells(notebook):
    """The code cells of a notebook, in order."""
    return [cell for cell in notebook.cells if cell.cell_type == "code"]


def loop_leftovers(notebook):
    """Names that a check takes from what a loop left: pairs of source and names."""
    made, found = {}, []
    for cell in code_cells(notebook):
        names = Cell(cell.source, made)
        if names.leftovers:
            found.append((cell.source, sorted(names.leftovers)))
        made = names.made
    return found


def chain(node):
    """``a.b.c`` as a list of names, or nothing where the chain starts from something else than a name."""
    names = []
    while isinstance(node, ast.Attribute):
        names.append(node.attr)
        node = node.value
    return [node.id, *names[::-1]] if isinstance(node, ast.Name) else []


def ways_in(notebook):
    """Ways into the package other than ``sm``, a room of it, and the panels, as they stand in the source."""
    wrong = set()
    for cell in code_cells(notebook):
        for node in ast.walk(ast.parse(cell.source)):
            if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("shoulder_model"):
                names = {f"shoulder_model.{alias.name}" for alias in node.names}  # from shoulder_model import muscles
                wrong |= (names if node.module == "shoulder_model" else {node.module}) - {"shoulder_model.panels"}
            elif isinstance(node, ast.Import):
                wrong |= {a.name for a in node.names if a.name.startswith("shoulder_model") and a.asname != "sm"}
            elif isinstance(node, ast.Attribute) and chain(node)[:1] == ["sm"]:
                wrong |= _not_public(chain(node)[1:])
    return wrong


def _not_public(names):
    """The part of ``sm.a.b`` that is not public, if any."""
    place, so_far = sm, "sm"
    for name in names:
        so_far += f".{name}"
        if not inspect.ismodule(place):
            return set()
        public = getattr(place, "__all__", None) or [key for key in vars(place) if not key.startswith("_")]
        if name not in public:
            return {so_far}
        place = getattr(place, name)
    return set()
