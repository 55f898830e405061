"""Opening a workshop folder: the database in it, made where it is missing."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from flask import Flask
from sqlalchemy.exc import DatabaseError
from sqlalchemy.orm import Session

from bucktail.storage.rebuilding import bring_up_to_date
from bucktail.storage.settings import ensure_workshop
from bucktail.storage.tables import database_address, db, prepare_sqlite


class CannotOpen(Exception):
    """The workshop folder cannot be used. The message says what to do."""


def attach(app: Flask, folder: Path, name: str = "My workshop", unit: str = "in") -> None:
    """Give a Flask application the workshop in `folder`, making folder and tables if missing."""
    try:
        (folder / "photos").mkdir(parents=True, exist_ok=True)
    except OSError as problem:
        raise CannotOpen(
            f"The workshop folder {folder} cannot be made ({problem.strerror}). "
            "Choose another with --workshop."
        ) from None
    app.config["WORKSHOP_FOLDER"] = folder
    app.config["SQLALCHEMY_DATABASE_URI"] = database_address(folder)
    db.init_app(app)
    with app.app_context():
        prepare_sqlite(db.engine)
        try:
            db.create_all()
            with db.session.begin():
                ensure_workshop(db.session(), name, unit)
                bring_up_to_date(db.session())
        except DatabaseError as problem:
            raise CannotOpen(
                f"The database in {folder} cannot be opened ({problem.orig}). "
                "Look whether the disk is full or read-only; nothing was changed."
            ) from None
        db.session.remove()


@contextmanager
def open_session(folder: Path) -> Iterator[Session]:
    """A database session on a workshop, for commands that open transactions themselves."""
    app = Flask("bucktail")
    attach(app, folder)
    with app.app_context():
        yield db.session()


@contextmanager
def open_workshop(folder: Path) -> Iterator[Session]:
    """A database session on a workshop, for commands. One transaction; an error takes it back."""
    with open_session(folder) as session, session.begin():
        yield session
