"""Recipes that make what is stored: landmarks, the week's bands, the text outputs of the chapters.

Each is run by hand after a change of what it rests on, for example ``python -m shoulder_model.recipes.landmarks``; nothing
else in the package imports them.
"""
