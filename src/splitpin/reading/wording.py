"""What a wrong value is told: the field and the value as typed, and what is allowed."""

from pydantic import ValidationError

from splitpin.notices import Notice
from splitpin.reading.located import Located
from splitpin.records.base import Record


def value_notices(error: ValidationError, toml: Located, kind: type[Record]) -> list[Notice]:
    return [Notice("wrong-kind", f"{e['loc']}: {e['msg']}", toml.place(*e["loc"])) for e in error.errors()]
