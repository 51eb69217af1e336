"""Printed figures about fasteners, recomputed.

The worked examples stand in fastener_checks.json beside this checkout with their sources: stress areas and proof
loads of ISO 898-1 tables, T = K d F from calculator pages, an engineering-exam page, a valve manual and a torque
chart for ISO 898-1 classes, VDI 2230 from a printed fine-thread table and a worked example, look-ups from open tables
of the standards, O-rings, ISO 228-1, re-use limits of a United States Army manual, compression joints of a technical
manual. The tables are those of the same folder; what two sources dispute is marked there, and here.
"""

import csv
import json
import math
import re
from collections import Counter
from pathlib import Path
from typing import Any

import pytest

from splitpin.hardware import strength, tables, thread, torque
from splitpin.hardware.designation import Designation
from splitpin.hardware.facts import facts
from splitpin.hardware.needed import needs
from splitpin.hardware.oring import ORing, o_ring
from splitpin.hardware.parser import parse
from splitpin.hardware.pipe import compression_joint
from splitpin.hardware.reuse import locknut_in_lb, rule

FT_LB = 1.3558179483  # N m, NIST SP 811
IN_LB = FT_LB / 12


@pytest.fixture
def data(reference: Path) -> Path:
    return reference / "data"


@pytest.fixture
def checks(data: Path) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = json.loads((data / "fastener_checks.json").read_text(encoding="utf-8"))
    return found


def rows(data: Path, name: str) -> list[dict[str, str]]:
    return list(csv.DictReader((data / f"{name}.csv").read_text(encoding="utf-8").splitlines()))


def designation(text: str) -> Designation:
    found = parse(text)
    assert isinstance(found, Designation), found
    return found


def area(d: float) -> float:
    """The printed stress area of a coarse thread."""
    size = thread.metric(d)
    row = tables.index("threads", "d_mm", "pitch_mm")[f"{d:g}", f"{size.pitch_mm:g}"]
    return float(row["stress_area_mm2"])


# -- the worked examples


def computed(kind: str, given: dict[str, Any]) -> dict[str, float]:
    if kind == "stress_area":
        return {"As_mm2": thread.Thread(given["d_mm"], given["P_mm"]).stress_area_mm2}
    if kind == "proof_load":
        return {"N": given["As_mm2"] * given["Sp_MPa"]}
    if kind == "torque_from_preload":
        preload = given["As_mm2"] * given["Sp_MPa"] * given["fraction"]
        nm = torque.by_nut_factor(given["d_mm"], given["K"], preload)
        return {
            "preload_kN": preload / 1000,
            "torque_Nm": nm,
            "torque_in_lb": nm / IN_LB,
            "torque_ft_lb": nm / FT_LB,
        }
    if kind == "preload_from_torque":
        preload = torque.preload_by_nut_factor(given["d_mm"], given["K"], given["torque_Nm"])
        return {"preload_kN": preload / 1000, "stress_MPa": preload / given.get("As_mm2", math.nan)}
    if kind == "torque_from_preload_inch":
        lbf = given.get("preload_lbf") or given["tensile_psi"] * given["fraction"] * given["area_in2"]
        in_lb = torque.by_nut_factor(
            given["d_in"] * 1000, given["K"], lbf
        )  # the formula knows no units but the thousand
        return {"preload_lbf": lbf, "torque_in_lb": in_lb, "torque_ft_lb": in_lb / 12}
    if kind == "vdi2230":
        found = torque.by_friction(
            thread.Thread(given["d_mm"], given["P_mm"]),
            given["Rp02_MPa"],
            given["mu"],
            given["dw_mm"],
            given["dh_mm"],
            given["utilisation"],
        )
        return {"preload_kN": found.preload_n / 1000, "torque_Nm": found.torque_nm}
    if kind == "tightening_factor":
        return {"preload_min_kN": torque.least_preload_n(given["preload_max_kN"] * 1000, given["alpha_A"]) / 1000}
    if kind == "oring_od":
        return {"od_mm": ORing(given["dash"], given["id_mm"], given["cs_mm"], None, "").outside_mm}
    assert kind == "iso228_minor", kind
    return {"minor_mm": thread.pipe_minor_mm(given["major_mm"], given["tpi"])}


def test_every_numeric_worked_example_comes_out(checks: list[dict[str, Any]]) -> None:
    counted = 0
    for check in checks:
        if check["tolerance"] == "exact":
            continue
        size, unit = check["tolerance"].split()
        answer = computed(check["kind"], check["inputs"])
        for name, expected in check["expect"].items():
            within = {"rel": float(size) / 100, "abs": 0.0} if unit == "%" else {"rel": 0.0, "abs": float(size) + 1e-9}
            assert answer[name] == pytest.approx(expected, **within), (check["id"], name, check["source"])
        counted += 1
    assert counted == 47


