"""The usual work of the bundled catalogue, for libraries that tests put together themselves."""

import tomllib
from pathlib import Path

from splitpin.records.catalogue import CatalogueFile

_FILE = Path(__file__).resolve().parents[2] / "catalog" / "usual-work.toml"
USUAL_WORK = {
    row.id: row for row in CatalogueFile.model_validate(tomllib.loads(_FILE.read_text(encoding="utf-8"))).usual_work
}
