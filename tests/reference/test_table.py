"""The table in README.md lists exactly the checks that are made."""

from pathlib import Path

from tests.reference.conftest import WHOLE
from tests.reference.deviations import printed, recorded, table_row


def _every_check_ran(request) -> bool:
    modules = set(Path(__file__).parent.glob("test_*.py"))
    return request.config.stash[WHOLE] and modules <= {item.path for item in request.session.items}


def test_table_lists_every_check_with_its_tolerance(request):
    made = {row.key: table_row(row).rstrip(" |").rsplit("| ", 1)[1] for row in recorded()}
    table = printed()
    told = table if _every_check_ran(request) else {key: limit for key, limit in table.items() if key in made}
    assert made == told, "run `python -m tests.reference`"
    assert table
