"""Tables to take away as CSV (RFC 4180), safe to open in a spreadsheet."""

import csv
import io
from collections.abc import Iterable, Sequence
from typing import Any

_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def csv_text(header: Sequence[str], rows: Iterable[Sequence[Any]]) -> str:
    """The table in UTF-8 with a byte order mark. A text that a spreadsheet would compute gets a quote before it.

    Numbers stay numbers; None is an empty cell.
    """
    out = io.StringIO()
    out.write("\ufeff")
    writer = csv.writer(out)
    writer.writerow(header)
    writer.writerows([_cell(value) for value in row] for row in rows)
    return out.getvalue()


def _cell(value: Any) -> Any:
    if value is None:
        return ""
    if isinstance(value, str) and value.startswith(_FORMULA):
        return "'" + value
    return value
