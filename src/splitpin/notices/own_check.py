"""An answer that its own check refuses is a fault of this program, never of the files: nothing of it is handed on."""

from collections.abc import Iterable

from splitpin.notices.notice import Notice
from splitpin.notices.place import Place


class OwnCheckError(Exception):
    """Raised in place of the answer; `notice` says what was refused, why, and what the project needs to see."""

    def __init__(self, notice: Notice) -> None:
        super().__init__(notice.message)
        self.notice = notice


def refuse(what: str, faults: Iterable[str], place: Place, version: str) -> None:
    """Raises OwnCheckError where there are faults.

    `what` is the answer ("plan", "load"), `place` stands in the file that asked for it, `version` is this program's.
    """
    wrong = "; ".join(dict.fromkeys(faults))
    if not wrong:
        return
    message = f"this {what} was refused by its own check: {wrong}"
    files = f"{place.path}, the files that it names" if place.path else "the files that it was made from"
    hint = f"the fault is in splitpin {version}: send this message, {files} and that version to the project"
    raise OwnCheckError(Notice("refused-by-own-check", message, Place(place.path), hint))
