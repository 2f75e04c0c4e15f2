"""Numbers with units as people type them."""

import pytest

from shoulder_model.inputs import InputError
from shoulder_model.practice.quantity import read_quantity


@pytest.mark.parametrize(
    ("typed", "unit", "value", "given"),
    [
        ("12.5", "N m", 12.5, "none"),
        ("12,5 Nm", "N m", 12.5, "same"),
        ("12.5 N·m", "N m", 12.5, "same"),
        ("12.5 newton metres", "N m", 12.5, "same"),
        ("1250 N cm", "N m", 12.5, "turned"),
        ("−3,2 cm", "cm", -3.2, "same"),
        ("- 3.2 cm", "cm", -3.2, "same"),
        ("0.12 m", "cm", 12, "turned"),
        ("120mm", "cm", 12, "turned"),
        ("40 lb", "kg", 18.14, "turned"),
        ("1.234,5 N", "N", 1234.5, "same"),
        ("1,234.5 N", "N", 1234.5, "same"),
        ("1 234 N", "N", 1234, "same"),
        ("30°", "°", 30, "same"),
        ("0.5236 rad", "°", 30, "turned"),
        ("87 %", "%", 87, "same"),
        ("0.5 ×", "%", 50, "turned"),
        ("1.5x", "×", 1.5, "same"),
        ("about 12", "kg", 12, "none"),
        ("≈ 12 kg", "kg", 12, "same"),
        ("3", "", 3, "same"),
        ("3 sets", "sets", 3, "same"),
        ("1 set", "sets", 1, "same"),
        ("15 kg", "N", 15, "wrong"),
        ("15 N", "N m", 15, "wrong"),
        ("15 kg", "sets", 15, "wrong"),
    ],
)
def test_what_people_type(typed, unit, value, given):
    found = read_quantity(typed, unit)
    assert found.value == pytest.approx(value, rel=1e-3) and found.given == given


def test_a_wrong_unit_says_what_it_measures():
    assert read_quantity("15 kg", "N").kind == "a mass"
    assert read_quantity("15 N", "N m").kind == "a force"


@pytest.mark.parametrize(
    "typed",
    [
        "",
        "  ",
        "twelve",
        "kg",
        "5 apples",
        "12 kg 4",
        "1" * 80,
        "--3",
        "=1+1",
        "12;13",
        "1e999",
        "1.2.3,4",
        "1.23.4",
        "nan",
        "inf",
    ],
)
def test_what_cannot_be_read_is_refused_in_one_line(typed):
    with pytest.raises(InputError, match=r"^answer: .+$") as refused:
        read_quantity(typed, "kg")
    assert "\n" not in str(refused.value) and len(str(refused.value)) < 120
