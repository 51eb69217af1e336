"""Water: flow and heat, pumps, test pressures, and the discharge pipe of a temperature and pressure relief valve.

By hand: 24 kW over 20 K are 24 / (4.187 × 20) = 0.2866 kg/s, that is 17.20 l/min.
"""

from fractions import Fraction

from splitpin.calculations.reading import Choice, Number, OutsideMethod, Reading, Result, Value, words

GRAVITY = Fraction("9.81")  # m/s²
KG_PER_L = 1
KPA_PER_BAR = 100
HEAT_BALANCE = "heat balance q = m c ΔT; c of water 4.187 kJ/(kg K)"
LIQUID = (
    Number("heat_capacity", "specific heat; water 4.187", "kJ/(kg K)", "2.5", "4.3", "4.187"),
    Number("density_kg_l", "density", "kg/l", "0.9", "1.2", "1"),
)

# valve: least D1, then D2 (mm), greatest straight length (m), metres for each elbow
DISCHARGE = {
    "g1/2": (15, ((22, 9, "0.8"), (28, 18, "1.0"), (35, 27, "1.4"))),
    "g3/4": (22, ((28, 9, "1.0"), (35, 18, "1.4"), (42, 27, "1.7"))),
    "g1": (28, ((35, 9, "1.4"), (42, 18, "1.7"), (54, 27, "2.3"))),
}


def water_flow(
    *, heat_kw: Fraction, difference_k: Fraction, heat_capacity: Fraction, density_kg_l: Fraction
) -> tuple[Fraction, Fraction, Fraction]:
    """Mass flow (kg/s), volume flow (l/min and m³/h)."""
    mass = heat_kw / (heat_capacity * difference_k)
    return mass, mass / density_kg_l * 60, mass / density_kg_l * Fraction("3.6")


def water_heat(
    *, flow_l_min: Fraction, rise_k: Fraction, heat_capacity: Fraction, density_kg_l: Fraction
) -> tuple[Fraction]:
    """Heat carried (kW)."""
    return (flow_l_min / 60 * density_kg_l * heat_capacity * rise_k,)


def pump_power(*, flow_l_s: Fraction, head_m: Fraction, efficiency_percent: Fraction) -> tuple[Fraction, Fraction]:
    """Hydraulic power and power at the shaft (W)."""
    hydraulic = KG_PER_L * GRAVITY * flow_l_s * head_m
    return hydraulic, hydraulic * 100 / efficiency_percent


def pump_head(*, flow_l_s: Fraction, suction_bar: Fraction, discharge_bar: Fraction) -> tuple[Fraction, Fraction]:
    """Head (m) and hydraulic power (W) from the gauges on both sides."""
    if discharge_bar <= suction_bar:
        raise OutsideMethod("the discharge pressure is not above the suction pressure", "check which gauge is which")
    rise_kpa = (discharge_bar - suction_bar) * KPA_PER_BAR
    return rise_kpa / (KG_PER_L * GRAVITY), rise_kpa * flow_l_s


def pump_affinity(*, speed_percent: Fraction) -> tuple[Fraction, Fraction, Fraction]:
    """Flow, head and power as shares of what they are at full speed."""
    speed = speed_percent / 100
    return speed, speed**2, speed**3


def water_test_pressure(*, working_bar: Fraction) -> tuple[Fraction, Fraction]:
    """Test pressures (bar): 1.5 × working, and 1.1 × a design pressure of 1.5 × working."""
    once = working_bar * Fraction("1.5")
    return once, once * Fraction("1.1")


def heating_test_pressure(*, operating_bar: Fraction) -> tuple[Fraction]:
    """Test pressure (bar) of a closed heating circuit."""
    return (operating_bar * Fraction("1.3"),)


def discharge_pipe(*, valve: str, run_m: Fraction, elbows: Fraction) -> tuple[Value, ...]:
    """Least D1 (mm), the least D2 (mm) that will do, the run it allows (m), and what is too small, in words.

    Raises OutsideMethod where no size of the table will do.
    """
    d1, sizes = DISCHARGE[valve]
    if elbows.denominator != 1:
        raise OutsideMethod("elbows are counted whole", "count the next one up")
    refused: list[str] = []
    for size, straight, elbow in sizes:
        allowed = straight - elbows * Fraction(elbow)
        if run_m <= allowed:
            return Fraction(d1), Fraction(size), allowed, ", ".join(refused) or "no size of the table"
        refused.append(f"{size} mm (allows {words(max(allowed, Fraction(0)), 1)} m)")
    raise OutsideMethod(
        f"no size of the table will do for {words(run_m, 1)} m with {words(elbows, 0)} elbows: {', '.join(refused)}",
        "shorten the run, take elbows out, or have the pipe designed",
    )


