"""The invented gym that all items play in: its people, and how their numbers are drawn."""

from functools import cache

from ..mechanics import pulls
from ..people import Lifter
from ..sources import fact

WOMEN = (
    "Ada",
    "Bea",
    "Cleo",
    "Edda",
    "Iva",
    "Jana",
    "Kaya",
    "Lotte",
    "Nele",
    "Orla",
    "Pia",
    "Romy",
    "Suri",
    "Tilda",
    "Yara",
)
MEN = (
    "Arno",
    "Ben",
    "Cyrus",
    "Dario",
    "Eero",
    "Faro",
    "Gus",
    "Hugo",
    "Ivo",
    "Jasper",
    "Kofi",
    "Milan",
    "Pax",
    "Remo",
    "Tarik",
)
GRAVITY = round(fact("gravity"), 2)  # N/kg, as on a pocket calculator


@cache
def _lifter(sex, breadth_cm):
    return Lifter.from_measures(sex, biacromial=breadth_cm / 100)


def person(chance):
    """Somebody invented: a name, and the `Lifter` with shoulders of a whole number of centimetres, an even one.

    ``chance`` is a `chance.Chance`. Returns name (text), lifter, shoulders [cm].
    """
    sex = chance.one_of(("women", "men"))
    breadth = chance.number(34, 40, 2) if sex == "women" else chance.number(38, 46, 2)
    return chance.one_of(WOMEN if sex == "women" else MEN), _lifter(sex, breadth), breadth


def people(chance, count):
    """So many different names, a tuple of text; ``chance`` is a `chance.Chance`, ``count`` a whole number."""
    return chance.some((*WOMEN, *MEN), count)


def held_pull(name, **changed):
    """A catalogue pull with the shoulder blade held still, as the first chapters have it.

    ``name`` (text) is the pull's; ``changed`` are fields of `Pull`, SI units.
    """
    return pulls[name].change(girdle_travel=0.0, **changed)
