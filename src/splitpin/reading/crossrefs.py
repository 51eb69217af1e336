"""Names that nothing declares, and names declared twice."""

from collections.abc import Sequence

from splitpin.notices import Notice
from splitpin.reading.document import Document


def reference_notices(documents: Sequence[Document]) -> list[Notice]:
    return []
