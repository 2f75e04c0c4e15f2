"""Bytes of a file gone wrong: the changes that tests of several kinds of file share."""

import contextlib
import json
from copy import deepcopy


def as_it_is(rng, content):
    """The same bytes."""
    return content


def junk_of(junk):
    """A change that puts one of ``junk`` (bytes each) somewhere in."""

    def change(rng, content):
        at = rng.randrange(len(content) + 1)
        return content[:at] + rng.choice(junk) + content[at:]

    return change


def cut(rng, content):
    """The file cut off somewhere."""
    return content[: rng.randrange(len(content) + 1)]


JSON_VALUES = (
    None, True, False, 0, 1, 2, -1, 0.5, 3.0, 40, "40", "1,5", 1e-300, 1e308, -1e308, 10**30, 10**400, 10**4000, float("nan"),
    float("inf"), -float("inf"), "", " ", "x", "0", "no", "false", "true", "women", "men", "nan", "x" * 500, "x" * 200_000, "\x00",
    "a\x00b", "\ud800", "\u202eabc", "\ufeff", "a\nb", "\x1b[2J", "$x_{$", "=1+1", "<script>", "{0.__class__}", "__import__('os')",
    [], {}, [0], [40], [True], [[]], [None], ["x"], {"x": 1}, {"": {}}, [1] * 5000, [[1, 2], [3]], "held", "cable", "pull-up",
)  # fmt: skip
JSON_KEYS = (
    "",
    "x",
    "name",
    "kind",
    "version",
    "extra",
    "sex",
    "__class__",
    "\u202e",
    "\x00",
    "x" * 500,
    "\ud800",
    "load_kg",
)
JSON_JUNK = (
    b"\x00", b"\xff", b"\xfe\xff", b"\xef\xbb\xbf", b"\xc3", b"\xed\xa0\x80", b'"', b"\\", b"{", b"}", b"[", b"]", b",", b":", b"NaN",
    b"1e999", b"\\ud800", b"// x\n", b"'", b"-", b"9" * 400,
)  # fmt: skip
NESTED = ("[" * 20 + "]" * 20, "[" * 3000 + "]" * 3000, '{"a":' * 3000 + "1" + "}" * 3000, "[" * 200_000)


def _holders(value):
    """Every dict and list in a JSON ``value`` that is not empty, itself first."""
    found, waiting = [], [value]
    while waiting:
        one = waiting.pop()
        if isinstance(one, dict | list) and one:
            found.append(one)
            waiting += one.values() if isinstance(one, dict) else one
    return found


def _changed_json(rng, value):
    """One change in a JSON ``value``, in place: another value, a key or an entry more, fewer, under another name or twice."""
    holder = rng.choice(_holders(value) or [value])
    places = list(holder) if isinstance(holder, dict) else list(range(len(holder)))
    if not places:
        return
    place, kind = rng.choice(places), rng.randrange(12)
    if kind < 6:
        holder[place] = deepcopy(rng.choice(JSON_VALUES))
    elif kind == 6:
        holder[place] = rng.choice(
            ([holder[place]], {"x": holder[place]}, str(holder[place]), [deepcopy(holder[place]), holder[place]])
        )
    elif kind == 7:
        del holder[place]
    elif kind == 8 and isinstance(holder, dict):
        holder[rng.choice(JSON_KEYS)] = deepcopy(rng.choice(JSON_VALUES))
    elif kind == 9 and isinstance(holder, dict):
        holder[rng.choice(JSON_KEYS)] = holder.pop(place)
    elif kind == 10:
        other = rng.choice(places)
        holder[place], holder[other] = holder[other], holder[place]
    elif isinstance(holder[place], int | float) and not isinstance(holder[place], bool) and abs(holder[place]) < 1e300:
        holder[place] = rng.choice((-1, 0.001, 0.5, 0.97, 1.03, 2, 10, 100, 1e6)) * holder[place]


def _twice(rng, text):
    """A key that stands twice."""
    at = text.find('": ', rng.randrange(len(text)))
    start = text.rfind('"', 0, at) if at > 0 else -1
    return (
        text if start < 0 else f'{text[:start]}{text[start:at]}": {rng.choice(("1", "true", "null"))}, {text[start:]}'
    )


def _nested(rng, text):
    """Brackets inside brackets where a value stands."""
    at = text.find('": ', rng.randrange(len(text)))
    return text if at < 0 else f"{text[: at + 3]}{rng.choice(NESTED)}{text[at + 3 :] if rng.random() < 0.5 else ''}"


def json_gone_wrong(rng, text, indent=None):
    """The bytes of a JSON ``text`` with one to four changes of its values, and perhaps of its letters; ``rng`` is a `random.Random`."""
    value = json.loads(text)
    for _ in range(rng.choice((0, 1, 1, 1, 1, 2, 4))):
        _changed_json(rng, value)
    with contextlib.suppress(ValueError):  # more digits than Python writes
        text = json.dumps(value, ensure_ascii=rng.random() < 0.3, indent=indent)
    text = rng.choice((*[lambda _, same: same] * 12, _twice, _nested))(rng, text)
    content = text.encode(rng.choice(("utf-8",) * 10 + ("utf-8-sig", "utf-16")), "surrogatepass")
    return rng.choice((*[as_it_is] * 14, junk_of(JSON_JUNK), junk_of(JSON_JUNK), cut))(rng, content)
