"""Everything the tables say of one designation, each figure with its source: what `splitpin hardware` prints."""

from dataclasses import dataclass

from splitpin import units
from splitpin.hardware import sizes, strength, tables, thread, torque
from splitpin.hardware.designation import Designation
from splitpin.hardware.oring import o_ring
from splitpin.hardware.standard import standards


@dataclass(frozen=True, slots=True)
class Fact:
    """One line: what it is, its value in words with the unit, and where it comes from."""

    name: str
    value: str
    source: str


def facts(designation: Designation) -> tuple[Fact, ...]:
    """Standard, sizes and strength of a designation, its nut after it."""
    found = [*_standard(designation), *_sizes(designation), *_strength(designation)]
    if designation.mate is not None:
        found += [Fact(f"nut: {fact.name}", fact.value, fact.source) for fact in facts(designation.mate)]
    return tuple(found)


def _standard(designation: Designation) -> list[Fact]:
    found = []
    for name in (designation.standard, designation.other):
        if not name:
            continue
        known = standards()[name]
        edition = designation.edition or known.edition
        where = "as typed" if designation.edition else known.edition_source or "from memory"
        value = known.title + (f"; replaced by {known.replaced_by}" if known.replaced_by else "")
        found.append(Fact(f"{name}:{edition}" if edition else name, value, f"edition: {where}" if edition else ""))
    return found


def _sizes(designation: Designation) -> list[Fact]:
    drive, form = designation.means.drive, designation.means.thread
    found = []
    if form == "M":
        found += _thread(designation)
    if drive in sizes.TABLE_OF_DRIVE:
        found += _drive(drive, sizes.tool_row(designation.means, designation.diameter), designation.recess)
    if form == "ST":
        found += _tapping(designation)
    plain = {"washer": _washer, "pin": _pin, "ring": _ring, "G": _pipe, "tube": _tube, "tab": _tab, "dash": _dash}
    if form in plain:
        found += plain[form](designation)
    if designation.means.reuse.startswith("locknut"):
        found += _locknut(designation)
    return found


def _thread(designation: Designation) -> list[Fact]:
    size = thread.metric(designation.diameter, designation.pitch)
    key = f"{size.d_mm:g}", f"{size.pitch_mm:g}"
    row = tables.index("threads", "d_mm", "pitch_mm")[key]
    pitch = Fact("pitch", f"{size.pitch_mm:g} mm, {row['series']}", tables.origin(row))
    if designation.means.is_nut:
        return [pitch]
    area = row["stress_area_mm2"]
    where = row["area_source"] if area else "computed, ISO 898-1: pi/4 (d - 0.9382 P)^2"
    return [pitch, Fact("stress area", f"{area or format(size.stress_area_mm2, '.3g')} mm²", where)]


DRIVE_WORDS = {
    "hexagon": ("across flats", "flats_mm", "or_mm", " mm"),
    "hex-socket": ("hexagon socket", "key_mm", "", " mm"),
    "six-lobe": ("six-lobe socket", "number", "or_number", ""),
    "cross": ("cross recess", "number", "or_number", ""),
    "slot": ("slot", "slot_mm", "or_slot_mm", " mm"),
}


def _drive(drive: str, row: tables.Row, recess: str) -> list[Fact]:
    name, column, other, unit = DRIVE_WORDS[drive]
    value = row[column] + unit
    if other and row[other]:
        value += f" or {row[other]}{unit}"
    if recess:
        value += f", type {recess}"
    note = row.get("note", "")
    found = [Fact(name, value + (f" ({note})" if note else ""), tables.origin(row))]
    if drive == "slot":
        blades = " or ".join(blade for blade in (row["blade_mm"], row["or_blade_mm"]) if blade)
        found.append(Fact("blade", f"{blades} mm wide", row["blade_mark"]))
    return found


def _tapping(designation: Designation) -> list[Fact]:
    row = tables.index("tapping_threads", "d_mm")[(f"{designation.diameter:g}",)]
    value = f"gauge {row['gauge']}, {row['outside_mm']} mm outside, pitch {row['pitch_mm']} mm"
    return [Fact("tapping thread", value, tables.origin(row))]


def _washer(designation: Designation) -> list[Fact]:
    if designation.means.reuse != "washer":
        return []  # the table is of plain washers
    row = tables.index("washers", "d_mm")[(designation.size,)]
    value = f"{row['inside_mm']} mm inside, {row['outside_mm']} mm outside, {row['thickness_mm']} mm thick"
    return [Fact("washer", value, tables.origin(row))]


def _pin(designation: Designation) -> list[Fact]:
    row = tables.index("split_pins", "hole_mm")[(designation.size,)]
    found = [
        Fact("pin", f"{row['pin_min_mm']} to {row['pin_max_mm']} mm, hole {designation.size} mm", tables.origin(row))
    ]
    pairs = [pair.split(":") for pair in row["castle_nuts"].split()]
    fitting = [name for name, length in pairs if length == designation.second or not designation.second]
    if fitting:
        found.append(Fact("castle nut", ", ".join(fitting), "DIN 935; one table"))
    return found


