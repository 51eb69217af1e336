"""Fluorinated refrigerant: what a charge weighs as carbon dioxide, and how often it is checked for leaks.

By hand: 10 kg with a global warming potential of 3922 are 39.22 t of CO2-equivalent; checked every 12 months.
"""

from fractions import Fraction

from splitpin.calculations.reading import Flag, Number, Reading, Result, Value

YEARLY_T, HERMETIC_T, HALF_YEARLY_T, DETECTION_T = 5, 10, 50, 500


def co2_equivalent(*, charge_kg: Fraction, gwp: Fraction, hermetic: bool) -> tuple[Value, ...]:
    """Tonnes of CO2-equivalent, and the longest time between leak checks in words."""
    tonnes = charge_kg * gwp / 1000
    return tonnes, _interval(tonnes, hermetic)


def _interval(tonnes: Fraction, hermetic: bool) -> str:
    if tonnes < YEARLY_T:
        return "none set below 5 t"
    if hermetic and tonnes < HERMETIC_T:
        return "none set below 10 t for a hermetically sealed system"
    if tonnes < HALF_YEARLY_T:
        return "12 months"
    if tonnes < DETECTION_T:
        return "6 months"
    return "not set: read the regulation; automatic leak detection is fitted"


READINGS = (
    Reading(
        name="co2-equivalent",
        title="CO2-equivalent of a refrigerant charge and its leak checks",
        inputs=(
            Number("charge_kg", "charge, from the plate", "kg", "0.01", "10000"),
            Number("gwp", "global warming potential of the refrigerant", "kg CO2e/kg", "0", "30000"),
            Flag("hermetic", "hermetically sealed and labelled so", "no"),
        ),
        results=(
            Result("tonnes", "CO2-equivalent", "t", 3),
            Result("interval", "longest time between leak checks"),
        ),
        formula="t = charge × gwp / 1000; from 5 t 12 months, from 50 t 6 months, from 500 t automatic detection",
        source="public guidance of the British government on CO2-equivalent and on leak checks of F-gas equipment",
        note="Only the holder of the certificate for this equipment checks or repairs the sealed circuit.",
        compute=co2_equivalent,
    ),
)
