"""`python -m tests.reference`: run every reference check, then write README.md from what they recorded."""

import sys
from pathlib import Path

import pytest

from tests.reference.deviations import README, recorded, write_readme


def main() -> int:
    """Exit status of the checks; the table is written only when all of them pass."""
    here = Path(__file__).parent
    status = pytest.main(["-q", str(here), f"--deselect={here / 'test_table.py'}"])
    if status == pytest.ExitCode.OK:
        write_readme(recorded())
        print(f"{README.name}: {len(recorded())} rows")
    return int(status)


if __name__ == "__main__":
    sys.exit(main())
