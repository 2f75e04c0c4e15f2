"""Runs in the Python of the page, at build time: a wheel with its modules compiled.

A package of others has its compiled modules only; this workbook's own keeps its text beside them, for whoever reads an error.
"""

import importlib.util
import marshal
import sys
import zipfile

TESTS = ("/tests/", "/test/", "/sample_data/")  # never imported here
OWN = "shoulder_model/"
PLACE = "/lib/python{}.{}/site-packages".format(*sys.version_info[:2])  # where the page unpacks it
UNCHECKED = 0b01  # by content, and taken without a look at the text


def compiled(old, new):
    """Write the wheel ``old`` as ``new`` (paths), compiled; what is no Python of this version stays as text."""
    with zipfile.ZipFile(old) as given, zipfile.ZipFile(new, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as made:
        for name in given.namelist():
            if name.endswith("/") or (any(part in f"/{name}" for part in TESTS) and not name.startswith(OWN)):
                continue
            content = given.read(name)
            is_read = ".dist-info/" in name or name.startswith(f"{OWN}course/")  # and never imported
            code = None if is_read or not name.endswith(".py") else code_of(name, content)
            if code is None:
                made.writestr(name, content)
            elif name.startswith(OWN):
                room, _, module = name.rpartition("/")
                made.writestr(name, content)
                made.writestr(f"{room}/__pycache__/{module[:-3]}.{sys.implementation.cache_tag}.pyc", code)
            else:
                made.writestr(f"{name}c", code)


def code_of(name, content):
    """A module called ``name``, its ``content`` (text in bytes), compiled; None where it is no Python of this version."""
    try:
        code = compile(content, f"{PLACE}/{name}", "exec", dont_inherit=True)
    except (SyntaxError, ValueError):
        return None
    head = importlib.util.MAGIC_NUMBER + UNCHECKED.to_bytes(4, "little") + importlib.util.source_hash(content)
    return head + marshal.dumps(code)
