"""Files of the catalogue and the procedures that are found by their names."""

from collections.abc import Iterator
from pathlib import PurePosixPath

from splitpin.notices import Notice
from splitpin.reading.document import Document
from splitpin.reading.folders import ASSEMBLIES, BUILDS, CATALOG, PROCEDURES, TEMPLATES
from splitpin.records.assembly import Assembly, BuildFile
from splitpin.records.base import Record
from splitpin.records.procedure import JobTemplate

# The folder in which a kind of file lies, and the table that has its id.
_HOMES: dict[type[Record], tuple[str, str, str]] = {
    Assembly: (CATALOG, ASSEMBLIES, "assembly"),
    BuildFile: (CATALOG, BUILDS, "build"),
    JobTemplate: (PROCEDURES, TEMPLATES, "template"),
}


def filed_notices(document: Document) -> Iterator[Notice]:
    """A file of the catalogue or the procedures that its id does not lead to. A draft may lie anywhere else."""
    if document.kind not in _HOMES:
        return
    top, folder, table = _HOMES[document.kind]
    path = PurePosixPath(document.path)
    name = document.toml.value((table, "id"))
    if not {CATALOG, PROCEDURES} & {*path.parts[:-1]} or not isinstance(name, str):
        return
    if path.parts[-3:] != (top, folder, f"{name}.toml"):
        message = f"the {table} `{name}` is looked for in {top}/{folder}/{name}.toml, and this is another file"
        yield Notice("file-name", message, document.toml.place(table, "id"), "call the file as its id, or the id as it")
