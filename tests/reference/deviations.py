"""How far our numbers are from the published ones: the registry behind tests/reference/README.md.

A reference test calls `record` for every comparison. It keeps the largest deviation seen for each
(quantity, source) and fails the test when a deviation is larger than the stated tolerance.
"""

import re
from dataclasses import dataclass
from pathlib import Path

README = Path(__file__).with_name("README.md")
NOISE = 1e-12  # below this, a deviation is the rounding of the machine and is printed as such
HEAD = """# What the numbers were checked against

Written by `python -m tests.reference`; run it again when a check is added or changed. Each row is one quantity against
one published source or independent library, the largest deviation found over all its check points, and the deviation
at which the test fails. A deviation in % is relative to the source's value; any other is in the unit of the quantity.
Where the source prints few digits, the deviation contains its rounding.

| quantity | source | worst deviation | tolerance |
|---|---|---|---|
"""


@dataclass(frozen=True)
class Row:
    """The worst deviation of one quantity from one source."""

    quantity: str
    source: str
    deviation: float
    tolerance: float
    relative: bool

    @property
    def key(self) -> tuple[str, str]:
        return self.quantity, self.source


_rows: dict[tuple[str, str], Row] = {}


def record(
    quantity: str, source: str, ours: float, theirs: float, tolerance: float, *, relative: bool = False
) -> None:
    """Compare `ours` with `theirs`, keep the worst deviation of this (quantity, source), fail beyond `tolerance`.

    `quantity` names what is compared, with its unit; `source` is the publication or library. `tolerance` is in the
    unit of the quantity, or a fraction of `theirs` where `relative` is true. One (quantity, source) has one tolerance.
    """
    deviation = abs(ours - theirs)
    if relative:
        deviation /= abs(theirs)
    row = Row(quantity, source, deviation, tolerance, relative)
    known = _rows.get(row.key)
    if known and (known.tolerance, known.relative) != (tolerance, relative):
        raise AssertionError(f"{quantity} against {source} is recorded with two tolerances")
    if known is None or not known.deviation >= deviation:
        _rows[row.key] = row
    if not deviation <= tolerance:  # written so that a NaN fails
        raise AssertionError(
            f"{quantity}: ours {ours!r}, {source} {theirs!r}; deviation {deviation:.3g} > {tolerance:.3g}"
        )


def recording_modules() -> list[Path]:
    """The test modules that record deviations: those that import `record`."""
    imports = re.compile(r"^from .*deviations import .*\brecord\b", re.MULTILINE)
    return [path for path in sorted(README.parent.glob("test_*.py")) if imports.search(path.read_text("utf-8"))]


def recorded() -> list[Row]:
    """The rows recorded so far in this process, ordered as in the table."""
    return sorted(_rows.values(), key=lambda row: row.key)


def _figure(value: float, relative: bool) -> str:
    if value < NOISE:
        return "rounding" if value else "0"
    return f"{value * 100:.2g} %" if relative else f"{value:.2g}"


def table_row(row: Row) -> str:
    """One line of the table."""
    for text in row.key:
        assert "|" not in text, f"a bar would break the table: {text}"
    worst, limit = _figure(row.deviation, row.relative), _figure(row.tolerance, row.relative)
    return f"| {row.quantity} | {row.source} | {worst} | {limit} |"


def write_readme(rows: list[Row]) -> None:
    """Write the table to README.md."""
    README.write_text(HEAD + "".join(table_row(row) + "\n" for row in rows), encoding="utf-8")


def printed() -> dict[tuple[str, str], str]:
    """(quantity, source) -> printed tolerance, as README.md has it now."""
    found = {}
    for line in README.read_text(encoding="utf-8").splitlines():
        cells = [cell.strip() for cell in line.strip("|").split("|")]
        if line.startswith("|") and len(cells) == 4 and cells[0] not in ("quantity", "---"):
            found[cells[0], cells[1]] = cells[3]
    return found
