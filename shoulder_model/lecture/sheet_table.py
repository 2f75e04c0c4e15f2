"""Takes values out of one table of a run sheet; what is wrong with one is said with its line."""

from difflib import get_close_matches

from ..inputs import InputError
from ..toml_file import Wrong, hidden, is_number, one_line


def near(name, known):
    """A hint, as text, at those of the names ``known`` that are nearest to ``name`` (str)."""
    found = get_close_matches(str(name).lower(), known, n=2, cutoff=0.4)
    return f"nearest: {', '.join(found)}" if found else f"known: {', '.join(known)}"


class Table:
    """Takes values out of one table and says what is wrong with them, and where.

    Parameters
    ----------
    places : toml_file.Places
    table, item : str, int
        Name of the table in the file, and which one of this name, from 0.
    whose : str
        What to call it where something is wrong.
    entry : int, optional
        Which one of the step's answers, from 0.
    """

    def __init__(self, places, table, item, whose, entry=None):
        self.places, self.table_name, self.item, self.whose, self.which = places, table, item, whose, entry

    def entry(self, j):
        """The `Table` of answer ``j`` (a whole number from 0) of this step."""
        return Table(self.places, self.table_name, self.item, f"answer {j + 1} of {self.whose}", j)

    def wrong(self, key, words, joint=": "):
        """Raise `toml_file.Wrong` with the ``words`` (str) about a ``key`` (str); ``joint`` (str) stands after whose it is."""
        on = {"key": key} if self.which is None else {"key": "answers", "entry": self.which}
        said = f"{self.whose}{joint}{words}" if self.whose else words
        raise Wrong(self.places.line(self.table_name, self.item, **on), said, key or "step")

    def keys(self, given, known):
        """Refuse a key of ``given`` (dict) that is not among the names ``known``."""
        for key in given:
            if key not in known:
                self.wrong(key, f"unknown key {one_line(key, 40)!r}; {near(key, known)}")

    def table(self, given, key, advice):
        """Refuse ``given``, which stands under the name ``key``, where it is no dict; ``advice`` (str) says what to do."""
        if not isinstance(given, dict):
            self.wrong(key, f"{key} is no table; {advice}")

    def text(self, given, key, most):
        """The text under ``key`` (str) of ``given`` (dict), of ``most`` characters (int) and several lines; empty where it is left out."""
        if key not in given:
            return ""
        value = given[key]
        if not isinstance(value, str):
            self.wrong(key, f"{key} is a text; put it in quotes")
        value = value.strip()
        if not value:
            self.wrong(key, f"{key} is empty; write something or leave the key out")
        if len(value) > most:
            self.wrong(key, f"{key} has {len(value)} characters; give at most {most}")
        if any(map(hidden, value)):
            self.wrong(key, f"{key} has a character that cannot be seen; type the text anew instead of pasting it")
        return value

    def line_of_text(self, given, key, most, needed=True):
        """The text of one line under ``key`` (str) of ``given`` (dict), of ``most`` characters (int); ``needed`` (bool) or not."""
        if needed and key not in given:
            self.wrong("", f'{key} is missing; give {key} = "..."')
        value = self.text(given, key, most)
        if "\n" in value or "\t" in value:
            self.wrong(key, f"{key} has several lines or tabs; write it as one line")
        return value

    def one_of(self, given, key, known, called=""):
        """The text under ``key`` (str) of ``given`` (dict), one of the names ``known``; ``called`` (str) in what is said of it."""
        value = self.line_of_text(given, key, 80)
        if value not in known:
            self.wrong(key, f"no {called or key} {value!r}; {near(value, known)}")
        return value

    def number(self, given, key):
        """The number (float, in the unit of its name) under ``key`` (str) of ``given`` (dict)."""
        value = given[key]
        if not is_number(value):
            self.wrong(key, f"{key} is a number without quotes, such as 5 or 2.5")
        return float(value)

    def minutes(self, given, most):
        """The minutes (float, a unit of their own) of ``given`` (dict), more than 0 and at ``most`` (float)."""
        if "minutes" not in given:
            self.wrong("", "minutes is missing; give minutes = 5, for example")
        value = self.number(given, "minutes")
        if not 0 < value <= most:
            self.wrong("minutes", f"minutes = {value:g}; give more than 0, at most {most}")
        return value

    def switch(self, given, key):
        """Whether ``key`` (str) of ``given`` (dict) is true; false where it is left out."""
        value = given.get(key, False)
        if not isinstance(value, bool):
            self.wrong(key, f"{key} is true or false, without quotes")
        return value

    def values(self, given, key, known):
        """Values under ``key`` (str) of ``given`` (dict) for the controls ``known`` (dict of `controls.Takes`), by names without units."""
        if key not in given:
            return {}
        self.table(given[key], key, f'write {key} = {{ "Grip" = 1.5, "Load" = 30 }}')
        made = {}
        for words, value in given[key].items():
            name = self._control(key, words, known)
            try:
                made[name] = known[name].checked(name, value)
            except InputError as error:
                self.wrong(key, str(error))
        return made

    def _control(self, key, words, known):
        """A control's name as the panel has it."""
        name = str(words).partition(" [")[0]
        if name not in known:
            self.wrong(key, f"this panel has no {name!r}; {near(name, tuple(known))}")
        return name

    def sliders(self, given, known):
        """Names (tuple) of the sliders in ``given`` (dict) that are ``known`` (dict of `controls.Takes`)."""
        names = given.get("sliders", [])
        if not isinstance(names, list) or not all(isinstance(name, str) for name in names) or len(names) > 1:
            self.wrong("sliders", 'sliders names one more slider: sliders = ["Trunk lean"]')
        return tuple(
            self._control("sliders", name, {n: takes for n, takes in known.items() if takes.slider}) for name in names
        )
