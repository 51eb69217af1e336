"""Lifting and ladders.

By hand: twisting beyond 45° takes a tenth off and one to two lifts a minute three tenths: 25 × 0.9 × 0.7 = 15.75 kg.
"""

import math
from fractions import Fraction

from splitpin.readings.reading import Choice, Number, Reading, Result

TWIST = {"up-to-45": Fraction(1), "over-45": Fraction("0.9"), "over-90": Fraction("0.8")}
PACE = {"seldom": Fraction(1), "1-2": Fraction("0.7"), "5-8": Fraction("0.5"), "over-12": Fraction("0.2")}
UP_FOR_ONE_OUT = 4


def lifting_filter(*, base_kg: Fraction, twist: str, lifts_a_minute: str) -> tuple[Fraction]:
    """Guideline mass (kg) after the cuts for twisting and pace."""
    return (base_kg * TWIST[twist] * PACE[lifts_a_minute],)


def ladder_foot(*, height_m: Fraction) -> tuple[Fraction, Fraction]:
    """How far out the foot stands (m), and the angle (°)."""
    return height_m / UP_FOR_ONE_OUT, Fraction(math.degrees(math.atan(UP_FOR_ONE_OUT)))


READINGS = (
    Reading(
        name="lifting-filter",
        title="Guideline mass for lifting by one person",
        inputs=(
            Number(
                "base_kg",
                "guideline mass for the person and the height of the hands, from the guidance",
                "kg",
                "1",
                "50",
            ),
            Choice("twist", "twist of the trunk, degrees", tuple(TWIST), "up-to-45"),
            Choice("lifts_a_minute", "pace; between two bands take the faster", tuple(PACE), "seldom"),
        ),
        results=(Result("guideline", "guideline mass", "kg", 2),),
        formula="base × (1, 0.9 over 45°, 0.8 over 90°) × (1, 0.7 at 1-2, 0.5 at 5-8, 0.2 over 12 a minute)",
        source="the HSE manual-handling filter as reproduced in a training booklet; between bands: our own rule",
        note="A filter, not a limit: heavier, higher, farther or kneeling work needs an assessment, a second person or "
        "an aid. Carry up to about 10 m.",
        compute=lifting_filter,
    ),
    Reading(
        name="ladder-foot",
        title="Foot of a leaning ladder",
        inputs=(Number("height_m", "height at which it leans", "m", "0.5", "12"),),
        results=(Result("out", "foot out from the wall", "m", 2), Result("angle", "angle to the ground", "°", 2)),
        formula="out = height / 4; angle = arctan 4",
        source="1 out for 4 up: a public page on ladder safety",
        note="Low risk and short duration only.",
        compute=ladder_foot,
    ),
)
