"""A worked solution, line by line: what is printed on the left comes to what is printed on the right.

Each line is worked out from its own text, so a reader with a pocket calculator gets the same.
"""

import ast
import math
import operator
import re
from dataclasses import dataclass

from ..words import written

UNITS = (
    "N/cm²",
    "N/kg",
    "N m",
    "kg/kg",
    "% MVIC",
    "kg",
    "cm²",
    "cm",
    "mm",
    "SD",
    "N",
    "J",
    "m",
    "sets",
    "weeks",
    "×  ",
    "%",
)
UNIT = re.compile(r"(?<=[\d)])\s*(" + "|".join(map(re.escape, UNITS)) + r")(?![\w²])")
SIGNS = {"×": "*", "−": "-", "²": "**2", "√": "sqrt", "°": "*deg", "·": "*", "≈": ""}
FUNCTIONS = {
    "sqrt": math.sqrt,
    "cos": math.cos,
    "sin": math.sin,
    "tan": math.tan,
    "atan": lambda x: math.degrees(math.atan(x)),
}
BINARY = {
    ast.Add: operator.add, ast.Sub: operator.sub, ast.Mult: operator.mul, ast.Div: operator.truediv, ast.Pow: operator.pow,
}  # fmt: skip
NAMES = {"deg": math.pi / 180}


def worked_out(printed):
    """What a sum comes to as it is ``printed``, text with × − ² √ ° cos sin tan atan and units behind numbers.

    An angle in degrees stands as 30°; ``atan`` gives degrees.

    Raises
    ------
    ValueError
        It is no such sum.

    >>> worked_out("15 kg × 9.81 N/kg")
    147.15
    >>> round(worked_out("√(9² + 12²)"), 3)
    15.0
    """
    text = UNIT.sub("", printed)
    for sign, meant in SIGNS.items():
        text = text.replace(sign, meant)
    text = re.sub(r"\b(cos|sin|tan|atan) *(\d[\d.]*(\*deg)?)", r"\1(\2)", text)
    try:
        return float(_value(ast.parse(text.strip(), mode="eval").body))
    except (SyntaxError, KeyError, TypeError) as error:
        raise ValueError(f"{printed!r} is no sum") from error


def _value(node):
    if isinstance(node, ast.Constant) and isinstance(node.value, int | float):
        return node.value
    if isinstance(node, ast.Name):
        return NAMES[node.id]
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
        return -_value(node.operand)
    if isinstance(node, ast.BinOp):
        return BINARY[type(node.op)](_value(node.left), _value(node.right))
    if isinstance(node, ast.Call) and len(node.args) == 1:
        return FUNCTIONS[node.func.id](_value(node.args[0]))
    raise ValueError("no sum")


@dataclass(frozen=True)
class Line:
    """One line of a solution.

    ``words`` (text) say what is done; ``sum`` (text) is what is worked out, "" where nothing is; ``value`` is what it comes to as
    printed, in ``unit``, with ``digits`` (whole number) after the point.
    """

    words: str
    sum: str = ""
    value: float | None = None
    unit: str = ""
    digits: int = 0

    @property
    def text(self):
        """The line as it is printed, text."""
        if not self.sum:
            return self.words
        return f"{self.words}: {self.sum} = {self.result}"

    @property
    def result(self):
        """What it comes to, with its unit, as text."""
        return f"{written(self.value, self.digits)} {self.unit}".strip().replace(" °", "°")


class Working(list):
    """The lines of a solution, in order."""

    def say(self, words):
        """Add a line of ``words``, text, with nothing to work out."""
        self.append(Line(words))

    def line(self, words, total, unit="", digits=1):
        """Add a line and return what it comes to as printed, so that the next line can go on with it.

        Parameters
        ----------
        words : str
            What is done.
        total : str
            The sum as printed, `worked_out`.
        unit : str
            Of the result.
        digits : int
            After the point, a whole number.
        """
        value = round(worked_out(total), digits)
        self.append(Line(words, total, value, unit, digits))
        return value
