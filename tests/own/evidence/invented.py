"""Results nobody found, for tests."""

from shoulder_model.evidence import Comparison, comparisons

LAT_ROW = {"question": "row or pulldown", "muscle": "latissimus dorsi"}


def invented(study="one", higher="", means=(12.0, 2.0, 10.0, 2.0), **more):
    """A result nobody found."""
    fields = dict(
        study=study, citation=f"Invented {study}", n=16, phase="whole", first="row", second="pulldown", higher=higher,
        statement="", held="each", also_changed="", trained="trained", normalised="MVIC", flaws="", means=means,
    )  # fmt: skip
    return Comparison(**(LAT_ROW | fields | more))


def pointing(study, *ways, **more):
    """Results of one study without numbers, that point these ways."""
    return [invented(study, higher=way, means=None, **more) for way in ways]


def asked(question, muscle):
    """The workbook's own results."""
    return [row for row in comparisons() if (row.question, row.muscle) == (question, muscle)]
