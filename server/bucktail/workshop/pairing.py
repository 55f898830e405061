"""How a phone becomes one of the workshop's devices.

The computer shows a secret (in a QR symbol, and in a link) and a short code for typing. The first
phone to bring either back within five minutes gets a token of its own, and no other phone does.
Secrets and tokens are kept only as SHA-256, so the workshop's database cannot be used to pair or
to pass for a phone. SHA-256 without a salt is enough, because nobody chooses them: 128 and 256
random bits cannot be guessed from their hash. The typed code has only 40 bits, so it is closed
after five wrong tries (both in the spirit of NIST SP 800-63B, 5.1.3.2 and 5.2.2).

Clock, randomness and storage are passed in.
"""

from __future__ import annotations

import base64
import hashlib
import hmac
import unicodedata
import uuid
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Literal

from bucktail.storage.pairing_records import Device, Pairing, PairingStore, Person
from bucktail.workshop.pairing_code import (
    SECRET_BITS,
    SECRET_SYMBOLS,
    TYPED_BITS,
    code_in,
    in_symbols,
)

LIFE_MS = 5 * 60 * 1000
WRONG_TRIES = 5
TOKEN_BITS = 256
KEEP_ENDED_MS = 24 * 60 * 60 * 1000
SEEN_EVERY_MS = 60 * 1000
NAME_LENGTH = 60
_AGAIN = "Start a new pairing at the computer."

Reason = Literal["unknown", "used", "expired", "wrong", "closed", "names", "revoked"]


class PairingRefused(Exception):
    """A phone may not pair, or may not go on. The text says what to do; `reason` is for routes."""

    def __init__(self, reason: Reason, sentence: str) -> None:
        super().__init__(sentence)
        self.reason: Reason = reason


@dataclass(frozen=True)
class Offer:
    """What the computer shows: never stored, never logged. `expires_at` is UTC ms."""

    secret: str
    typed: str
    expires_at: int


@dataclass(frozen=True)
class Newcomer:
    """Who asks to be paired: the phone's own UUID, its name, and the person who uses it."""

    device_id: str
    device_name: str
    person_name: str


@dataclass(frozen=True)
class Paired:
    """A phone that may go on. `token` goes to that phone once and is not kept."""

    token: str
    device: Device
    person: Person


