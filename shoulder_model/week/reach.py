"""What would bring a week to a wish that it misses: one piece of equipment, or one more day."""

from dataclasses import replace

from .candidates import candidates, equipment, fitted_pulls
from .client import DAYS
from .wishes import can_be_done, programme, worth_trying

MOST_NAMED = 3  # ways that are said by name


def what_would_help(client, rules, missing):
    """What would help with each of the wishes that a week misses, in words.

    Parameters
    ----------
    client : client.Client
    rules : rules.Rules
    missing : dict of wish -> how far the week is from it, in the wish's unit

    Returns
    -------
    dict of wish -> str
        "A low cable would." where that is all it takes, "A low cable would help." where it brings the week nearer; a wish that
        no single change helps is not in it.
    """
    if not missing:
        return {}
    left = {words: _missing(changed, rules) for words, changed in _changes(client)}
    told = {name: _words(name, amount, left) or _order_words(name, client, rules) for name, amount in missing.items()}
    return {name: words for name, words in told.items() if words}


def _changes(client):
    """Each single change: its words, and the client with it."""
    if client.days < DAYS.high:
        yield "one more day", replace(client, days=client.days + 1)
    for piece in equipment():
        if piece not in client.equipment:
            yield piece_words(piece), replace(client, equipment=(*client.equipment, piece))


def piece_words(piece):
    """A ``piece`` of equipment with its article, in words."""
    plural = piece.endswith("s") and not piece.endswith("ss")
    return piece if plural else f"{'an' if piece[0] in 'aeiou' else 'a'} {piece}"


def _missing(client, rules):
    """What the nearest week of a client misses: dict of wish -> amount; None where there is no week."""
    offered = tuple(one for one in candidates() if can_be_done(client, rules, one))
    search = programme(client, rules, worth_trying(client, rules, fitted_pulls(client.lifter, offered)))
    week = search.nearest()
    return None if week is None else search.shortfalls(week)


def _order_words(name, client, rules):
    """What to say where no piece of equipment and no day helps, but the order of the wishes does."""
    if client.wishes[0] == name:
        return ""
    first = replace(client, wishes=(name, *(other for other in client.wishes if other != name)))
    return f"Putting “{name}” first among the wishes would." if not (_missing(first, rules) or {}).get(name) else ""


def _words(name, amount, left):
    """What would help with one wish."""
    after = {words: missing.get(name, 0.0) for words, missing in left.items() if missing is not None}
    enough = [words for words, still in after.items() if not still]
    nearer = sorted((words for words, still in after.items() if 0 < still < amount - 1e-6), key=after.get)
    if enough:
        return _sentence(f"{_either(enough)} would.")
    return _sentence(f"{_either(nearer)} would help.") if nearer else ""


def _sentence(words):
    return words[0].upper() + words[1:]


def _either(names):
    """ "a, b or c", or the first of many."""
    if len(names) > MOST_NAMED:
        return f"{', '.join(names[:MOST_NAMED])} and others"
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} or {names[-1]}"
