"""The assemblies that are carried through say all that the laws of a plan need to know of them."""

import pytest
from tests.bundled import LIBRARY

from splitpin.reading.library import data_files, gather, read_documents
from splitpin.reading.unsaid import unsaid_notices
from splitpin.records.assembly import Assembly

CARRIED_THROUGH = ("circulator-set", "roof-extract-fan", "wall-hung-combination-heater")


@pytest.mark.parametrize("name", CARRIED_THROUGH)
def test_nothing_is_left_unsaid(name: str) -> None:
    documents, _ = read_documents(data_files(assemblies=[name]))
    library = gather(documents)
    found = [
        notice.message
        for document in documents
        if isinstance(document.record, Assembly) and document.record.assembly.id == name
        for notice in unsaid_notices(document, document.record, library)
    ]
    assert found == []


@pytest.mark.parametrize("name", CARRIED_THROUGH)
def test_every_circuit_is_isolated_or_says_why_not(name: str) -> None:
    for circuit in LIBRARY.assemblies[name].circuit:
        assert bool(circuit.isolate) != (circuit.no_isolation is not None), circuit.id


@pytest.mark.parametrize("name", CARRIED_THROUGH)
def test_every_safety_device_has_a_pass_sign_of_its_kind(name: str) -> None:
    """What resets by hand stays out until it is reset; what resets by itself comes back: common practice."""
    for function in LIBRARY.assemblies[name].function:
        if function.resets is not None:
            words = "reset by hand" if function.resets == "by-hand" else "by itself"
            assert words in function.see, function.id