@dataclass(frozen=True)
class PairingDesk:
    """Pairs phones and recognises them. `clock` gives UTC ms, `random_bytes` is a secure source
    of that many bytes, `new_id` makes a UUID for a person seen for the first time."""

    store: PairingStore
    clock: Callable[[], int]
    random_bytes: Callable[[int], bytes]
    new_id: Callable[[], str]

    def start(self) -> Offer:
        """Open a pairing for five minutes. Others that are open stay open."""
        now = self.clock()
        secret = in_symbols(self.random_bytes(SECRET_BITS // 8))
        typed = in_symbols(self.random_bytes(TYPED_BITS // 8))
        pairing = Pairing(_hash(secret), _hash(typed), now, now + LIFE_MS)
        with self.store.exclusively():
            self.store.drop_pairings_ended_before(now - KEEP_ENDED_MS)
            self.store.add_pairing(pairing)
        return Offer(secret, typed, pairing.expires_at)

    def redeem(self, answer: str, newcomer: Newcomer) -> Paired:
        """Give a phone its token for a secret, a pairing link, or a typed code.

        A phone that is already known gets a new token and the old one ends; its place in the
        order of the events stays. Raises PairingRefused.
        """
        newcomer = _checked(newcomer)
        given = code_in(answer)
        if given is None:
            raise PairingRefused(
                "unknown",
                "That is not a pairing code. Scan the code on the computer's screen, or type the"
                " eight letters and digits below it.",
            )
        # A wrong try must stay counted, so it ends the transaction and is told afterwards.
        with self.store.exclusively():
            found = self._secret(given) if len(given) == SECRET_SYMBOLS else self._typed(given)
            if isinstance(found, Pairing):
                return self._admit(newcomer)
        raise found

    def authenticate(self, token: str) -> Device:
        """The device that holds `token`. Raises PairingRefused (`unknown` or `revoked`)."""
        token_hash = _hash(token)
        device = self.store.device_with_token(token_hash)
        if device is None or not hmac.compare_digest(device.token_hash, token_hash):
            raise PairingRefused("unknown", "This phone is not paired. Pair it at the computer.")
        if device.revoked_at is not None:
            raise PairingRefused(
                "revoked",
                "This phone was removed from the workshop. It keeps what it has not sent; pair it"
                " again at the computer to send it.",
            )
        now = self.clock()
        if now - device.last_seen < SEEN_EVERY_MS:
            return device
        self.store.set_last_seen(device.id, now)
        return replace(device, last_seen=now)

    def revoke(self, device_id: str) -> None:
        """Let a phone in no more. What it recorded stays. Raises PairingRefused when unknown."""
        with self.store.exclusively():
            device = self.store.device(device_id)
            if device is None:
                raise PairingRefused("unknown", "There is no such phone. See the list of phones.")
            if device.revoked_at is None:
                self.store.set_revoked(device_id, self.clock())

    def _secret(self, secret: str) -> Pairing | PairingRefused:
        now = self.clock()
        pairing = self.store.pairing_with(_hash(secret))
        if pairing is None or not hmac.compare_digest(pairing.secret_hash, _hash(secret)):
            return PairingRefused(
                "unknown", f"This workshop did not make that pairing code. {_AGAIN}"
            )
        if pairing.used_at is None and pairing.expires_at <= now:
            return PairingRefused("expired", f"That pairing code is older than 5 minutes. {_AGAIN}")
        if not self.store.consume(pairing.secret_hash, now):
            return PairingRefused("used", f"That pairing code has been used. {_AGAIN}")
        return pairing

    def _typed(self, typed: str) -> Pairing | PairingRefused:
        now = self.clock()
        opened = self.store.open_pairings(now)
        if not opened:
            return PairingRefused("expired", f"No pairing is open at the moment. {_AGAIN}")
        able = [pairing for pairing in opened if pairing.tries < WRONG_TRIES]
        if not able:
            return PairingRefused(
                "closed",
                "Too many wrong codes, so typing is closed for this pairing. Scan the code on the"
                f" computer's screen instead. {_AGAIN}",
            )
        typed_hash = _hash(typed)
        # Every one is compared, so that the time does not tell which one came close.
        matching = [p for p in able if hmac.compare_digest(p.typed_hash, typed_hash)]
        if matching and self.store.consume(matching[0].secret_hash, now):
            return matching[0]
        for pairing in able:
            self.store.count_try(pairing.secret_hash)
        left = WRONG_TRIES - 1 - min(pairing.tries for pairing in able)
        return PairingRefused("wrong", f"That is not the code on the screen. {_tries(left)}")

    def _admit(self, newcomer: Newcomer) -> Paired:
        now = self.clock()
        token = base64.urlsafe_b64encode(self.random_bytes(TOKEN_BITS // 8)).decode().rstrip("=")
        person = self._person(newcomer.person_name)
        device = Device(newcomer.device_id, newcomer.device_name, person.id, _hash(token), now, now)
        self.store.put_device(device)
        return Paired(token, device, person)

    def _person(self, name: str) -> Person:
        """The person of that name, in upper or lower case, or a new one."""
        for known in self.store.people():
            if known.name.casefold() == name.casefold():
                return known
        person = Person(self.new_id(), name)
        self.store.add_person(person)
        return person


def _hash(text: str) -> str:
    return hashlib.sha256(text.encode("utf-8", "replace")).hexdigest()


def _tries(left: int) -> str:
    if left == 0:
        return "Typing is now closed for this pairing; scan the code instead."
    return f"{left} more {'try' if left == 1 else 'tries'}."


def _checked(newcomer: Newcomer) -> Newcomer:
    try:
        device_id = str(uuid.UUID(newcomer.device_id))
    except (ValueError, AttributeError, TypeError):
        raise PairingRefused(
            "names", "This phone did not say which phone it is. Reload Bucktail and pair again."
        ) from None
    return Newcomer(
        device_id,
        _name(newcomer.device_name, "Give this phone a name, such as “bench phone”."),
        _name(
            newcomer.person_name, "Say who uses this phone, so that the record shows who did what."
        ),
    )


def _name(text: str, missing: str) -> str:
    """A name on one line, composed the same way on every phone (Unicode NFC)."""
    name = " ".join(unicodedata.normalize("NFC", text).split())
    if not name:
        raise PairingRefused("names", missing)
    if len(name) > NAME_LENGTH:
        raise PairingRefused(
            "names", f"“{name[:20]}…” is too long. Use {NAME_LENGTH} letters at most."
        )
    if any(unicodedata.category(sign) in ("Cc", "Cs") for sign in name):
        raise PairingRefused(
            "names", "That name has a sign in it that cannot be shown. Type it again."
        )
    return name
