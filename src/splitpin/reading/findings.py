"""All that is wrong with a set of files taken together."""

from collections.abc import Sequence

from splitpin.notices import Notice
from splitpin.reading.crossrefs import reference_notices
from splitpin.reading.declared import declared
from splitpin.reading.document import Document


def findings(documents: Sequence[Document]) -> list[Notice]:
    """What is wrong beyond the single value, in no order: names first, then what the tables say together."""
    names = declared(documents)
    notices = list(names.notices)
    for document in documents:
        notices += reference_notices(document, names)
    return notices
