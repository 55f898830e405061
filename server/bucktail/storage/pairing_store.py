"""Pairings, devices and people in the database, as the pairing desk asks for them."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy import delete, select, update
from sqlalchemy.orm import Session

from bucktail.storage import tables
from bucktail.storage.pairing_records import Device, Pairing, Person
from bucktail.storage.trouble import DatabaseTrouble


class StoredPairings:
    """A PairingStore on one session. Every transaction is the one writer (see tables.py)."""

    def __init__(self, session: Session) -> None:
        self.session = session

    @contextmanager
    def exclusively(self) -> Iterator[None]:
        """One transaction; an exception takes all of it back."""
        self.session.rollback()
        with self.session.begin():
            yield

    def add_pairing(self, pairing: Pairing) -> None:
        """Keep an offer."""
        self.session.add(tables.Pairing(**vars(pairing)))
        self.session.flush()

    def pairing_with(self, secret_hash: str) -> Pairing | None:
        """The offer with this secret."""
        row = self.session.get(tables.Pairing, secret_hash)
        return _pairing(row) if row else None

    def open_pairings(self, now: int) -> list[Pairing]:
        """Offers neither used nor expired, newest first."""
        table = tables.Pairing
        rows = self.session.execute(
            select(table)
            .where(table.used_at.is_(None), table.expires_at > now)
            .order_by(table.made_at.desc())
        ).scalars()
        return [_pairing(row) for row in rows]

    def consume(self, secret_hash: str, now: int) -> bool:
        """Use an offer up; False where another was faster."""
        table = tables.Pairing
        done = self.session.execute(
            update(table)
            .where(table.secret_hash == secret_hash, table.used_at.is_(None))
            .values(used_at=now)
        )
        return bool(done.rowcount)  # type: ignore[attr-defined]

    def count_try(self, secret_hash: str) -> None:
        """Count a wrong typed code against an offer."""
        table = tables.Pairing
        self.session.execute(
            update(table).where(table.secret_hash == secret_hash).values(tries=table.tries + 1)
        )

    def drop_pairings_ended_before(self, moment: int) -> None:
        """Forget old offers."""
        self.session.execute(delete(tables.Pairing).where(tables.Pairing.expires_at < moment))

    def people(self) -> list[Person]:
        """Everyone who records."""
        return [Person(id=key, name=name) for key, name in people(self.session).items()]

    def add_person(self, person: Person) -> None:
        """Enter a person."""
        self.session.add(tables.Person(id=person.id, name=person.name))
        self.session.flush()

    def put_device(self, device: Device) -> None:
        """Enter a device, or pair a known one anew."""
        self.session.merge(tables.Device(**vars(device)))
        self.session.flush()

    def device(self, device_id: str) -> Device | None:
        """A device by its id."""
        row = self.session.get(tables.Device, device_id)
        return _device(row) if row else None

    def device_with_token(self, token_hash: str) -> Device | None:
        """A device by the hash of its token."""
        row = self.session.execute(
            select(tables.Device).where(tables.Device.token_hash == token_hash)
        ).scalar_one_or_none()
        return _device(row) if row else None

    def set_revoked(self, device_id: str, now: int) -> None:
        """Let a device in no more."""
        self._set(device_id, revoked_at=now)

    def set_last_seen(self, device_id: str, now: int) -> None:
        """Note a device's visit. A full disk is no reason to turn it away."""
        try:
            self._set(device_id, last_seen=now)
            self.session.commit()
        except DatabaseTrouble:
            self.session.rollback()

    def _set(self, device_id: str, **values: int) -> None:
        table = tables.Device
        self.session.execute(update(table).where(table.id == device_id).values(**values))


def people(session: Session) -> dict[str, str]:
    """Person id -> name."""
    return dict(session.execute(select(tables.Person.id, tables.Person.name)).all())


def paired(session: Session) -> list[Device]:
    """All devices, newest first, revoked ones included."""
    order = tables.Device.paired_at.desc()
    return [
        _device(row) for row in session.execute(select(tables.Device).order_by(order)).scalars()
    ]


def _pairing(row: tables.Pairing) -> Pairing:
    return Pairing(
        row.secret_hash, row.typed_hash, row.made_at, row.expires_at, row.used_at, row.tries
    )


def _device(row: tables.Device) -> Device:
    return Device(
        row.id,
        row.name,
        row.person,
        row.token_hash or "",
        row.paired_at,
        row.last_seen or 0,
        row.revoked_at,
    )
