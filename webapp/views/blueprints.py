"""Every surface of the app, one blueprint each."""

from flask import Flask, request
from flask_wtf.csrf import CSRFProtect

from webapp.views import (
    answers,
    assets,
    binding,
    card,
    devices,
    dipping,
    fit,
    fit_api,
    fragging,
    handling,
    holds,
    insight,
    language,
    losses,
    measuring,
    offline,
    outbox,
    people,
    pests,
    profiles,
    rack_photos,
    racks,
    receiving,
    sales,
    scan,
    scanning,
    setup,
    sheet,
    sheet_several,
    sheets_editor,
    specimens,
    stock,
    stocktake,
    style,
    tags,
    tank_card,
    tanks,
    thresholds,
    till,
    today,
    trouble,
    uploads,
    workings,
)

SURFACES = (
    answers.bp,
    assets.bp,
    binding.bp,
    card.bp,
    devices.bp,
    dipping.bp,
    fit.bp,
    fit_api.bp,
    fragging.bp,
    handling.bp,
    holds.bp,
    insight.bp,
    language.bp,
    losses.bp,
    measuring.bp,
    offline.bp,
    outbox.bp,
    people.bp,
    pests.bp,
    profiles.bp,
    rack_photos.bp,
    racks.bp,
    receiving.bp,
    sales.bp,
    scan.bp,
    scanning.bp,
    setup.bp,
    sheet.bp,
    sheet_several.bp,
    sheets_editor.bp,
    specimens.bp,
    stock.bp,
    stocktake.bp,
    style.bp,
    tags.bp,
    tank_card.bp,
    tanks.bp,
    thresholds.bp,
    till.bp,
    today.bp,
    trouble.bp,
    workings.bp,
)

class _OfWhatIsSent(CSRFProtect):
    """Who only reads sends no form: nothing to look up there."""

    def protect(self, apply_exemptions: bool = False) -> None:
        if request.method not in ("GET", "HEAD", "OPTIONS"):
            super().protect(apply_exemptions)


csrf = _OfWhatIsSent()


def init_app(app: Flask) -> None:
    """Protect every form and register every surface."""
    uploads.init_app(app)
    csrf.init_app(app)
    csrf.exempt(fit_api.bp)  # it keeps nothing and reads no cookie
    csrf.exempt(scanning.bp)  # walk-ins have no cookie, and reading a photo changes nothing
    csrf.exempt(outbox.bp)  # JSON with a header of its own and the right Origin: no other page can send that
    for surface in SURFACES:
        app.register_blueprint(surface)
