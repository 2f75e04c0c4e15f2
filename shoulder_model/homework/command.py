"""``python -m shoulder_model homework``: set homework for a class, mark what comes back, list what can be asked."""

import argparse
import os
import sys
import time
from pathlib import Path

from ..document.html import PAPERS, document_html
from ..given_file import path_of, read_path
from ..inputs import InputError
from ..practice.bank import templates
from ..practice.objectives import chapters, objectives
from ..words import counted
from .answers import ANSWERS as ANSWER_TABLE
from .assignment import TITLE, assign
from .assignment_file import FILE, open_assignment
from .class_list import CLASS_LIST, read_class
from .folder import check_free, whole_folder
from .make_set import ANSWERS, ASSIGNMENT, README, Wanted, make_set, stem
from .marking import details_csv, mark, marks_csv, summary
from .report import feedback_document, report_document

MARKS = "marks"
SHOWN = 10  # lines of what has to be looked at that are printed
EVERY = 10.0  # s between lines of progress where nobody watches
EXAMPLES = """examples:
  python -m shoulder_model homework list
  python -m shoulder_model homework set class.csv --to week3 --seed 7 --chapters 03 04 --items 12
  python -m shoulder_model homework set class.csv --to week4 --seed 8 --objectives 03.wider 03.choose --pdf
  python -m shoulder_model homework set class.csv --to week5 --seed 9 --names "tape on the bar" "which line is w"
  python -m shoulder_model homework mark week3 week3/answers.csv --feedback
"""


