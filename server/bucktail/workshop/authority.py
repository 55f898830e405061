"""The workshop's own certificate authority and the server certificate it signs.

A phone gives the camera, storage without a network and installing only to a page it reached by
https, and no public authority vouches for a computer at home. So each workshop makes its own:
kept in `authority/` in the workshop folder, and able to vouch for this one computer only.

`ca.crt` is public and goes to the phones. `ca.key` and `server.key` never leave the folder.
"""

from __future__ import annotations

import base64
import hashlib
import os
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

from cryptography import x509
from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives import serialization
from cryptography.hazmat.primitives.asymmetric import ec

from bucktail.workshop.certificates import (
    Name,
    names_on,
    names_permitted_by,
    new_authority,
    new_leaf,
    parsed_names,
)
from bucktail.workshop.errors import AuthorityError
from bucktail.workshop.kept_file import PRIVATE, READABLE, write_first, write_whole

RENEW_BEFORE = timedelta(days=30)
TELL_BEFORE = timedelta(days=365)
CLOCK_CANNOT_BE_BEFORE = datetime(2025, 1, 1, tzinfo=UTC)  # older than this program
NEW_AUTHORITY = "bucktail setup --new-authority"


@dataclass(frozen=True)
class Paths:
    """Where the certificates are: `chain` and `key` for the server, `ca` for the phones (PEM)."""

    chain: Path
    key: Path
    ca: Path


def paths_in(folder: Path) -> Paths:
    """The certificate files of the workshop in `folder`, whether or not they exist yet."""
    kept = folder / "authority"
    return Paths(chain=kept / "server.crt", key=kept / "server.key", ca=kept / "ca.crt")


def ensure(folder: Path, names: Iterable[str], now: datetime) -> Paths:
    """Make what is missing, renew what runs out, and return the files to serve with.

    `folder` is the workshop folder, `names` are the host names and addresses of this computer,
    the first of them the one the phones use; `now` is an aware UTC time. The authority is made
    once. The server certificate is made again when fewer than 30 days remain, when the names
    changed, or when it does not match its key or its authority.

    Raises AuthorityError with a sentence for the person at the computer.
    """
    asked = list(names)
    now = now.astimezone(UTC).replace(microsecond=0)
    try:
        wanted = parsed_names(asked)
    except ValueError as error:
        raise AuthorityError(f"No certificate can be made for these names: {error}") from error
    paths = paths_in(folder)
    try:
        _close_to_others(paths)
        if not paths.ca.exists():
            _make_authority(paths, asked[0], wanted, now)
        authority = kept_authority(paths)
        _check_clock(authority, now)
        _check_names(authority, wanted)
        if not _leaf_serves(paths, authority, wanted, now):
            _issue_leaf(paths, authority, wanted, now)
    except OSError as error:
        raise AuthorityError(
            f"The certificates in {paths.ca.parent} cannot be read or written"
            f" ({error.strerror}). Check that the folder belongs to you and the disk is not full."
        ) from error
    return paths


def start_again(folder: Path, names: Iterable[str], now: datetime) -> Paths:
    """Put the old authority aside and make a new one, which every phone must then trust afresh.

    The old certificate is kept under `authority-until-...` so that its fingerprint can be told
    from the new one when it is taken off the phones; the old keys are deleted.
    """
    old = paths_in(folder).ca.parent
    if old.exists():
        aside = folder / f"authority-until-{now.astimezone(UTC):%Y%m%dT%H%M%SZ}"
        old.rename(aside)
        for key in aside.glob("*.key"):
            key.unlink()
    return ensure(folder, names, now)


def notes(paths: Paths, now: datetime) -> list[str]:
    """Sentences about what will have to be done to the certificates, though nothing fails yet."""
    authority = kept_authority(paths)
    ends = authority.not_valid_after_utc
    if ends - now > TELL_BEFORE:
        return []
    return [
        f"This workshop's certificate authority runs out on {_day(ends)}. Before then send"
        f" everything from each phone, run “{NEW_AUTHORITY}” and trust the new one on each phone."
    ]


def fingerprint(paths: Paths) -> str:
    """SHA-256 of the authority's DER bytes: sixteen groups of four, as in “3F2A 90C1 …”.

    It is what the phone shows for the certificate, and what a hash of the downloaded .crt gives.
    """
    digits = hashlib.sha256(authority_der(paths)).hexdigest().upper()
    return " ".join(digits[at : at + 4] for at in range(0, len(digits), 4))


def authority_der(paths: Paths) -> bytes:
    """The authority's certificate as the DER bytes that phones and desktops install."""
    return kept_authority(paths).public_bytes(serialization.Encoding.DER)


def spki_pin(paths: Paths) -> str:
    """SHA-256 of the server certificate's public key, base64 (RFC 7469, 2.4)."""
    leaf = x509.load_pem_x509_certificate(paths.chain.read_bytes())
    public = leaf.public_key().public_bytes(
        serialization.Encoding.DER, serialization.PublicFormat.SubjectPublicKeyInfo
    )
    return base64.b64encode(hashlib.sha256(public).digest()).decode("ascii")


def kept_authority(paths: Paths) -> x509.Certificate:
    """The authority's certificate from the folder. Raises AuthorityError when it is damaged, or
    is not one of ours: one without name constraints could vouch for the whole internet."""
    try:
        authority = x509.load_pem_x509_certificate(paths.ca.read_bytes())
        authority.extensions.get_extension_for_class(x509.NameConstraints)
    except (ValueError, x509.ExtensionNotFound) as error:
        raise _damaged(paths.ca) from error
    return authority


