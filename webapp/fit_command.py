"""`python -m webapp fit`: the fit check for a tank in a file, printing the report as JSON."""

import json
from contextlib import closing
from datetime import UTC, datetime
from typing import Any, TextIO

import click

from webapp import config
from webapp.errors import BadInput
from webapp.fit.check import check
from webapp.fit.findings import Report
from webapp.fit.specimen import Specimen
from webapp.schemas.fit_request import FitRequest, fit_request_from_json
from webapp.schemas.jsontext import from_text
from webapp.schemas.profiles import load_profiles
from webapp.schemas.report import report_to_json
from webapp.services.answering import answer
from webapp.services.memory import Memory
from webapp.storage import migrating
from webapp.storage.database import Database


@click.command()
@click.argument("tank", type=click.File("r", encoding="utf-8"))
@click.option("--profile", metavar="KEY", help="The kind of animal, as it came with the program. Needs no database.")
@click.option("--code", metavar="CODE", help="The animal behind a tag of this shop, with what it is used to here.")
@click.option("--size-cm", type=float, help="Its longest dimension now; with --profile.")
@click.option("--used-to", type=click.File("r", encoding="utf-8"), help="What it lives in; JSON, with --profile.")
def fit(tank: TextIO, profile: str | None, code: str | None, size_cm: float | None, used_to: TextIO | None) -> None:
    """Will an animal do well in the tank of the JSON file TANK (`-` reads standard input)? Prints the report as JSON.

    \b
    TANK.json holds values as typed, with their units; everything may be left out:
      {"readings": {"temp": {"value": 78, "unit": "f"},
                    "alk": {"value": 8.2, "unit": "dkh", "method": "drop_kit"}},
       "volume": {"value": 200, "unit": "l"},
       "light": {"way": "words", "word": "modest"}, "tankmates": []}

    Every field of both files is in DEVELOPERS.md. A path that is wrong is named, and the exit status is 1.
    """
    form: dict[str, Any] = {"tank": _json(tank)}
    given = {"profile": profile, "code": code, "size_cm": size_cm, "used_to": _json(used_to) if used_to else None}
    asked = fit_request_from_json(form | {name: value for name, value in given.items() if value is not None})
    report = _by_code(asked) if asked.code else _by_profile(asked)
    click.echo(json.dumps(report_to_json(report), indent=2, ensure_ascii=False))


def _json(file: TextIO) -> Any:
    try:
        return from_text(file.read())
    except UnicodeDecodeError as error:
        raise BadInput(f"{file.name}: not UTF-8.") from error
    except json.JSONDecodeError as error:
        raise BadInput(f"{file.name}: not JSON: {error.msg}, line {error.lineno}, column {error.colno}.") from error


def _by_profile(asked: FitRequest) -> Report:
    kinds = load_profiles()
    if asked.profile not in kinds:
        raise BadInput(f"--profile: {asked.profile!r} is not a kind; choose of: {', '.join(kinds)}.", "profile")
    return check(asked.tank, Specimen(kinds[asked.profile], asked.size_cm, asked.conditions), kinds)


def _by_code(asked: FitRequest) -> Report:
    url = config.from_environment().database_url
    migrating.upgrade(url)
    with closing(Database(url)) as database, database.reading() as session:
        return answer(session, Memory(), asked, datetime.now(UTC))
