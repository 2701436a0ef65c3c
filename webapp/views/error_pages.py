"""The one place where an error becomes a status code and a page (or JSON, for whoever asked for that)."""

from flask import Flask, current_app, jsonify, render_template, request
from flask_wtf.csrf import CSRFError
from werkzeug.exceptions import HTTPException
from werkzeug.wrappers import Response

from webapp import errors
from webapp.views.language import translate
from webapp.words.language import later

STATUS = (
    (errors.BadInput, 422),
    (errors.NotFound, 404),
    (errors.NotAllowed, 403),
    (errors.TooMany, 429),
    (errors.Refused, 422),
    (errors.CannotPrint, 422),
)
SENTENCES = {
    400: (
        later("This could not be read"),
        later("Something in the address or the form is not as expected. Go back and try again."),
    ),
    403: (later("Not for this person"), later("Only an owner may do that. Ask the owner, or switch person.")),
    404: (later("Nothing here"), later("This page does not exist. Check the address, or type the code from a tag.")),
    405: (later("Not this way"), later("This page is opened in another way. Go back and use the buttons.")),
    413: (
        later("Too large"),
        later("What was sent is too large. Pictures may have up to 30 megabytes: take a smaller one."),
    ),
    429: (later("Too many tries"), later("Wait a little and try again.")),
    500: (
        later("Something broke here"),
        later("This is our fault, not yours. Nothing was half saved. Try again; if it stays, tell the owner."),
    ),
}


def init_app(app: Flask) -> None:
    """Register every handler."""
    app.register_error_handler(errors.ShopError, _shop_error)
    app.register_error_handler(CSRFError, _stale_form)
    app.register_error_handler(HTTPException, _http_error)
    app.register_error_handler(Exception, _bug)


def _shop_error(error: errors.ShopError) -> tuple[Response | str, int]:
    status = next(status for kind, status in STATUS if isinstance(error, kind))
    return _answer(status, SENTENCES.get(status, (later("That does not work"), ""))[0], str(error))


def _stale_form(_error: CSRFError) -> tuple[Response | str, int]:
    return _answer(
        400,
        later("This form has grown old"),
        later(
            "It was open for too long, or in another session. Go back, reload the page and send it again: what you "
            "typed is still in the form when you go back."
        ),
    )  # fmt: skip


def _http_error(error: HTTPException) -> Response | tuple[Response | str, int]:
    status = error.code or 500
    if 300 <= status < 400:
        return error.get_response()  # type: ignore[return-value]
    title, sentence = SENTENCES.get(status, SENTENCES[500 if status >= 500 else 400])
    return _answer(status, title, sentence)


def _bug(error: Exception) -> tuple[Response | str, int]:
    if current_app.testing:
        raise error
    current_app.logger.exception("Unexpected error on %s", request.path, exc_info=error)
    return _answer(500, *SENTENCES[500])


def _answer(status: int, title: str, sentence: str) -> tuple[Response | str, int]:
    if request.accept_mimetypes.best_match(["text/html", "application/json"]) == "application/json":
        return jsonify(error=sentence), status
    return render_template(
        "error_pages/error.html", title=translate(title), sentence=translate(sentence), status=status
    ), status
