"""``python -m shoulder_model``: opens the workbook in the browser, gives a lecture, makes hand-outs, sets and marks homework."""

import argparse
import sys
from importlib.metadata import version

from .checkout import FIRST, HOME, NoWorkbook
from .inputs import InputError


def _handout(arguments):
    from .handout.command import main as make

    return make(arguments)


def _check(arguments):
    from .lecture.check import main as check

    return check(arguments)


def _run_sheet(arguments):
    from .lecture.run_sheet import write_template

    parser = argparse.ArgumentParser(
        prog="python -m shoulder_model runsheet",
        description="Write a run sheet with comments, to be changed into your own.",
    )
    parser.add_argument("file", help="its name, such as my_class.toml; a file that is there stays")
    file = parser.parse_args(arguments).file
    write_template(file)
    print(f"{file} is written. Change it with any editor, then: python -m shoulder_model check {file}")


def _homework(arguments):
    from .homework.command import main as homework

    return homework(arguments)


def _site(arguments):
    from .site.command import main as site

    return site(arguments)


TASKS = {  # word -> (what it does, the function that does it)
    "handout": ("make pages to hand out: python -m shoulder_model handout --help", _handout),
    "homework": (
        "a sheet of its own for each student, and marking: python -m shoulder_model homework --help",
        _homework,
    ),
    "site": ("a folder for any web server, nothing to install: python -m shoulder_model site --help", _site),
    "check": ("before a class: does everything run here, and how long does the run sheet take?", _check),
    "runsheet": ("write a template for a run sheet of your own", _run_sheet),
}


def main(arguments=None):
    """Read the command line (list of str; by default the real one) and do what it asks.

    Opening the workbook returns when JupyterLab is stopped.
    """
    arguments = sys.argv[1:] if arguments is None else arguments
    try:
        if arguments and arguments[0] in TASKS:
            return TASKS[arguments[0]][1](arguments[1:])
        _open(_parser().parse_args(arguments))
    except (NoWorkbook, InputError) as error:
        sys.exit(str(error))
    except KeyboardInterrupt:  # before the server was up
        sys.exit("Stopped.")


def _parser():
    tasks = "\n".join(f"  {name:9s} {does}" for name, (does, _) in TASKS.items())
    parser = argparse.ArgumentParser(
        prog="python -m shoulder_model",
        description="Open the workbook in the browser. Stop it with Ctrl+C.",
        epilog=f"In place of options, first word:\n{tasks}",
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument(
        "--chapter",
        default=FIRST,
        help="open this chapter first, by its name, its number or a part of it: 3, a1, grip_width",
    )
    parser.add_argument(
        "--lecture", nargs="?", const="", metavar="RUN SHEET",
        help="for a projector: step through a run sheet (its name, or its .toml file) or a chapter; alone, choose on the page",
    )  # fmt: skip
    parser.add_argument("--no-browser", dest="browser", action="store_false", help="only print the address")
    parser.add_argument("--port", help="listen on this port of the local machine")
    parser.add_argument("--version", action="version", version=f"shoulder-model {version('shoulder-model')}")
    return parser


def _open(options):
    """Start JupyterLab at a chapter or at the lecture's page."""
    from .lab import launch, places

    port = None if options.port is None else launch.port_number(options.port)
    page = launch.chapter_page(HOME, options.chapter)
    lecture = options.lecture if options.lecture is None else _readable(options.lecture)
    home, state, words = places.settle(HOME)
    print(f"{words}\nStarting ...".strip(), flush=True)
    launch.start(home, state, page, port, options.browser, lecture)


def _readable(lecture):
    """A lecture's name as its kernel finds it from another folder; a run sheet that cannot be read raises `InputError`."""
    if not lecture:
        return ""
    from .lecture.panel import lecture_name

    return lecture_name(lecture, HOME)


if __name__ == "__main__":
    sys.exit(main())