def _ring(designation: Designation) -> list[Fact]:
    row = tables.index("retaining_rings", "standard", "d_mm")[designation.standard, designation.size]
    note = f" ({row['note']})" if row["note"] else ""
    return [
        Fact("ring", f"{row['thickness_mm']} mm thick, groove {row['groove_mm']} mm{note}", tables.origin(row)),
        Fact("plier code", row["plier_code"], f"{designation.standard}; one open table"),
    ]


def _pipe(designation: Designation) -> list[Fact]:
    size = designation.size.removeprefix("G ")
    row = tables.index("pipe_threads", "size")[(size,)]
    value = f"{row['tpi']} to the inch, {row['major_mm']} mm outside, {row['minor_mm']} mm core"
    found = [Fact("pipe thread", value, tables.origin(row))]
    nut = tables.index("union_nuts", "size").get((size,))
    if nut is not None:
        flats = f"{nut['flats_mm']} to {nut['or_mm']}" if nut["or_mm"] else nut["flats_mm"]
        found.append(Fact("union nut", f"about {flats} mm across flats: {nut['source']}", nut["mark"]))
    return found


def _tube(designation: Designation) -> list[Fact]:
    row = tables.index("compression_joints", "tube_mm")[(designation.size,)]
    tempers = [name for name in ("R220", "R250", "R290") if designation.property_class in ("", name)]
    liner = {"R220": " with a liner"}
    known = [(name, row[f"turns_{name.lower()}"]) for name in tempers]
    turns = ", ".join(f"{name} {value}{liner.get(name, '')}" for name, value in known if value)
    found = [Fact("turns after hand tight", turns or "no figure", tables.origin(row))]
    if row["flats_mm"]:
        found.append(Fact("nut", f"{row['flats_mm']} mm across flats ({row['flats_seen']} seen)", row["flats_mark"]))
    return found


def _tab(designation: Designation) -> list[Fact]:
    made = [row for row in tables.rows("tabs") if row["width_mm"] == designation.size]
    fitting = [row for row in made if designation.second in ("", row["thickness_mm"])]
    return [Fact("tab", f"{row['width_mm']} × {row['thickness_mm']} mm", tables.origin(row)) for row in fitting]


def _dash(designation: Designation) -> list[Fact]:
    ring = o_ring(designation.size)
    other = f" (another table: {units.number(ring.or_inside_mm)} mm inside)" if ring.or_inside_mm else ""
    inside, section, outside = (units.number(value) for value in (ring.inside_mm, ring.section_mm, ring.outside_mm))
    return [Fact("O-ring", f"{inside} mm inside, {section} mm section, {outside} mm outside{other}", ring.source)]


def _locknut(designation: Designation) -> list[Fact]:
    row = tables.index("prevailing_torques", "d_mm").get((f"{designation.diameter:g}",))
    if row is None:
        return []
    value = (
        f"first assembly at most {row['first_on_max_nm']} N·m, first removal at least {row['first_off_min_nm']} N·m, "
        f"fifth removal at least {row['fifth_off_min_nm']} N·m"
    )
    return [Fact("prevailing torque", value, tables.origin(row))]


def _strength(designation: Designation) -> list[Fact]:
    name = designation.property_class
    if designation.means.classes != "screw" or name.lstrip("0") not in _steel_classes():
        return []
    size = thread.metric(designation.diameter, designation.pitch)
    try:
        known = strength.property_class(name, size.d_mm)
    except KeyError:
        return []
    load = strength.proof_load_n(size, name) / 1000
    found = [
        Fact("class", f"{name}: yield {known.yield_mpa:g} MPa, proof stress {known.proof_mpa:g} MPa", known.source),
        Fact("proof load", f"{load:.3g} kN", "ISO 898-1"),
    ]
    if designation.means.torque_share == 1:
        found += _long_formula(size, known.yield_mpa)
    return found


def _steel_classes() -> frozenset[str]:
    return frozenset(row["class"] for row in tables.rows("property_classes"))


FRICTION = (0.10, 0.12, 0.14)  # the columns of the printed VDI 2230 table that the formula was held against


def _long_formula(size: thread.Thread, yield_mpa: float) -> list[Fact]:
    row = tables.index("bearing_faces", "d_mm").get((f"{size.d_mm:g}",))
    if row is None:
        return []
    face, hole = float(row["face_mm"]), float(row["hole_mm"])
    found = [torque.by_friction(size, yield_mpa, friction, face, hole) for friction in FRICTION]
    values = " / ".join(f"{torque.rounded(one.torque_nm):g}" for one in found)
    preloads = " / ".join(f"{one.preload_n / 1000:.1f}" for one in found)
    frictions = " / ".join(f"{friction:.2f}" for friction in FRICTION)
    value = f"{values} N·m at friction {frictions}; preload {preloads} kN; steel threads, face of a hexagon head"
    return [
        Fact(
            "long formula", value, "VDI 2230 at 90 % of yield (formula from memory, within 1.1 % of 81 printed torques)"
        )
    ]
