"""Points of a plant that do not fit the circuits which name them."""

from collections.abc import Iterator

from splitpin.notices import Notice
from splitpin.reading.document import Document
from splitpin.records.assembly import Assembly


def point_notices(document: Document, assembly: Assembly) -> Iterator[Notice]:
    """Every feed or driver of a circuit whose point has another role. The assembly's names are all known."""
    roles = {point.id: point.role for point in assembly.point}
    for index, circuit in enumerate(assembly.circuit):
        for key, names, role in (("feeds", circuit.feeds, "feeds"), ("drivers", circuit.drivers, "drives")):
            for at, name in enumerate(names or ()):
                if roles[name] != role:
                    place = document.toml.place("circuit", index, key, at)
                    message = f'`{key}` names the point "{name}", whose `role` is "{roles[name]}"'
                    yield Notice("point-misfit", message, place, f'a point under `{key}` has role = "{role}"')
