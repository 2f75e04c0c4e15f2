"""A second reader of the packed format, written from its description alone."""

import base64
import json
import re
import zlib


def unpacked(text):
    """The head, and for each table its rows: a list of dicts, key -> text or None."""
    data = zlib.decompress(base64.b64decode(text))
    length = int.from_bytes(data[:4], "little")
    head = json.loads(data[4 : 4 + length])
    stream = numbers(data[4 + length :])
    tables = [rows_of(table, stream) for table in head.pop("tables")]
    assert next(stream, None) is None, "bytes are left over"
    return head, tables


def numbers(data):
    """The stream's whole numbers, one after the other."""
    value = shift = 0
    for byte in data:
        value |= (byte & 127) << shift
        shift += 7
        if byte < 128:
            yield -(value + 1) // 2 if value % 2 else value // 2
            value = shift = 0


def summed(steps):
    """Running sums of a list."""
    total, sums = 0, []
    for step in steps:
        total += step
        sums.append(total)
    return sums


def rows_of(table, stream):
    def take(count):
        return [next(stream) for _ in range(count)]

    patterns = [summed(take(table["rows"])) for _ in range(table["patterns"])]
    rows = [{} for _ in range(table["rows"])]
    for key, which, templates, ways in table["columns"]:
        values = values_of(max(patterns[which], default=0) + 1, templates, ways, take)
        for row, place in zip(rows, patterns[which], strict=True):
            row[key] = values[place]
    return rows


def values_of(count, templates, ways, take):
    if count == 1:
        return templates
    kinds = take(count) if len(templates) > 1 else [0] * count
    made = []
    for kind, (template, way) in enumerate(zip(templates, ways, strict=True)):
        marks = re.findall("[\x01-\x03]", template or "")
        steps = [take(kinds.count(kind)) for _ in marks]
        for number in range(2, len(steps)) if way else ():
            steps[number] = [a + b for a, b in zip(steps[number], steps[number - 2], strict=True)]
        columns = [summed(one) for one in steps]
        made.append(
            iter([filled(template, row) for row in zip(*columns, strict=True)] or [template] * kinds.count(kind))
        )
    return [next(made[kind]) for kind in kinds]


def filled(template, whole):
    """A template with its numbers in their places."""
    left = iter(whole)

    def put(match):
        number, digits = next(left), ord(match[0]) - 1
        if not digits:
            return str(number)
        text = str(abs(number)).rjust(digits + 1, "0")
        return f"{'-' if number < 0 else ''}{text[:-digits]}.{text[-digits:]}"

    return re.sub("[\x01-\x03]", put, template)