READINGS = (
    Reading(
        name="water-flow",
        title="Water flow from heat and temperature difference",
        inputs=(
            Number("heat_kw", "heat carried", "kW", "0.01", "100000"),
            Number("difference_k", "flow less return temperature", "K", "0.5", "100"),
            *LIQUID,
        ),
        results=(
            Result("mass", "mass flow", "kg/s", 4),
            Result("per_minute", "flow", "l/min", 2),
            Result("per_hour", "flow", "m³/h", 3),
        ),
        formula="kg/s = heat / (heat_capacity × difference); l/min = kg/s × 60 / density",
        source=HEAT_BALANCE,
        compute=water_flow,
    ),
    Reading(
        name="water-heat",
        title="Heat that flowing water takes up or gives off",
        inputs=(
            Number("flow_l_min", "flow", "l/min", "0.1", "1000000"),
            Number("rise_k", "difference of the temperatures", "K", "0.5", "100"),
            *LIQUID,
        ),
        results=(Result("heat", "heat", "kW", 1),),
        formula="kW = flow / 60 × density × heat_capacity × rise",
        source=HEAT_BALANCE,
        compute=water_heat,
    ),
    Reading(
        name="pump-power",
        title="Power of a pump from flow and head",
        inputs=(
            Number("flow_l_s", "flow", "l/s", "0.001", "10000"),
            Number("head_m", "head", "m", "0.01", "1000"),
            Number("efficiency_percent", "efficiency; 100 is the hydraulic power alone", "%", "1", "100", "100"),
        ),
        results=(
            Result("hydraulic", "hydraulic power", "W", 2),
            Result("shaft", "power at the shaft", "W", 2),
        ),
        formula="W = 1 kg/l × 9.81 m/s² × flow × head; shaft = W × 100 / efficiency",
        source="P = ρ g Q H, with the worked example of a public guide to pump power",
        compute=pump_power,
    ),
    Reading(
        name="pump-head",
        title="Head and power of a pump from its gauges",
        inputs=(
            Number("flow_l_s", "flow", "l/s", "0.001", "10000"),
            Number("suction_bar", "pressure before the pump", "bar", "-1", "100"),
            Number("discharge_bar", "pressure after the pump", "bar", "-1", "100"),
        ),
        results=(Result("head", "head", "m", 1), Result("hydraulic", "hydraulic power", "W", 0)),
        formula="head = rise × 100 kPa/bar / (1 kg/l × 9.81 m/s²); W = rise × 100 × flow",
        source="Δp = ρ g H, with a published exercise",
        note="Both gauges at one height and in pipes of one size, or correct for it.",
        compute=pump_head,
    ),
    Reading(
        name="pump-affinity",
        title="Flow, head and power of a pump at another speed",
        inputs=(Number("speed_percent", "speed, of full speed", "%", "1", "200"),),
        results=(
            Result("flow", "flow, of that at full speed", "ratio", 3),
            Result("head", "head, of that at full speed", "ratio", 3),
            Result("power", "power, of that at full speed", "ratio", 3),
        ),
        formula="flow ~ speed; head ~ speed²; power ~ speed³",
        source="affinity laws, with the worked example of a public guide to pump power",
        compute=pump_affinity,
    ),
    Reading(
        name="test-pressure-water",
        title="Test pressure of water pipework",
        inputs=(Number("working_bar", "greatest working pressure", "bar", "0.1", "40"),),
        results=(
            Result("metal", "metal pipe, 1.5 × working; 30 min to settle first", "bar", 2),
            Result("en_806", "EN 806-4, 1.1 × design pressure of 1.5 × working", "bar", 2),
        ),
        formula="1.5 × working; 1.1 × 1.5 × working",
        source="a plumbing textbook (1.5 ×, 30 min); water regulations leaflet on testing fittings, EN 806-4 (1.1 ×)",
        note="What is fitted must bear the test pressure: take off or shut off what does not.",
        compute=water_test_pressure,
    ),
    Reading(
        name="test-pressure-heating",
        title="Test pressure of a closed heating circuit",
        inputs=(Number("operating_bar", "operating pressure", "bar", "0.1", "40"),),
        results=(Result("test", "test pressure", "bar", 2),),
        formula="1.3 × operating",
        source="EN 14336 as quoted by a public trade encyclopaedia",
        note="Vessel shut off and relief valve plugged for the test, then put back; or test at the setting of the "
        "relief valve. Then heat to the greatest temperature and look again.",
        compute=heating_test_pressure,
    ),
    Reading(
        name="discharge-pipe",
        title="Discharge pipe D2 of a temperature and pressure relief valve",
        inputs=(
            Choice("valve", "outlet of the valve", tuple(DISCHARGE)),
            Number("run_m", "length of D2 from the tundish", "m", "0.1", "100"),
            Number("elbows", "elbows and bends in D2", "(count)", "0", "50"),
        ),
        results=(
            Result("d1", "D1, at least", "mm"),
            Result("d2", "D2, at least", "mm"),
            Result("allowed", "run that this D2 allows", "m", 1),
            Result("refused", "too small"),
        ),
        formula="allowed = greatest length - elbows × metres for each elbow; valve: D2 length, elbow: "
        + "; ".join(
            f"{valve}: " + ", ".join(f"{size} mm {straight} m, {elbow}" for size, straight, elbow in sizes)
            for valve, (_, sizes) in DISCHARGE.items()
        ),
        source="table of a trade page on unvented stores; the valve sizes g1/2 and g3/4 of its rows from memory",
        note="300 mm straight down below the tundish first, then a fall of at least 1 in 200.",
        compute=discharge_pipe,
    ),
)
