"""`splitpin schema`."""

from pydantic import TypeAdapter

from splitpin.cli.saying import answer_json, usage


def run(what: str) -> None:
    """Print the JSON Schema (draft 2020-12) of what files say and of what commands give as JSON."""
    models = _models()
    if what not in models:
        raise usage(f"there is no schema of {what}; there is one of {', '.join(models)}")
    answer_json({"$schema": "https://json-schema.org/draft/2020-12/schema", **TypeAdapter(models[what]).json_schema()})


def _models() -> dict[str, type]:
    from splitpin.records.actual import Actual
    from splitpin.records.assembly import Assembly
    from splitpin.records.diagnosis import Diagnosis
    from splitpin.records.job import JobFile
    from splitpin.records.plan import Plan
    from splitpin.records.quote import Quote
    from splitpin.records.spares import SpareList
    from splitpin.records.supply import PickList, RoundLoad

    return {
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
