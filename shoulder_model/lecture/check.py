"""Before a class: does everything run on this machine, which run sheet, how long?

Everything that a lecture needs is done once for real: a kernel is started as the page starts it, and in it every panel and
section of the run sheet is made.
"""

import argparse
import shutil
import subprocess
import sys
import time

from jupyter_client.manager import start_new_kernel

from ..checkout import HOME, chapters
from ..handout.pdf import browser
from .run_sheet import read_run_sheet, sheet_path, sheets

PATIENCE, SLOW = 300, 5  # s for one step: to wait for it; from where on it gets a line
READY = "from shoulder_model.lecture.screens import Stagehand; from shoulder_model.lecture.run_sheet import read_run_sheet; "


def plan_lines(sheet):
    """The plan of ``sheet`` (`sheet_parts.RunSheet`), lines of text: a step's first minute, how long it takes, its title."""
    at = 0.0
    for step in sheet.steps:
        yield f"  {at:5.1f}  {step.minutes:4.1f} min  {step.title}{'  (exit quiz)' if step.quiz else ''}"
        at += step.minutes
    spare = sheet.minutes - at
    yield f"  {at:5.1f}  end{f', {spare:g} of {sheet.minutes:g} minutes to spare' if spare > 0 else ''}"


def check(name, say=print):
    """Try a run sheet on this machine and say what was found; True where it can be given.

    Parameters
    ----------
    name : str
        Of a run sheet that comes with the project, or the path of a file; empty for the list of those that there are.
    say : callable
        Takes each line.

    Raises
    ------
    InputError
        In one line, what is wrong with the run sheet.
    """
    say(f"Python {sys.version.split()[0]}; {len(chapters(HOME))} chapters in {HOME / 'workbook'}")
    room = shutil.disk_usage(HOME).free / 1e9
    say(f"free on this disk: {room:.1f} GB{'' if room > 0.5 else ': make room first'}")
    program = browser()
    say(f"for PDF files: {program}" if program else "for PDF files: no Chromium found; hand-outs say how to print them")
    if not name:
        say("Run sheets that come with it: " + "; ".join(f"{stem}: {title}" for stem, title in sheets().items()))
        return room > 0.5
    sheet = read_run_sheet(name, HOME)
    say(f"{sheet.title}: {sheet.minutes:g} minutes, {len(sheet.steps)} steps, minute by minute:")
    for line in plan_lines(sheet):
        say(line)
    return _try(sheet, say) and room > 0.5


def _try(sheet, say):
    """Make every step of the sheet in a kernel of its own; says how long, and what fails."""
    begun = time.monotonic()
    kernel, client = start_new_kernel(stderr=subprocess.DEVNULL)
    try:
        say(f"a kernel starts: {time.monotonic() - begun:.1f} s")
        if trouble := _done(client, f"{READY}sheet = read_run_sheet({sheet.name!r}); hand = Stagehand(sheet=sheet)"):
            say(f"the model does not run in it: {trouble}")
            return False
        failed = [step for place, step in enumerate(sheet.steps) if not _makes(client, place, step, say)]
    finally:
        client.stop_channels()
        kernel.shutdown_kernel(now=True)
    say(f"all steps: {time.monotonic() - begun:.0f} s. The page opens at once and makes them while you begin.")
    say(f"{len(failed)} of {len(sheet.steps)} steps cannot be shown." if failed else "Ready.")
    return not failed


def _makes(client, place, step, say):
    """Whether one step can be made; a slow or a failing one gets a line."""
    begun = time.monotonic()
    trouble = _done(client, f"hand.make(sheet.steps[{place}].shows, sheet.lifter)")
    took = time.monotonic() - begun
    if trouble:
        say(f"  step {place + 1}, {step.title}: {trouble}")
    elif took > SLOW:
        say(f"  step {place + 1}, {step.title}: takes {took:.0f} s to make")
    return not trouble


def _done(client, code):
    """Run ``code`` in the kernel; what went wrong in one line, or nothing."""
    answer = client.execute_interactive(code, timeout=PATIENCE, output_hook=lambda _: None, store_history=False)[
        "content"
    ]
    if answer["status"] == "ok":
        return ""
    return f"{answer['ename']}: {answer['evalue'].partition(chr(10))[0]}"


def main(arguments):
    """``python -m shoulder_model check [RUN SHEET]``; ``arguments`` are the words of the command line.

    Ends with status 1 where the lecture cannot be given.
    """
    parser = argparse.ArgumentParser(
        prog="python -m shoulder_model check",
        description="Before a class: does everything run on this machine, and how long?",
    )
    parser.add_argument("sheet", nargs="?", default="", help="a run sheet's name, or its .toml file")
    name = parser.parse_args(arguments).sheet
    if not check(str(sheet_path(name).resolve()) if name.endswith(".toml") else name):
        sys.exit(1)
