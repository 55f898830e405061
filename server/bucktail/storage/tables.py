"""The database: its tables, and how SQLite is set so that what was acknowledged stays.

Only events with what was judged of them, photos, devices, people and settings are kept for ever;
cards, codes, fit curves and the pairing offers can be made again.
"""

from __future__ import annotations

import sqlite3
from pathlib import Path
from typing import Any

from flask_sqlalchemy import SQLAlchemy
from sqlalchemy import BigInteger, Engine, Index, Integer, LargeBinary, String, Text, event
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column
from sqlalchemy.orm import Session as Session

#: SQLite before this version can corrupt a write-ahead log when it is reset (its 3.51.3 notes).
WAL_SAFE = (3, 51, 3)


class Base(DeclarativeBase):
    """Base of all tables."""


db = SQLAlchemy(model_class=Base)
Position = BigInteger().with_variant(Integer(), "sqlite")


class StoredEvent(db.Model):  # type: ignore[name-defined, misc]
    """One event: the bytes as received, and what the workshop's computer added.

    `base` is the position its writer had seen, as far as this record has it.
    """

    __tablename__ = "events"
    position: Mapped[int] = mapped_column(Position, primary_key=True, autoincrement=False)
    id: Mapped[str] = mapped_column(String(36), unique=True)
    kind: Mapped[str] = mapped_column(String(40))
    subject: Mapped[str] = mapped_column(String(36))
    device: Mapped[str] = mapped_column(String(36))
    seq: Mapped[int] = mapped_column(BigInteger)
    received_at: Mapped[int] = mapped_column(BigInteger)
    effective_at: Mapped[int] = mapped_column(BigInteger)
    base: Mapped[int] = mapped_column(Position)
    lost: Mapped[str | None] = mapped_column(String(36))
    chain: Mapped[str] = mapped_column(String(64))
    raw: Mapped[bytes] = mapped_column(LargeBinary)
    __table_args__ = (
        Index("events_by_subject", "subject", "position"),
        Index("events_by_device", "device", "seq"),
    )


class Judgement(db.Model):  # type: ignore[name-defined, misc]
    """What this computer reckoned where the kept sum at `position` had another answer."""

    __tablename__ = "judgements"
    position: Mapped[int] = mapped_column(Position, primary_key=True, autoincrement=False)
    text: Mapped[str] = mapped_column(Text)


class Card(db.Model):  # type: ignore[name-defined, misc]
    """The card of one thing, rebuilt from its events; `position` is its last change."""

    __tablename__ = "cards"
    subject: Mapped[str] = mapped_column(String(36), primary_key=True)
    sort: Mapped[str] = mapped_column(String(16))
    position: Mapped[int] = mapped_column(Position, index=True)
    text: Mapped[str] = mapped_column(Text)


class Code(db.Model):  # type: ignore[name-defined, misc]
    """A tag code: the sheet it was printed on, and the thing it is attached to."""

    __tablename__ = "codes"
    code: Mapped[str] = mapped_column(String(10), primary_key=True)
    sheet: Mapped[str | None] = mapped_column(String(36))
    thing: Mapped[str | None] = mapped_column(String(36))


class ShownOutline(db.Model):  # type: ignore[name-defined, misc]
    """The entry whose outline an offcut's card shows, and how often measuring it was begun."""

    __tablename__ = "outlines"
    subject: Mapped[str] = mapped_column(String(36), primary_key=True)
    event: Mapped[str] = mapped_column(String(36), index=True)
    tries: Mapped[int] = mapped_column(Integer, default=0)


class FitCurve(db.Model):  # type: ignore[name-defined, misc]
    """What fits in the outline of one entry, or why that cannot be said; `n` only ever rises."""

    __tablename__ = "fit_curves"
    n: Mapped[int] = mapped_column(Position, primary_key=True, autoincrement=False)
    event: Mapped[str] = mapped_column(String(36), unique=True)
    made_by: Mapped[int] = mapped_column(Integer)
    text: Mapped[str] = mapped_column(Text)


