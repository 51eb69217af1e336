"""Combustion: how much carbon monoxide there is for the carbon dioxide.

By hand: 350 ppm is 0.035 %; over 8.75 % of CO2 that is 0.0040 exactly.
"""

from fractions import Fraction

from splitpin.calculations.reading import Number, Reading, Result

PPM_PER_PERCENT = 10_000


def co_co2_ratio(*, co_ppm: Fraction, co2_percent: Fraction) -> tuple[Fraction, Fraction]:
    """CO/CO2 by volume (no unit), and CO itself (ppm): a limit may bind both."""
    return co_ppm / PPM_PER_PERCENT / co2_percent, co_ppm


READINGS = (
    Reading(
        name="co-co2-ratio",
        title="CO/CO2 ratio of the products of combustion",
        inputs=(
            Number("co_ppm", "carbon monoxide in the products", "ppm", "0", "20000"),
            Number("co2_percent", "carbon dioxide in the products", "%", "0.1", "21"),
        ),
        results=(
            Result("ratio", "CO/CO2", "ratio", 5, limit="co-co2-ratio"),
            Result("co", "CO", "ppm", 0, limit="combustion-co"),
        ),
        formula="ratio = co_ppm / 10 000 / co2_percent",
        source="a trade-training page, with worked examples",
        note="Both limits must be met. A low ratio never outweighs visible damage, spillage or a high CO.",
        compute=co_co2_ratio,
    ),
)
