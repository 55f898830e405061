"""The only place where the parts are wired together."""

from __future__ import annotations

import os
from collections.abc import Iterable
from pathlib import Path

from flask import Flask

from bucktail.routes.curves import curves, measured_beside
from bucktail.routes.cutplans import cutplans
from bucktail.routes.errors import add_error_handlers
from bucktail.routes.guard import add_guard
from bucktail.routes.offcuts import offcuts
from bucktail.routes.outbox import outbox
from bucktail.routes.outlines import outlines
from bucktail.routes.pair import pair
from bucktail.routes.photos import photos
from bucktail.routes.settings import settings
from bucktail.routes.sync import sync
from bucktail.routes.tags import tags
from bucktail.routes.templates import templates
from bucktail.routes.webapp import webapp
from bucktail.storage.opening import attach
from bucktail.workshop.measuring import Measuring


def create_app(folder: Path, hosts: Iterable[str] = ("localhost",)) -> Flask:
    """The application for the workshop in `folder`, answering to the host names given.

    Raises CannotOpen with a sentence where the folder cannot be used.
    """
    app = Flask("bucktail", static_folder=None)
    app.config["HOSTS"] = frozenset(hosts)
    attach(app, folder)
    add_error_handlers(app)
    add_guard(app)
    record = (sync, curves, pair, photos, outbox, settings)
    for part in (*record, offcuts, outlines, cutplans, tags, templates, webapp):
        app.register_blueprint(part)
    return app


def served_app() -> Flask:
    """The application as `bucktail serve` starts it, in the server's own worker process."""
    hosts = os.environ["BUCKTAIL_HOSTS"].split()
    folder = Path(os.environ["BUCKTAIL_SERVED"])
    app = create_app(folder, hosts)
    measured_beside(app, Measuring(folder))
    return app
