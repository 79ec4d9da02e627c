"""Numbers of cells."""

from zoneinfo import ZoneInfo

from bulletin.tables.faults import Wrong
from bulletin.tables.kinds import read_cell
from bulletin.tables.layouts import LAYOUTS
from bulletin.tables.ways import Ways

QUANTITY = LAYOUTS["stock"].column("quantity")
WAYS = Ways(".", "", ("%Y-%m-%d",), ZoneInfo("Europe/Vienna"))


def test_a_number_out_of_all_measure_is_told_below_what_it_must_be() -> None:
    """Ten to the fifteenth and more is no quantity: the message says below which number one must be."""
    expected = Wrong("cell-too-large", {"limit": "below 1,000,000,000,000,000"})

    assert expected == read_cell(QUANTITY, WAYS)("1" + "0" * 15)
