"""`python -m tests.reference`: run the checks that record deviations, then write README.md from them."""

import sys

import pytest

from tests.reference.deviations import README, recorded, recording_modules, write_readme


def main() -> int:
    """Exit status of the checks; the table is written only when all of them pass."""
    status = pytest.main(["-q", *map(str, recording_modules())])
    if status == pytest.ExitCode.OK:
        write_readme(recorded())
        print(f"{README.name}: {len(recorded())} rows")
    return int(status)


if __name__ == "__main__":
    sys.exit(main())