def tool_id(words: str) -> str:
    for pattern, prefix in (
        (r"hex key ([\d.]+) mm", "hex-key-"),
        (r"spanner ([\d.]+) mm", "spanner-"),
        (r"T(\d+)", "driver-tx-"),
        (r"PZ(\d)", "driver-pz-"),
        (r"PH(\d)", "driver-ph-"),
    ):
        found = re.fullmatch(pattern, words)
        if found:
            return prefix + found[1].replace(".", "-")
    raise AssertionError(words)


def test_every_worked_look_up_finds_its_tool_and_rule(checks: list[dict[str, Any]]) -> None:
    verdicts = {"conditional": "inspect", "never": "renew"}
    counted: Counter[str] = Counter()
    for check in checks:
        if check["kind"] != "designation_lookup":
            continue
        found, expected = designation(check["inputs"]["designation"]), check["expect"]
        said = {fact.name: fact.value for fact in facts(found)}
        if "tool" in expected:
            assert [tool_id(expected["tool"]) in choice for choice in needs(found)] == [True], check["id"]
        if "reuse" in expected:
            assert rule(found).reuse == verdicts[expected["reuse"]], check["id"]
        if "pairs_with" in expected:
            assert f"{said['castle nut']} castle nut" == expected["pairs_with"]
        if "plier_code" in expected:
            assert said["plier code"] == expected["plier_code"]
            assert f"groove {expected['groove_mm']:g} mm" in said["ring"]
        counted.update(expected.keys())
    assert counted == {"tool": 14, "reuse": 2, "pairs_with": 1, "plier_code": 2, "groove_mm": 2}


def test_the_worked_rules_come_out(checks: list[dict[str, Any]]) -> None:
    counted = 0
    for check in checks:
        given, expected = check["inputs"], check["expect"]
        if check["kind"] == "reuse_check":
            nut = {"all-metal": "all-metal", "plastic insert": "insert"}[given["kind"]]
            verdict = locknut_in_lb(given["thread"], nut, given["measured_in_lb"])
            assert (verdict.goes_back, verdict.least) == (expected["reuse"], expected["minimum_in_lb"])
        elif check["kind"] == "compression_turns":
            joint = compression_joint(given["tube_od_mm"], given["temper"])
            assert joint.turns == expected["turns_after_hand_tight"]
            assert (joint.torque_nm, joint.tolerance_nm) == (expected["torque_Nm"], expected["tolerance_Nm"])
        else:
            continue
        counted += 1
    assert counted == 4


# -- strength: ISO 898-1 as printed


def test_stress_areas_agree_to_the_three_printed_figures(data: Path) -> None:
    counted = 0
    for row in rows(data, "thread_pitch_stress_area"):
        size = thread.metric(float(row["d_mm"]), float(row["P_mm"]))
        assert size.pitch_diameter_mm == pytest.approx(float(row["d2_computed_mm"]), abs=6e-4)
        assert size.core_diameter_mm == pytest.approx(float(row["d3_computed_mm"]), abs=6e-4)
        if row["As_published_mm2"]:
            assert float(f"{size.stress_area_mm2:.3g}") == float(row["As_published_mm2"]), row["thread"]
            counted += 1
    assert counted == 27


def test_all_139_printed_proof_loads_come_out_within_half_a_percent(data: Path) -> None:
    worst = counted = 0.0
    for row in rows(data, "proof_loads"):
        d = float(row["thread"][1:])
        printed = float(row["proof_load_N_published"])
        product = area(d) * strength.property_class(row["property_class"], d).proof_mpa
        worst = max(worst, abs(product / printed - 1))
        assert strength.proof_load_n(thread.metric(d), row["property_class"]) == printed
        counted += 1
    assert counted == 139
    assert worst <= 0.005


# -- the short formula


