"""What pairing asks of the storage: offers to pair, the paired phones, and who uses them."""

from __future__ import annotations

from contextlib import AbstractContextManager
from dataclasses import dataclass
from typing import Protocol


@dataclass(frozen=True)
class Pairing:
    """One offer to pair, as kept. Hashes are lower-case hex of SHA-256; times are UTC ms."""

    secret_hash: str
    typed_hash: str
    made_at: int
    expires_at: int
    used_at: int | None = None
    tries: int = 0


@dataclass(frozen=True)
class Person:
    """Somebody who works in the workshop. `id` is a UUID."""

    id: str
    name: str


@dataclass(frozen=True)
class Device:
    """A paired phone. `id` is the UUID the phone gave itself; times are UTC ms."""

    id: str
    name: str
    person: str
    token_hash: str
    paired_at: int
    last_seen: int
    revoked_at: int | None = None


class PairingStore(Protocol):
    """What pairing needs of the storage. Reads inside `exclusively` see its own writes."""

    def exclusively(self) -> AbstractContextManager[None]:
        """One transaction in which no other pairing write runs; an exception undoes all of it."""
        ...

    def add_pairing(self, pairing: Pairing) -> None: ...

    def pairing_with(self, secret_hash: str) -> Pairing | None: ...

    def open_pairings(self, now: int) -> list[Pairing]:
        """Those with no `used_at` and `expires_at` > now, newest first."""
        ...

    def consume(self, secret_hash: str, now: int) -> bool:
        """Set `used_at` only where it is null, in one statement, and say whether that happened."""
        ...

    def count_try(self, secret_hash: str) -> None:
        """Add one to `tries`."""
        ...

    def drop_pairings_ended_before(self, moment: int) -> None:
        """Forget the pairings whose `expires_at` < moment."""
        ...

    def people(self) -> list[Person]: ...

    def add_person(self, person: Person) -> None: ...

    def put_device(self, device: Device) -> None:
        """Add the device, or replace all of it where the `id` is known."""
        ...

    def device(self, device_id: str) -> Device | None: ...

    def device_with_token(self, token_hash: str) -> Device | None: ...

    def set_revoked(self, device_id: str, now: int) -> None: ...

    def set_last_seen(self, device_id: str, now: int) -> None:
        """The only write that is called outside `exclusively`."""
        ...
