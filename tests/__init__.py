"""Tests. How fast something is, is measured in benchmarks, so no test has a deadline."""

from hypothesis import settings

settings.register_profile("project", deadline=None)
settings.load_profile("project")
