"""Homework for a class: a sheet of its own for each student, the key, marking of what comes back, how the questions
worked.
"""
