"""What a reader of a page sees, by the standard library's own HTML parser: words, elements and what they refer to."""

from html.parser import HTMLParser

_VOID = ("meta", "br", "path", "circle", "rect", "img", "input", "hr")
_WITHIN_A_LINE = ("b", "span")  # these part no words; every other element does


class Page(HTMLParser):
    """A parsed page: `elements` in order, `words` outside style sheet and scripts, `references` of links and sources.

    `attributes` are the names of all attributes, `told` their values.
    """

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.elements: list[str] = []
        self.classes: list[str] = []
        self.references: list[str] = []
        self.attributes: list[str] = []
        self.told: list[str] = []
        self.style = ""
        self._open: list[str] = []
        self._words: list[str] = []
        self.feed(text)
        self.close()
        assert self._open == [], f"never closed: {self._open}"

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append(tag)
        self._part(tag)
        for name, value in attrs:
            if name in ("src", "href", "action", "data", "srcset") or name.startswith("on"):
                self.references.append(f"{name}={value}")
            self.attributes.append(name)
            self.told.append(value or "")
            if name == "class":
                self.classes += (value or "").split()
        if tag not in _VOID:
            self._open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in _VOID:
            self._open.pop()

    def handle_endtag(self, tag: str) -> None:
        assert self._open and self._open[-1] == tag, f"</{tag}> closes {self._open}"
        self._open.pop()
        self._part(tag)

    def _part(self, tag: str) -> None:
        if tag not in _WITHIN_A_LINE:
            self._words.append(" ")

    def handle_data(self, data: str) -> None:
        if self._open and self._open[-1] == "style":
            self.style += data
        elif not self._open or self._open[-1] != "script":
            self._words.append(data)

    @property
    def words(self) -> str:
        """All text, each run of white space as one blank, without the joiners that keep a range in one line."""
        return " ".join("".join(self._words).replace("\u2060", "").split())
