"""Which sizes a standard has, as numbers or as they are written."""

from functools import cache

from splitpin.hardware import tables, thread
from splitpin.hardware.standard import Standard

TABLE_OF_DRIVE = {
    "hexagon": "hexagons",
    "hex-socket": "hex_keys",
    "six-lobe": "hexalobular",
    "cross": "cross_recesses",
    "slot": "slots",
}


@cache
def diameters(standard: Standard) -> tuple[float, ...]:
    """The nominal diameters in mm, rising. Cost: one pass over the table of the drive, once per standard."""
    name = TABLE_OF_DRIVE.get(standard.drive)
    if name is not None:
        rows = [row for row in tables.rows(name) if row["series"] in _series(standard)]
        found = {float(row["d_mm"]) for row in rows}
    elif standard.thread == "washer":
        found = {float(row["d_mm"]) for row in tables.rows("washers")}
    elif standard.thread == "pin":
        found = {float(row["hole_mm"]) for row in tables.rows("split_pins")}
    elif standard.thread == "ring":
        found = {float(row["d_mm"]) for row in tables.rows("retaining_rings") if row["standard"] == standard.name}
    elif standard.thread == "tube":
        found = {float(row["tube_mm"]) for row in tables.rows("compression_joints")}
    else:
        found = {float(row["width_mm"]) for row in tables.rows("tabs")}
    if standard.pitch == "fine":
        found = {d for d in found if len(thread.pitches(d)) > 1}
    return tuple(sorted(d for d in found if standard.from_mm <= d <= standard.to_mm))


def _series(standard: Standard) -> tuple[str, ...]:
    # The old and the undecided hexagon series hold only the sizes that differ; the rest is as in ISO 272.
    return (standard.series, "iso") if standard.series in ("old", "either") else (standard.series,)


def names(standard: Standard) -> tuple[str, ...]:
    """The sizes that are not diameters in mm, as written: pipe threads and dash numbers, in table order; else none."""
    if standard.thread == "G":
        return tuple(row["size"] for row in tables.rows("pipe_threads"))
    if standard.thread == "dash":
        return tuple(row["dash"] for row in tables.rows("o_rings"))
    return ()


def tool_row(standard: Standard, d_mm: float) -> tables.Row:
    """The row of the drive's table for a diameter of the standard; raises `KeyError` where there is none."""
    rows = tables.index(TABLE_OF_DRIVE[standard.drive], "series", "d_mm")
    size = f"{d_mm:g}"
    for series in _series(standard):
        if (series, size) in rows:
            return rows[series, size]
    raise KeyError((standard.name, d_mm))