def test_the_torque_chart_for_iso_898_classes_comes_out(data: Path) -> None:
    # Two departures are known: the chart takes 580 MPa for 8.8 at every size, and prints 333 in-lb for M8, 10.9, dry,
    # where its own lubricated neighbour says 323.
    counted: Counter[str] = Counter()
    for row in rows(data, "torque_examples"):
        if row["table"] != "T1":
            continue
        d = float(row["thread"][1:])
        preload = torque.PROOF_FRACTION * area(d) * strength.property_class(row["class"], d).proof_mpa
        nm = torque.by_nut_factor(d, float(row["K"]), preload)
        printed = float(row["value"]) * {"in-lb": IN_LB, "ft-lb": FT_LB}[row["unit"]]
        off = nm / printed - 1
        if row["class"] == "8.8" and d > 16:
            assert 0.029 <= off <= 0.039, row
            counted["580 MPa"] += 1
        elif (row["thread"], row["class"], row["condition"], row["value"]) == ("M8", "10.9", "dry", "333"):
            assert off == pytest.approx(-0.03, abs=0.005)
            counted["misprint"] += 1
        else:
            assert abs(off) <= 0.0125, row
            counted["agrees"] += 1
    assert sum(counted.values()) == 96
    assert counted["misprint"] == 1


def test_the_inch_table_of_a_valve_manual_comes_out(data: Path) -> None:
    found = [row for row in rows(data, "torque_examples") if row["table"] == "T2"]
    for row in found:
        whole = row["thread"].split("-")[0]
        d_in = eval_fraction(whole)
        lbf = re.search(r"\((\d+)\)", row["basis"])
        assert lbf is not None
        in_lb = torque.by_nut_factor(d_in * 1000, 0.2, float(lbf[1]))
        assert in_lb / 12 == pytest.approx(float(row["value"]), rel=0.0045), row["thread"]
    assert len(found) == 18


def eval_fraction(text: str) -> float:
    above, _, below = text.partition("/")
    return int(above) / int(below or 1)


# -- the long formula


def long_formula(size: thread.Thread, name: str, friction: float) -> torque.Tightening:
    face = tables.index("bearing_faces", "d_mm")[(f"{size.d_mm:g}",)]
    grade = strength.property_class(name, size.d_mm)
    return torque.by_friction(size, grade.yield_mpa, friction, float(face["face_mm"]), float(face["hole_mm"]))


def test_the_vdi_2230_fine_thread_table_comes_out(data: Path) -> None:
    # The printed preload has three figures, so 115 kN may stand for anything that rounds to it.
    counted, exceptions, worst_torque = 0, 0, 0.0
    for row in rows(data, "torque_examples"):
        if row["table"] != "T3":
            continue
        d, pitch = row["thread"][1:].split("x")
        size = thread.metric(float(d), float(pitch))
        found = long_formula(size, row["class"], float(row["condition"].removeprefix("mu=")))
        printed = float(row["preload_N"])
        if abs(found.preload_n / printed - 1) > 0.003:
            assert float(f"{found.preload_n:.3g}") == printed, row
            exceptions += 1
        worst_torque = max(worst_torque, abs(found.torque_nm / float(row["value"]) - 1))
        counted += 1
    assert counted == 81
    assert exceptions == 3  # M18 x 1.5 twice and M20 x 1.5, 0.31 to 0.34 % off
    assert worst_torque <= 0.0115


def test_a_general_coarse_thread_table_agrees_within_two_and_a_half_percent(data: Path) -> None:
    found = [row for row in rows(data, "torque_examples") if row["table"] == "T4" and row["class"] == "8.8"]
    for row in found:
        nm = long_formula(thread.metric(float(row["thread"][1:])), "8.8", 0.12).torque_nm
        assert nm == pytest.approx(float(row["value"]), rel=0.026), row["thread"]
    assert len(found) == 7


def test_the_worked_example_m12_at_friction_014_comes_out() -> None:
    # A booklet of VDI 2230 tables (2021): 41.9 kN, and with the factor 1.8 at least 23.3 kN.
    found = long_formula(thread.metric(12), "8.8", 0.14)
    assert found.preload_n / 1000 == pytest.approx(41.9, rel=0.003)
    assert torque.least_preload_n(41.9, 1.8) == pytest.approx(23.3, abs=0.05)


# -- the tables, each row against the open tables it was made from


def values(row: tables.Row, *columns: str) -> set[float]:
    return {float(row[column]) for column in columns if row[column]}


def test_across_flats_agree_with_the_open_tables(data: Path) -> None:
    counted: Counter[str] = Counter()
    for row in rows(data, "hex_across_flats"):
        known = tables.index("standards", "standard").get((row["standard"],))
        text = f"{row['standard']} - {row['thread'].replace('x', ' x ')}"
        found = parse(text)
        if known is None or not isinstance(found, Designation):
            counted["size not kept"] += 1
            continue
        sizes = {float(choice[0].removeprefix("socket-").replace("-", ".")) for choice in needs(found)}
        assert float(row["across_flats_mm"]) in sizes, text
        counted["one" if len(sizes) == 1 else "both"] += 1
    # Not kept: sizes above M64, diameters outside ISO 261, fine pitches outside ISO 262.
    assert counted == {"one": 386, "both": 16, "size not kept": 87}


