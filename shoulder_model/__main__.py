"""``python -m shoulder_model``: opens the workbook in the browser."""

import argparse
import sys

from .lab.launch import FIRST, HOME, NoWorkbook, UnknownName, lab_arguments, prepare


def main(arguments=None):
    """Read the command line and start JupyterLab; returns when it is stopped."""
    parser = argparse.ArgumentParser(
        prog="python -m shoulder_model", description="Open the workbook in the browser. Stop it with Ctrl+C."
    )
    parser.add_argument("--chapter", default=FIRST, help="open this chapter first, for example 03_grip_width")
    parser.add_argument("--lecture", action="store_true", help="larger letters, for a projector")
    parser.add_argument("--no-browser", dest="browser", action="store_false", help="only print the address")
    parser.add_argument("--port", type=int, help="listen on this port of the local machine")
    options = parser.parse_args(arguments)
    state = HOME / ".lab"
    try:
        line = lab_arguments(HOME, state, options.chapter, options.port, options.browser, options.lecture)
        prepare(HOME, state, options.lecture)
    except (NoWorkbook, UnknownName) as error:
        sys.exit(str(error))
    from jupyterlab.labapp import LabApp  # after the environment is set

    LabApp.launch_instance(argv=line)


if __name__ == "__main__":
    main()
