"""`splitpin schema`."""

from typing import Annotated

import typer
from pydantic import TypeAdapter

from splitpin.cli.saying import answer_json, usage
from splitpin.records.actual import Actual
from splitpin.records.assembly import Assembly
from splitpin.records.diagnosis import Diagnosis
from splitpin.records.job import JobFile
from splitpin.records.plan import Plan
from splitpin.records.quote import Quote
from splitpin.records.spares import SpareList
from splitpin.records.supply import PickList, RoundLoad

_RECORDS = {
    "plan": Plan,
    "diagnosis": Diagnosis,
    "quote": Quote,
    "pick": PickList,
    "load": RoundLoad,
    "spares": SpareList,
    "job": JobFile,
    "assembly": Assembly,
    "visit": Actual,
}


def run(
    what: Annotated[str, typer.Argument(metavar="WHAT", help=f"{', '.join([*_RECORDS][:-1])} or {[*_RECORDS][-1]}.")],
) -> None:
    """Print the JSON Schema of a file or of a command's JSON."""
    if what not in _RECORDS:
        raise usage(f"there is no schema of {what}; there is one of {', '.join(_RECORDS)}")
    schema = TypeAdapter(_RECORDS[what]).json_schema()
    answer_json({"$schema": "https://json-schema.org/draft/2020-12/schema", **schema})
