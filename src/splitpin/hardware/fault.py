"""What is wrong with a designation."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Fault:
    """An error at `offset` (from 0, `length` >= 1 characters) of the designation's text: what is wrong, what to do."""

    offset: int
    length: int
    message: str
    hint: str

    def marked(self, text: str) -> str:
        """The text, and under it a caret for each character meant."""
        return f"{text}\n{' ' * self.offset}{'^' * self.length}"