def _parser():
    parser = argparse.ArgumentParser(
        prog="python -m shoulder_model homework",
        description="Make a different sheet for each student in a class, and mark the answers.",
        epilog=EXAMPLES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    verbs = parser.add_subparsers(dest="verb", required=True, metavar="set|mark|list")
    _set_parser(verbs.add_parser("set", help="make sheets, keys and tables for a class"))
    marking = verbs.add_parser("mark", help="mark a table of answers")
    marking.add_argument("folder", type=Path, help="the folder made by homework set, or its assignment.json")
    marking.add_argument("answers", help="the filled-in table (CSV)")
    marking.add_argument("--to", type=Path, metavar="FOLDER", help=f"where to (default: {MARKS} in the folder)")
    marking.add_argument("--feedback", action="store_true", help="a page for each student too, to hand back")
    _output_options(marking)
    verbs.add_parser("list", help="list all that can be asked, by objective")
    return parser


def _set_parser(parser):
    parser.add_argument("class_list", metavar="CLASS.csv", help="one row a student: id, name or both")
    parser.add_argument("--to", type=Path, required=True, metavar="FOLDER", help="a new folder")
    parser.add_argument(
        "--seed", required=True, help="any word or number; use the same one to get the same sheets again"
    )
    parser.add_argument("--title", default=TITLE, help=f"stands on each sheet (default: {TITLE})")
    parser.add_argument(
        "--chapters",
        nargs="+",
        default=(),
        metavar="NUMBER",
        help="all questions from these chapters, for example 03 a1",
    )
    parser.add_argument(
        "--objectives",
        nargs="+",
        default=(),
        metavar="ID",
        help="all questions for these objectives (ids: homework list)",
    )
    parser.add_argument(
        "--names",
        nargs="+",
        default=(),
        metavar="NAME",
        help="these questions, each in quotation marks (see homework list)",
    )
    parser.add_argument("--items", type=int, metavar="COUNT", help="how many questions; chosen at random by the seed")
    _output_options(parser)


def _output_options(parser):
    parser.add_argument("--pdf", action="store_true", help="PDF too, not only HTML")
    parser.add_argument("--paper", choices=PAPERS, default=PAPERS[0], help=f"default: {PAPERS[0]}")
    parser.add_argument(
        "--semicolon", action="store_true", help="separate cells with semicolons (for spreadsheets with decimal commas)"
    )
    parser.add_argument(
        "--replace", action="store_true", help="replace a folder that is there; the old one is kept as NAME.before"
    )


def main(arguments=None):
    """Do what the command line asks.

    Parameters
    ----------
    arguments : list of str, optional
        By default the real command line.

    Returns
    -------
    int
        The number to exit with, without unit: 0, or 1 where something was refused in one line. Wrong usage exits with
        2.
    """
    options = _parser().parse_args(arguments)
    try:
        {"set": _set, "mark": _mark, "list": _list}[options.verb](options)
    except (InputError, RuntimeError) as error:
        return _refused(str(error))
    except KeyboardInterrupt:
        return _refused("stopped; nothing is left of it")
    except BrokenPipeError:  # whoever read it has read enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    except OSError as error:
        return _refused(f"{error.filename or 'file'}: {error.strerror or error}")
    return 0


def _refused(line):
    _say(" ".join(line.split()), sys.stderr)
    return 1


def _say(line, stream=None):
    """Print a line, whatever letters the terminal has."""
    stream = stream or sys.stdout
    encoding = getattr(stream, "encoding", None) or "utf-8"
    print(line.encode(encoding, "replace").decode(encoding), file=stream)


def _read(typed, largest):
    """The bytes of a file by its path, at most ``largest`` of them."""
    path = path_of(typed)
    try:
        return read_path(path, largest)
    except InputError as error:
        raise InputError("file", f"{path}: {error}") from None


def _wanted(options):
    return Wanted(options.paper, options.pdf, ";" if options.semicolon else ",")


def _set(options):
    check_free(options.to, options.replace)
    for folder in options.to.absolute().parents:
        if (folder / ASSIGNMENT).exists():
            raise InputError("folder", f"{options.to}: lies inside another homework; choose a folder beside it")
    students = read_class(_read(options.class_list, CLASS_LIST.largest))
    assignment = assign(
        students, seed=options.seed, title=options.title, names=options.names, in_chapters=options.chapters,
        in_objectives=options.objectives, count=options.items,
    )  # fmt: skip
    with whole_folder(options.to, options.replace) as folder:
        make_set(assignment, folder, _wanted(options), _Progress(len(students)))
    told = f"{counted(len(students), 'sheet')} with {counted(len(assignment.names), 'question')}"
    _say(f"{options.to}: {told}, keys and tables. Read {README} first; the answers go into {ANSWERS}.")


class _Progress:
    """Tells on stderr how many of ``count`` are done, at once to who watches, else every so often."""

    def __init__(self, count):
        self.count, self.last, self.watched = count, time.monotonic(), sys.stderr.isatty()

    def __call__(self, done):
        if self.watched:
            print(
                f"\r{done} of {self.count} sheets", end="\n" if done == self.count else "", file=sys.stderr, flush=True
            )
        elif time.monotonic() - self.last > EVERY:
            self.last = time.monotonic()
            print(f"{done} of {self.count} sheets", file=sys.stderr, flush=True)


def _mark(options):
    file = options.folder / ASSIGNMENT if options.folder.is_dir() else options.folder
    target = options.to or file.parent / MARKS
    check_free(target, options.replace)
    opened = open_assignment(_read(file, FILE.largest))
    marks = mark(_read(options.answers, ANSWER_TABLE.largest), opened)
    wanted = _wanted(options)
    with whole_folder(target, options.replace) as folder:
        (folder / "marks.csv").write_bytes(marks_csv(marks, wanted.delimiter).encode("utf-8"))
        (folder / "answers_marked.csv").write_bytes(details_csv(marks, wanted.delimiter).encode("utf-8"))
        report = report_document(marks)
        if options.feedback:
            _write_feedback(marks, folder / "feedback", wanted)
        (folder / "report.html").write_bytes(document_html(report, wanted.paper).encode("utf-8"))
        if wanted.pdf:
            from ..document.pdf import document_pdf

            (folder / "report.pdf").write_bytes(document_pdf(report, wanted.paper))
    _say(f"{target}: {summary(marks)}")
    for line in marks.told[:SHOWN]:
        _say(f"  {line}")
    if len(marks.told) > SHOWN:
        _say(f"  and {len(marks.told) - SHOWN} more; the report has them")


def _write_feedback(marks, folder, wanted):
    """A page for each student whose answers came."""
    folder.mkdir()
    width = len(str(len(marks.marked)))
    for place, one in enumerate(marks.marked, 1):
        page = document_html(feedback_document(marks, one), wanted.paper)
        (folder / f"{stem(place, width, one.student, one.sheet_id)}.html").write_bytes(page.encode("utf-8"))


def _list(options):
    known, titles = templates(), chapters()
    for number, title in titles.items():
        _say(f"Chapter {number}: {title}" if not title.startswith(number.lstrip("0")) else f"Chapter {title}")
        for one in (one for one in objectives().values() if one.chapter == number):
            _say(f"  {one.id}: {one.words}")
            for name, template in known.items():
                if one.id in template.objectives:
                    _say(f"    {name}")
