"""Bytes of a file gone wrong: the changes that tests of several kinds of file share."""


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
