"""What a week is wished to have: names, and what one step short of each is.

Equipment and safety are facts; these are wishes. Their order says which gives way: one step short of a wish weighs as much as
two steps short of the next. Names, units and order of the default: common practice, no source.
"""

WISHES = {  # name, the most important first -> (what it asks for, unit of what is missing)
    "not too many sets": ("at most the high end of the weekly sets for lat and mid-back", "set"),
    "enough sets": ("at least the low end of the weekly sets for lat and mid-back", "set"),
    "preferred pulls": ("every pull that you prefer is in the week", "pull"),
    "both directions": ("some sets that pull the arm in, and some that pull it back", "set"),
    "two pulls a day": ("no day with a single pull", "day"),
    "different pulls": ("a few different pulls, few enough to learn well", "pull"),
    "every day": ("a pull on each day that the client comes", "day"),
}