class SetAside(db.Model):  # type: ignore[name-defined, misc]
    """An event that could not be taken up, kept where a person sees it."""

    __tablename__ = "set_aside"
    digest: Mapped[str] = mapped_column(String(64), primary_key=True)
    device: Mapped[str | None] = mapped_column(String(36))
    received_at: Mapped[int] = mapped_column(BigInteger)
    reason: Mapped[str] = mapped_column(Text)
    raw: Mapped[bytes] = mapped_column(LargeBinary)


class Person(db.Model):  # type: ignore[name-defined, misc]
    """Someone who records."""

    __tablename__ = "people"
    id: Mapped[str] = mapped_column(String(36), primary_key=True)
    name: Mapped[str] = mapped_column(Text)


class Device(db.Model):  # type: ignore[name-defined, misc]
    """A paired phone or computer. Of its token only the SHA-256 is kept."""

    __tablename__ = "devices"
    id: Mapped[str] = mapped_column(String(36), primary_key=True)
    name: Mapped[str] = mapped_column(Text)
    person: Mapped[str] = mapped_column(String(36))
    token_hash: Mapped[str | None] = mapped_column(String(64), index=True)
    paired_at: Mapped[int] = mapped_column(BigInteger)
    last_seen: Mapped[int | None] = mapped_column(BigInteger)
    revoked_at: Mapped[int | None] = mapped_column(BigInteger)


class Pairing(db.Model):  # type: ignore[name-defined, misc]
    """An offer to pair one device, for a few minutes."""

    __tablename__ = "pairings"
    secret_hash: Mapped[str] = mapped_column(String(64), primary_key=True)
    typed_hash: Mapped[str] = mapped_column(String(64), index=True)
    made_at: Mapped[int] = mapped_column(BigInteger)
    expires_at: Mapped[int] = mapped_column(BigInteger)
    used_at: Mapped[int | None] = mapped_column(BigInteger)
    tries: Mapped[int] = mapped_column(Integer, default=0)


class Photo(db.Model):  # type: ignore[name-defined, misc]
    """A photo whose bytes lie in the photos folder under their SHA-256."""

    __tablename__ = "photos"
    digest: Mapped[str] = mapped_column(String(64), primary_key=True)
    size: Mapped[int] = mapped_column(Integer)
    received_at: Mapped[int] = mapped_column(BigInteger)


class Setting(db.Model):  # type: ignore[name-defined, misc]
    """A setting of this workshop, by name."""

    __tablename__ = "settings"
    name: Mapped[str] = mapped_column(String(40), primary_key=True)
    value: Mapped[str] = mapped_column(Text)


def database_address(folder: Path) -> str:
    """The SQLAlchemy address of a workshop folder's database."""
    return f"sqlite:///{folder.resolve() / 'bucktail.db'}"


def prepare_sqlite(engine: Engine) -> None:
    """Make every connection durable, and every transaction the one writer from its start."""

    @event.listens_for(engine, "connect")
    def _connect(connection: Any, _record: Any) -> None:
        connection.isolation_level = None  # SQLAlchemy's "begin" below starts transactions
        wal = sqlite3.sqlite_version_info >= WAL_SAFE
        for line in (
            "PRAGMA busy_timeout = 15000",
            f"PRAGMA journal_mode = {'WAL' if wal else 'TRUNCATE'}",
            f"PRAGMA synchronous = {'FULL' if wal else 'EXTRA'}",
            "PRAGMA foreign_keys = ON",
        ):
            connection.execute(line)

    @event.listens_for(engine, "begin")
    def _begin(connection: Any) -> None:
        read_only = connection.get_execution_options().get("read_only", False)
        connection.exec_driver_sql("BEGIN" if read_only else "BEGIN IMMEDIATE")