@pytest.mark.parametrize(
    ("file", "column", "table", "own", "least"),
    [
        ("socket_key", "hex_key_mm", "hex_keys", ("key_mm",), 95),
        ("hexalobular", "socket_number", "hexalobular", ("number", "or_number"), 61),
        ("cross_recess", "recess_number", "cross_recesses", ("number", "or_number"), 37),
        ("slot_width", "slot_nominal_mm", "slots", ("slot_mm", "or_slot_mm"), 30),
    ],
)
def test_drives_agree_with_the_open_tables(
    data: Path, file: str, column: str, table: str, own: tuple[str, ...], least: int
) -> None:
    counted = 0
    for row in rows(data, file):
        standard = tables.index("standards", "standard").get((row["standard"],))
        if standard is None:
            assert row["standard"] == "ISO 7379"  # shoulder screws go by the shoulder: not kept
            continue
        size = re.sub("[A-Z]", "", row["thread"])
        if float(size) < float(standard["from_mm"]):
            continue
        found = tables.index(table, "series", "d_mm")[standard["series"], size]
        assert float(row[column]) in values(found, *own), row
        if row["agreement"] == "DISAGREE" and found["mark"] == "disputed":
            other = re.match(r"[\d.]+", row["other_values_seen"])
            assert other is not None
            assert float(other[0]) in values(found, *own)
        counted += 1
    assert counted >= least


def test_o_rings_rings_pins_pipe_threads_and_washers_agree_with_the_open_tables(data: Path) -> None:
    for row in rows(data, "orings"):
        ring = o_ring(row["dash_number"])
        assert ring.inside_mm == float(row["inside_diameter_mm"])
        assert ring.section_mm == float(row["cross_section_mm"])
        assert ring.outside_mm == pytest.approx(float(row["outside_diameter_mm"]), abs=1e-9)
        assert (ring.or_inside_mm is not None) == row["cross_check"].startswith("DISAGREE")
    for name in ("471", "472"):
        for row in rows(data, f"retaining_ring_din{name}"):
            own = tables.index("retaining_rings", "standard", "d_mm")[f"DIN {name}", row["nominal_d1_mm"]]
            assert float(own["groove_mm"]) == float(row["groove_diameter_d2_mm"])
            assert float(own["thickness_mm"]) == float(row["ring_thickness_s_mm"])
            assert own["plier_code"] == row["plier_size_code"]
    for row in rows(data, "iso228"):
        own = tables.index("pipe_threads", "size")[(row["designation"].removeprefix("G "),)]
        assert float(own["major_mm"]) == float(row["major_diameter_mm"])
        minor = thread.pipe_minor_mm(float(own["major_mm"]), float(own["tpi"]))
        assert minor == pytest.approx(float(own["minor_mm"]), abs=0.0015)  # the standard rounds to 0.001 mm
    for row in rows(data, "split_pin"):
        own = tables.index("split_pins", "hole_mm")[(row["nominal_hole_mm"],)]
        assert float(own["pin_max_mm"]) == float(row["pin_d_max_mm"])
    for row in rows(data, "washer_iso7089"):
        own = tables.index("washers", "d_mm")[(row["thread"][1:],)]
        assert float(own["outside_mm"]) == float(row["d2_max_mm"])


def test_stainless_and_prevailing_torques_agree_with_the_printed_tables(data: Path) -> None:
    counted = 0
    for row in rows(data, "torque_examples"):
        if row["table"] == "T6":
            own = tables.index("stainless_torques", "d_mm", "strength")[row["thread"][1:], row["class"][-2:]]
            column = {"mu=0.1": "friction_0_1_nm", "mu=0.2": "friction_0_2_nm"}[row["condition"]]
            assert float(own[column]) == float(row["value"])
            counted += 1
    assert counted == 54
    for row in rows(data, "prevailing_torque"):
        if row["table"].startswith("ISO 2320"):
            own = tables.index("prevailing_torques", "d_mm")[(row["thread"][1:],)]
            assert [float(own[name]) for name in ("first_on_max_nm", "first_off_min_nm", "fifth_off_min_nm")] == [
                float(row[name]) for name in ("v1", "v2", "v3")
            ]


def test_driver_limits_agree_with_the_printed_table(data: Path) -> None:
    for row in rows(data, "hexalobular_socket"):
        own = tables.index("hexalobular_drivers", "number")[(row["socket_number"],)]
        assert own["limit_low_nm"] == row["max_torque_low_Nm"]
        assert own["limit_high_nm"] == row["max_torque_high_Nm"]
