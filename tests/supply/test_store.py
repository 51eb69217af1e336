"""What lies where, and the way through the store."""

from splitpin.records.catalogue import Part
from splitpin.records.library import Library
from splitpin.records.round import Stock
from splitpin.records.supply import PickPlace
from splitpin.supply.store import Stores, instead_of, on_the_way, stand_in


def test_every_second_aisle_is_walked_backwards() -> None:
    # Serpentine picking by zone, aisle, bay, level: from memory, see the reference notes on picking.
    places = ["B-01-01-1", "A-02-01-1", "A-02-09-1", "A-01-09-2", "A-01-09-1", "A-01-02-3", "", "VAN-2", "VAN-10"]
    assert sorted(places, key=on_the_way) == [
        "A-01-02-3",
        "A-01-09-1",
        "A-01-09-2",
        "A-02-09-1",
        "A-02-01-1",
        "B-01-01-1",
        "VAN-2",
        "VAN-10",
        "",
    ]


def test_pieces_are_drawn_from_the_first_place_on_the_way() -> None:
    rows = [Stock(part="p", quantity=2, location="B-01"), Stock(part="p", quantity=1, location="A-01")]
    stores = Stores.of([Stock(part="p", quantity=4, location="VAN-1")], rows)
    first = PickPlace(location="A-01", pieces=1)
    assert stores.places("p", 2) == (first, PickPlace(location="B-01", pieces=1))
    assert stores.places("p", 9) == (first, PickPlace(location="B-01", pieces=2))
    assert stores.bins("p", 3) == (PickPlace(location="VAN-1", pieces=3),)
    assert stores.places("p", 0) == stores.bins("q", 1) == ()
    assert (stores.in_van("p"), stores.in_store("p"), stores.there("q")) == (4, 3, 0)
    assert stores.counted("p") and not stores.counted("q")


def parts(**rows: Part) -> Library:
    return Library(parts=rows)


def test_a_part_without_stock_is_replaced_by_its_newest_successor_first() -> None:
    library = parts(
        old=Part(id="old", title="o", superseded_by="mid", alternatives=("other",)),
        mid=Part(id="mid", title="m", superseded_by="new"),
        new=Part(id="new", title="n"),
    )
    assert instead_of("old", library) == (("new", "supersedes"), ("mid", "supersedes"), ("other", "alternative"))
    assert stand_in("old", Stores.of([], [Stock(part="other", quantity=1)]), library) == "other"
    assert stand_in("old", Stores.of([], [Stock(part=p, quantity=1) for p in ("mid", "other")]), library) == "mid"
    assert stand_in("old", Stores.of([], [Stock(part=p, quantity=1) for p in ("old", "mid")]), library) == "old"
    assert stand_in("old", Stores(), library) == "old"


def test_parts_that_supersede_each_other_in_a_circle_end() -> None:
    library = parts(a=Part(id="a", title="a", superseded_by="b"), b=Part(id="b", title="b", superseded_by="a"))
    assert instead_of("a", library) == (("b", "supersedes"),)
