"""A workshop without a database or a network: pairings in memory, a computer made up for a test."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime

import pytest

from bucktail.storage.pairing_records import Device, Pairing, Person


class MemoryPairings:
    """A PairingStore. `exclusively` is a lock that takes everything back after an exception."""

    def __init__(self) -> None:
        self.pairings: dict[str, Pairing] = {}
        self.devices: dict[str, Device] = {}
        self.persons: dict[str, Person] = {}
        self._lock = threading.Lock()

    @contextmanager
    def exclusively(self) -> Iterator[None]:
        with self._lock:
            before = dict(self.pairings), dict(self.devices), dict(self.persons)
            try:
                yield
            except BaseException:
                self.pairings, self.devices, self.persons = before
                raise

    def add_pairing(self, pairing: Pairing) -> None:
        self.pairings[pairing.secret_hash] = pairing

    def pairing_with(self, secret_hash: str) -> Pairing | None:
        return self.pairings.get(secret_hash)

    def open_pairings(self, now: int) -> list[Pairing]:
        opened = [p for p in self.pairings.values() if p.used_at is None and p.expires_at > now]
        return sorted(opened, key=lambda p: -p.made_at)

    def consume(self, secret_hash: str, now: int) -> bool:
        if self.pairings[secret_hash].used_at is not None:
            return False
        self.pairings[secret_hash] = replace(self.pairings[secret_hash], used_at=now)
        return True

    def count_try(self, secret_hash: str) -> None:
        pairing = self.pairings[secret_hash]
        self.pairings[secret_hash] = replace(pairing, tries=pairing.tries + 1)

    def drop_pairings_ended_before(self, moment: int) -> None:
        self.pairings = {k: p for k, p in self.pairings.items() if p.expires_at >= moment}

    def people(self) -> list[Person]:
        return list(self.persons.values())

    def add_person(self, person: Person) -> None:
        self.persons[person.id] = person

    def put_device(self, device: Device) -> None:
        self.devices[device.id] = device

    def device(self, device_id: str) -> Device | None:
        return self.devices.get(device_id)

    def device_with_token(self, token_hash: str) -> Device | None:
        return next((d for d in self.devices.values() if d.token_hash == token_hash), None)

    def set_revoked(self, device_id: str, now: int) -> None:
        self.devices[device_id] = replace(self.devices[device_id], revoked_at=now)

    def set_last_seen(self, device_id: str, now: int) -> None:
        self.devices[device_id] = replace(self.devices[device_id], last_seen=now)


@dataclass
class PretendMachine:
    """A computer called `name`, with `addresses`, on a network where `names` lead somewhere."""

    name: str = "bench"
    addresses: set[str] = field(default_factory=lambda: {"192.168.1.20", "127.0.0.1"})
    names: dict[str, set[str]] = field(default_factory=dict)

    def host_name(self) -> str:
        return self.name

    def look_up(self, name: str) -> frozenset[str]:
        return frozenset(self.names.get(name, set()))

    def has_address(self, address: str) -> bool:
        return address in self.addresses

    def lan_address(self) -> str | None:
        return next((a for a in sorted(self.addresses) if not a.startswith("127.")), None)


@pytest.fixture
def pairings() -> MemoryPairings:
    return MemoryPairings()


@pytest.fixture
def machine() -> PretendMachine:
    return PretendMachine()


@pytest.fixture
def today() -> datetime:
    return datetime(2026, 3, 1, 12, 0, tzinfo=UTC)