def vouched_names(paths: Paths) -> list[str]:
    """The only names and addresses the authority can vouch for, as text, host names first."""
    names = names_permitted_by(kept_authority(paths))
    return [str(name) for name in sorted(names, key=lambda n: (not isinstance(n, str), str(n)))]


def _day(moment: datetime) -> str:
    return f"{moment.day} {moment:%B %Y}"


def _damaged(path: Path) -> AuthorityError:
    return AuthorityError(
        f"{path} is damaged. Put the “authority” folder back from a copy of the workshop folder,"
        f" or run “{NEW_AUTHORITY}” and trust the new one on each phone."
    )


def _authority_key_path(paths: Paths) -> Path:
    return paths.ca.with_name("ca.key")


def _close_to_others(paths: Paths) -> None:
    """Make the folder, and take away rights that a copy or a restore may have given others."""
    paths.ca.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    if os.name == "nt":
        return
    paths.ca.parent.chmod(0o700)
    for path in (_authority_key_path(paths), paths.key):
        if path.exists() and path.stat().st_mode & 0o077:
            path.chmod(PRIVATE)


def _pem_of(key: ec.EllipticCurvePrivateKey) -> bytes:
    return key.private_bytes(
        serialization.Encoding.PEM,
        serialization.PrivateFormat.PKCS8,
        serialization.NoEncryption(),
    )


def _kept_key(path: Path) -> ec.EllipticCurvePrivateKey:
    try:
        key = serialization.load_pem_private_key(path.read_bytes(), password=None)
    except (ValueError, TypeError) as error:
        raise _damaged(path) from error
    if not isinstance(key, ec.EllipticCurvePrivateKey):
        raise _damaged(path)
    return key


def _make_authority(paths: Paths, host: str, names: frozenset[Name], now: datetime) -> None:
    """Key first, certificate last: a certificate in the folder means the authority is whole.

    When two programs start at once, both end up with the files of the one that came first.
    """
    if now < CLOCK_CANNOT_BE_BEFORE:
        raise AuthorityError(
            f"This computer's clock says {_day(now)}, which cannot be right. Set the date and"
            " time, then start again: certificates made now would not be accepted by any phone."
        )
    key_path = _authority_key_path(paths)
    write_first(key_path, _pem_of(ec.generate_private_key(ec.SECP256R1())))
    title = f"Bucktail {host[:40]} {now:%Y-%m-%d}"
    try:
        made = new_authority(_kept_key(key_path), title, names, now)
    except ValueError as error:
        raise AuthorityError(f"No authority can be made for these names: {error}") from error
    write_first(paths.ca, made.public_bytes(serialization.Encoding.PEM), READABLE)


def _check_clock(authority: x509.Certificate, now: datetime) -> None:
    begins, ends = authority.not_valid_before_utc, authority.not_valid_after_utc
    if now < begins:
        raise AuthorityError(
            f"This computer's clock says {_day(now)}, but this workshop's certificates were made"
            f" on {_day(begins + timedelta(days=1))}. Set the date and time, then start again."
        )
    if now > ends:
        raise AuthorityError(
            f"This workshop's certificate authority ran out on {_day(ends)} and the clock says"
            f" {_day(now)}. If the clock is wrong, set it. If it is right, run"
            f" “{NEW_AUTHORITY}” and trust the new one on each phone."
        )


def _check_names(authority: x509.Certificate, wanted: frozenset[Name]) -> None:
    permitted = names_permitted_by(authority)
    strange = sorted(str(name) for name in wanted - permitted)
    if strange:
        known = ", ".join(sorted(str(name) for name in permitted))
        raise AuthorityError(
            f"This workshop's authority can vouch for {known} only, not for"
            f" {', '.join(strange)}. Start under the old name, or run “{NEW_AUTHORITY}” and trust"
            " the new one on each phone."
        )


def _leaf_serves(
    paths: Paths, authority: x509.Certificate, wanted: frozenset[Name], now: datetime
) -> bool:
    """Whether the kept server certificate can be served as it is."""
    try:
        leaf = x509.load_pem_x509_certificate(paths.chain.read_bytes())
        key = _kept_key(paths.key)
        leaf.verify_directly_issued_by(authority)
    except (OSError, ValueError, TypeError, InvalidSignature, AuthorityError):
        return False  # missing, damaged, or signed by another authority: made again
    renew_at = leaf.not_valid_after_utc
    if renew_at < authority.not_valid_after_utc:  # else a new one could not last longer either
        renew_at -= RENEW_BEFORE
    return (
        leaf.public_key() == key.public_key()
        and names_on(leaf) == wanted
        and leaf.not_valid_before_utc <= now <= renew_at
    )


def _issue_leaf(
    paths: Paths, authority: x509.Certificate, names: frozenset[Name], now: datetime
) -> None:
    """Make a new server key and certificate. Stopped half-way, the next start does it again."""
    key_path = _authority_key_path(paths)
    if not key_path.exists():
        raise AuthorityError(
            f"The server certificate must be renewed but {key_path} is missing. Put it back from a"
            f" copy of the workshop folder, or run “{NEW_AUTHORITY}” and trust the new one on each"
            " phone."
        )
    authority_key = _kept_key(key_path)
    if authority_key.public_key() != authority.public_key():
        raise _damaged(key_path)
    key = ec.generate_private_key(ec.SECP256R1())
    leaf = new_leaf(authority, authority_key, key.public_key(), names, now)
    pem = serialization.Encoding.PEM
    write_whole(paths.key, _pem_of(key))
    write_whole(paths.chain, leaf.public_bytes(pem) + authority.public_bytes(pem), READABLE)
