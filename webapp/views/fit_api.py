"""The fit check for programs: POST /api/fit, JSON in (schemas.fit_request), the report as JSON out (schemas.report).

Both doors, no sign-in: it tells what the pages tell and keeps nothing. A body may have up to 64 kB. An error is
{"error": sentence with every wrong path, "field": first path or null}: 400 no JSON, 404 unknown code, 413 too large,
422 anything else.
"""

import json

from flask import Blueprint, Response, jsonify, request

from webapp.errors import BadInput, NotFound
from webapp.schemas.fit_request import fit_request_from_json
from webapp.schemas.jsontext import from_text
from webapp.schemas.report import report_to_json
from webapp.services.answering import answer
from webapp.views.saving import memory, now, reading

bp = Blueprint("fit_api", __name__, url_prefix="/api")
LARGEST_BODY = 64 * 1024


@bp.post("/fit")
def fit() -> Response | tuple[Response, int]:
    """The whole answer for one animal and one tank."""
    if (request.content_length or 0) > LARGEST_BODY:
        return _wrong(413, f"The body may have up to {LARGEST_BODY} bytes.")
    body = request.stream.read(LARGEST_BODY + 1)
    if len(body) > LARGEST_BODY:
        return _wrong(413, f"The body may have up to {LARGEST_BODY} bytes.")
    try:
        asked = fit_request_from_json(from_text(body))
        report = answer(reading(), memory(), asked, now())
    except json.JSONDecodeError as error:
        return _wrong(400, f"This is not JSON: {error.msg}, line {error.lineno}, column {error.colno}.")
    except BadInput as error:
        return _wrong(422, str(error), error.field)
    except NotFound as error:
        return _wrong(404, str(error), "code")
    return jsonify(report_to_json(report))


def _wrong(status: int, sentence: str, field: str | None = None) -> tuple[Response, int]:
    return jsonify(error=sentence, field=field), status
