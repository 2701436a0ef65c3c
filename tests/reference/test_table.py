"""The table in README.md lists exactly the checks that are made."""

from tests.reference.conftest import WHOLE
from tests.reference.deviations import printed, recorded, recording_modules, table_row


def _every_check_ran(request) -> bool:
    run = {item.path for item in request.session.items}
    return request.config.stash[WHOLE] and run >= set(recording_modules())


def test_table_lists_every_check_with_its_tolerance(request):
    made = {row.key: table_row(row).rstrip(" |").rsplit("| ", 1)[1] for row in recorded()}
    table = printed()
    told = table if _every_check_ran(request) else {key: limit for key, limit in table.items() if key in made}
    assert made == told, "run `python -m tests.reference`"
    assert table
