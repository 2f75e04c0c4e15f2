"""What a chapter says only to those who sit before the notebook, left out by rule.

The rules look at what the live page has, not at what one chapter says:

- a paragraph goes that names a button of the page (`PAGE_BUTTONS`), gives a command, or leads from chapter to chapter
- a sentence goes that has the reader work a control of one of the chapter's panels, or that sends the reader to the panel or
  to the cell below; what stands between two such sentences goes too, and what only carries on from the last one (`CARRIES_ON`)
- a list item goes whole if one of its sentences goes, and with the last item the line that leads to the list
- of a paragraph that begins with a panel's opening, what is left describes the panel and belongs to its picture

Tables, headings, quotations, formulas and pictures stay as they are.
"""

import re

PAGE_BUTTONS = ("Run everything", "Show the code")
SLIDER_BUTTONS = ("Play", "Back to start")  # of every main slider
COMMAND = re.compile(r"`python -m ")
WAYS = re.compile(r"^\[Back to the start\]\(|^\[Three ways through\]\(|^(Next|Back to the \[start\]\([^)]*\))[:,]")
OPENING = re.compile(r"^(A panel|The planner) opens\b|^Stay in the panel\b")
TO_THE_PAGE = re.compile(
    r"\bopens (when you guess|with your guess|as a panel)|\b(Try|Test|Set|Tick|Stay|Choose|Move)\b[^.]*\bpanel\b|"
    r"^Try (it|that)\b|\bpanel above\b|\bcell below\b|\bbold sentence\b|^(The|A) panels? does the same|"
    r"\bgoes to the next control\b|^Below the picture\b",
)
CARRIES_ON = re.compile(r"^Then\b|^The sentence\b|^It offers\b|\bthe panel\b|\?$")
ACT = re.compile(r"\b(press|tick|untick|move|set|open|choose|makes?|try|type|under|puts|change)\b", re.IGNORECASE)
EMPHASIS = re.compile(r"(?<!\*)\*([^*\n]+)\*(?!\*)")
HEAD_OF_ITEM = re.compile(r"^(?:- |\d+\. )\*\*([^*\n]+?):?\*\*")
SENTENCE = re.compile(r'(?<=[.?!])(?=\s)|(?<=[.?!]["”)*])(?=\s)')
ITEM = re.compile(r"^(- |\d+\. )")
UNTOUCHED = re.compile(r"^(\||#|>|\$\$|!\[|<)")


def labels(panels):
    """What stands on the controls of ``panels`` (list of `panels.panel.Panel`), a set of names in small letters."""
    found, todo = {name.lower() for name in SLIDER_BUTTONS}, list(panels)
    while todo:
        widget = todo.pop()
        todo += getattr(widget, "children", ())
        words = re.sub(r"\s*\[.*?\]", "", getattr(widget, "description", "") or "").strip(" :")
        if words:
            found.add(words.lower())
    return found


def for_paper(markdown, controls):
    """A piece of a chapter as paper can have it.

    Parameters
    ----------
    markdown : str
    controls : set of str
        Names of the panels' controls (`labels`).

    Returns
    -------
    tuple of two texts (str)
        What stays, and what belongs to the panel's picture.
    """
    stays, with_panel = [], []
    for paragraph in re.split(r"\n\s*\n", markdown):
        if UNTOUCHED.match(paragraph):
            stays.append(paragraph)
        elif OPENING.match(paragraph):
            with_panel.append(_described(paragraph, controls))
        elif not for_the_notebook(paragraph):
            is_list = re.search(ITEM.pattern, paragraph, re.MULTILINE)
            stays.append((_items if is_list else _sentences)(paragraph, controls))
    return _joined(stays), _joined(with_panel)


def works_the_page(markdown, controls):
    """Whether something in ``markdown`` (str) would go, ``controls`` being the names of the panels' controls (set of str)."""
    return for_paper(markdown, controls)[0] != markdown


def _joined(paragraphs):
    """Paragraphs as one text; a line that led to a list which went goes too."""
    afters = [*paragraphs[1:], None]
    pairs = zip(paragraphs, afters[: len(paragraphs)], strict=True)
    return "\n\n".join(one for one, after in pairs if one and not (after == "" and one.rstrip().endswith(":")))


def for_the_notebook(paragraph):
    """Whether a ``paragraph`` (text) only makes sense in the notebook: it names a button of the page, a command, or a way on."""
    pressed = any(f"*{button}*" in paragraph for button in PAGE_BUTTONS)
    return bool(pressed or COMMAND.search(paragraph) or WAYS.match(paragraph))


def _goes(sentence, controls):
    named = {match.strip(" :.").lower() for match in EMPHASIS.findall(sentence)}
    return bool((named & controls and ACT.search(sentence)) or TO_THE_PAGE.search(sentence.strip()))


def _described(paragraph, controls):
    """What a paragraph that opens a panel says of its picture, and does not ask."""
    sentences = SENTENCE.split(paragraph)
    went, left = True, []
    for sentence in sentences:
        went = (
            _goes(sentence, controls) or (went and bool(CARRIES_ON.search(sentence.strip()))) or sentence.endswith("?")
        )
        left += [] if went else [sentence.strip()]
    return " ".join(left[1:] if OPENING.match(left[0]) else left) if left else ""


def _sentences(paragraph, controls):
    """A paragraph without the sentences that go, what stands between two of them, and what carries on from the last."""
    sentences = SENTENCE.split(paragraph)
    go = [number for number, sentence in enumerate(sentences) if _goes(sentence, controls)]
    if not go:
        return paragraph
    last = go[-1]
    while last + 1 < len(sentences) and CARRIES_ON.search(sentences[last + 1].strip()):
        last += 1
    left = sentences[: go[0]] + sentences[last + 1 :]
    return "".join(left[:-1] if left and left[-1].endswith(":") else left).strip()


def _items(paragraph, controls):
    """A list, and what stands in its paragraph above it, without the items that go."""
    lines = re.split(r"\n(?=- |\d+\. )", paragraph)
    head = "" if ITEM.match(lines[0]) else lines.pop(0)
    kept = [line for line in lines if not _item_goes(line, controls)]
    if kept == lines and not _goes(head, controls):
        return paragraph
    head = _sentences(head, controls) if head else ""
    return "\n".join(part for part in ["" if head.endswith(":") and not kept else head, *kept] if part)


def _item_goes(line, controls):
    head = HEAD_OF_ITEM.match(line)
    named = bool(head) and head[1].strip(" :.").lower() in controls
    return named or any(_goes(sentence, controls) for sentence in SENTENCE.split(line))
