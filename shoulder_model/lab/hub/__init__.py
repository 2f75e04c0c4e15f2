"""The workbook for a class on one machine, each signed in as a user of the system: see ``ADMINISTRATOR.md`` beside this file.

JupyterHub is no dependency of the package; only ``python -m shoulder_model.lab.hub`` loads it, which a hub runs for each person.
"""
