"""The certificates: what they permit, when they are renewed, and what is said when they cannot."""

from __future__ import annotations

import base64
import hashlib
import os
import stat
import subprocess
from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime, timedelta
from ipaddress import ip_address
from pathlib import Path

import pytest
import trustme
from cryptography import x509
from cryptography.hazmat.primitives import serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID
from cryptography.x509.verification import PolicyBuilder, Store, VerificationError

from bucktail.workshop.authority import (
    Paths,
    ensure,
    fingerprint,
    kept_authority,
    notes,
    paths_in,
    spki_pin,
    start_again,
    vouched_names,
)
from bucktail.workshop.certificates import new_authority, new_leaf, parsed_names
from bucktail.workshop.errors import AuthorityError
from bucktail.workshop.origin import Origin
from bucktail.workshop.trustpage import trust_app

NAMES = ("bench.local", "localhost", "127.0.0.1", "::1")
posix_only = pytest.mark.skipif(os.name == "nt", reason="Windows keeps rights elsewhere")


@pytest.fixture
def paths(tmp_path: Path, today: datetime) -> Paths:
    return ensure(tmp_path, NAMES, today)


def leaf_in(paths: Paths) -> x509.Certificate:
    return x509.load_pem_x509_certificate(paths.chain.read_bytes())


def foreign_leaf(paths: Paths, today: datetime, *names: str) -> x509.Certificate:
    """A certificate that this authority really signed, though its constraints forbid the name."""
    key = serialization.load_pem_private_key(paths.ca.with_name("ca.key").read_bytes(), None)
    assert isinstance(key, ec.EllipticCurvePrivateKey)
    own = ec.generate_private_key(ec.SECP256R1())
    return new_leaf(kept_authority(paths), key, own.public_key(), parsed_names(names), today)


def verify(paths: Paths, leaf: x509.Certificate, name: str, now: datetime) -> None:
    try:
        subject: x509.GeneralName = x509.IPAddress(ip_address(name))
    except ValueError:
        subject = x509.DNSName(name)
    store = Store([kept_authority(paths)])
    verifier = PolicyBuilder().store(store).time(now).build_server_verifier(subject)
    verifier.verify(leaf, [])


def openssl_says(paths: Paths, leaf: x509.Certificate, today: datetime, tmp_path: Path) -> str:
    file = tmp_path / "leaf.pem"
    file.write_bytes(leaf.public_bytes(serialization.Encoding.PEM))
    command = ["openssl", "verify", "-x509_strict", "-purpose", "sslserver"]
    command += ["-attime", str(int(today.timestamp())), "-CAfile", str(paths.ca), str(file)]
    answer = subprocess.run(command, capture_output=True, text=True, timeout=30)
    return answer.stdout + answer.stderr


@pytest.mark.parametrize("name", NAMES)
def test_the_chain_is_good_for_each_of_our_names(paths, today, name) -> None:
    verify(paths, leaf_in(paths), name, today)


def test_openssl_agrees_strictly(paths, today, tmp_path) -> None:
    assert openssl_says(paths, leaf_in(paths), today, tmp_path).endswith("leaf.pem: OK\n")


@pytest.mark.parametrize("name", ["bank.example", "other.local", "192.168.1.20", "fd00::7"])
def test_the_constraint_refuses_a_name_that_is_not_ours(paths, today, tmp_path, name) -> None:
    leaf = foreign_leaf(paths, today, name)
    with pytest.raises(VerificationError, match="permitted"):
        verify(paths, leaf, name, today)
    assert "permitted subtree violation" in openssl_says(paths, leaf, today, tmp_path)


def test_the_foreign_leaf_is_refused_for_its_name_only(paths, today, tmp_path) -> None:
    """The control: the same way of making a certificate gives a good one for a name of ours."""
    leaf = foreign_leaf(paths, today, "bench.local")
    verify(paths, leaf, "bench.local", today)
    assert openssl_says(paths, leaf, today, tmp_path).endswith(": OK\n")


def test_what_the_authority_is(paths, today) -> None:
    authority = kept_authority(paths)
    constraints = authority.extensions.get_extension_for_class(x509.NameConstraints)
    assert constraints.critical
    assert constraints.value.excluded_subtrees is None
    assert vouched_names(paths) == ["bench.local", "localhost", "127.0.0.1", "::1"]
    basic = authority.extensions.get_extension_for_class(x509.BasicConstraints)
    assert (basic.critical, basic.value.ca, basic.value.path_length) == (True, True, 0)
    assert isinstance(authority.public_key().curve, ec.SECP256R1)
    assert authority.not_valid_before_utc == today - timedelta(days=1)


def test_what_the_leaf_is(paths, today) -> None:
    leaf = leaf_in(paths)
    usage = leaf.extensions.get_extension_for_class(x509.ExtendedKeyUsage).value
    assert list(usage) == [ExtendedKeyUsageOID.SERVER_AUTH]
    assert leaf.not_valid_before_utc == today - timedelta(days=1)
    life = leaf.not_valid_after_utc - leaf.not_valid_before_utc
    assert timedelta(days=396) < life <= timedelta(days=397)


def test_an_authority_that_leaves_a_kind_of_name_free_is_not_made(today) -> None:
    key = ec.generate_private_key(ec.SECP256R1())
    with pytest.raises(ValueError, match="one host name and one address"):
        new_authority(key, "x", parsed_names(["bench.local"]), today)


@posix_only
def test_keys_are_for_their_owner_only(paths) -> None:
    modes = {
        path.name: stat.S_IMODE(path.stat().st_mode) for path in sorted(paths.ca.parent.iterdir())
    }
    assert modes == {"ca.crt": 0o644, "ca.key": 0o600, "server.crt": 0o644, "server.key": 0o600}
    assert stat.S_IMODE(paths.ca.parent.stat().st_mode) == 0o700


@posix_only
def test_rights_that_a_copy_gave_away_are_taken_back(paths, tmp_path, today) -> None:
    for key in ("ca.key", "server.key"):
        paths.ca.with_name(key).chmod(0o644)
    ensure(tmp_path, NAMES, today)
    for key in ("ca.key", "server.key"):
        assert stat.S_IMODE(paths.ca.with_name(key).stat().st_mode) == 0o600


def kept_bytes(paths: Paths) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in paths.ca.parent.iterdir()}


def test_nothing_changes_while_nothing_has_to(paths, tmp_path, today) -> None:
    before = kept_bytes(paths)
    ensure(tmp_path, reversed(NAMES), today + timedelta(days=365))
    assert kept_bytes(paths) == before


def test_the_leaf_is_renewed_when_fewer_than_30_days_remain(paths, tmp_path, today) -> None:
    before, authority = leaf_in(paths), paths.ca.read_bytes()
    limit = before.not_valid_after_utc - timedelta(days=30)
    ensure(tmp_path, NAMES, limit)
    assert leaf_in(paths) == before
    ensure(tmp_path, NAMES, limit + timedelta(seconds=1))
    assert leaf_in(paths).not_valid_after_utc > limit + timedelta(days=390)
    assert leaf_in(paths).public_key() != before.public_key()
    assert paths.ca.read_bytes() == authority
    verify(paths, leaf_in(paths), "bench.local", limit)


def test_the_leaf_is_made_again_when_the_names_change(paths, tmp_path, today) -> None:
    ensure(tmp_path, NAMES[:2], today)
    names = leaf_in(paths).extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    assert names.get_values_for_type(x509.DNSName) == ["bench.local", "localhost"]
    assert names.get_values_for_type(x509.IPAddress) == []


def test_a_name_outside_the_constraint_is_refused_and_nothing_is_lost(paths, tmp_path, today):
    before = kept_bytes(paths)
    with pytest.raises(AuthorityError, match=r"not for shed\.local.*--new-authority"):
        ensure(tmp_path, ("shed.local", *NAMES), today)
    assert kept_bytes(paths) == before


@pytest.mark.parametrize("broken", ["server.key", "server.crt"])
@pytest.mark.parametrize("how", ["missing", "rubbish", "of another start"])
def test_a_start_that_stopped_half_way_is_put_right(paths, tmp_path, today, broken, how) -> None:
    file = paths.ca.with_name(broken)
    other = ensure(tmp_path / "other", NAMES, today).ca.with_name(broken).read_bytes()
    file.unlink()
    if how != "missing":
        file.write_bytes(b"-----BEGIN" if how == "rubbish" else other)
    ensure(tmp_path, NAMES, today)
    verify(paths, leaf_in(paths), "bench.local", today)
    key = serialization.load_pem_private_key(paths.key.read_bytes(), None)
    assert key.public_key() == leaf_in(paths).public_key()


def test_a_missing_authority_key_matters_only_when_the_leaf_runs_out(paths, tmp_path, today):
    paths.ca.with_name("ca.key").unlink()
    assert ensure(tmp_path, NAMES, today) == paths
    with pytest.raises(AuthorityError, match=r"ca\.key is missing\. Put it back"):
        ensure(tmp_path, NAMES, today + timedelta(days=390))


def test_a_key_without_its_certificate_is_a_first_start_that_stopped(tmp_path, today) -> None:
    paths = ensure(tmp_path, NAMES, today)
    key = paths.ca.with_name("ca.key").read_bytes()
    paths.ca.unlink()
    ensure(tmp_path, NAMES, today)
    assert paths.ca.with_name("ca.key").read_bytes() == key
    verify(paths, leaf_in(paths), "bench.local", today)


@pytest.mark.parametrize("damaged", ["ca.crt", "ca.key"])
def test_damage_to_the_authority_is_said_and_not_papered_over(paths, tmp_path, today, damaged):
    paths.ca.with_name(damaged).write_bytes(b"rubbish")
    with pytest.raises(AuthorityError, match=rf"{damaged} is damaged\. Put the"):
        ensure(tmp_path, NAMES, today + timedelta(days=390))


def test_an_authority_without_constraints_is_never_served(paths, tmp_path, today) -> None:
    """Such a file would ask the phones to trust it for every address there is."""
    boundless = trustme.CA().cert_pem.bytes()
    paths.ca.write_bytes(boundless)
    with pytest.raises(AuthorityError, match=r"ca\.crt is damaged"):
        ensure(tmp_path, NAMES, today)
    with pytest.raises(AuthorityError, match=r"ca\.crt is damaged"):
        trust_app(paths, Origin("bench.local", 8443, 8480, "name"))
    assert paths.ca.read_bytes() == boundless


def test_a_key_of_another_authority_is_noticed(paths, tmp_path, today) -> None:
    other = ensure(tmp_path / "other", NAMES, today)
    paths.ca.with_name("ca.key").write_bytes(other.ca.with_name("ca.key").read_bytes())
    with pytest.raises(AuthorityError, match=r"ca\.key is damaged"):
        ensure(tmp_path, NAMES, today + timedelta(days=390))


def test_a_clock_before_the_authority_is_said_plainly(paths, tmp_path) -> None:
    with pytest.raises(AuthorityError) as caught:
        ensure(tmp_path, NAMES, datetime(2019, 3, 4, tzinfo=UTC))
    assert "clock says 4 March 2019" in str(caught.value)
    assert "made on 1 March 2026. Set the date and time" in str(caught.value)


def test_a_clock_that_never_was_set_makes_no_authority(tmp_path) -> None:
    with pytest.raises(AuthorityError, match="clock says 1 January 1970, which cannot be right"):
        ensure(tmp_path, NAMES, datetime(1970, 1, 1, tzinfo=UTC))
    assert not paths_in(tmp_path).ca.exists()


def test_a_leaf_made_while_the_clock_was_ahead_is_made_again(tmp_path, today) -> None:
    paths = ensure(tmp_path, NAMES, today)
    ensure(tmp_path, NAMES, today + timedelta(days=380))
    assert leaf_in(paths).not_valid_before_utc > today
    ensure(tmp_path, NAMES, today)
    verify(paths, leaf_in(paths), "bench.local", today)


def test_the_end_of_an_authority_is_told_a_year_ahead(paths, tmp_path, today) -> None:
    ends = kept_authority(paths).not_valid_after_utc
    assert notes(paths, ends - timedelta(days=366)) == []
    assert "runs out on" in notes(paths, ends - timedelta(days=364))[0]
    last = ends - timedelta(days=10)
    ensure(tmp_path, NAMES, last)
    assert leaf_in(paths).not_valid_after_utc == ends
    before = kept_bytes(paths)
    ensure(tmp_path, NAMES, last + timedelta(days=5))
    assert kept_bytes(paths) == before
    with pytest.raises(AuthorityError, match="If the clock is wrong, set it"):
        ensure(tmp_path, NAMES, ends + timedelta(seconds=1))


def test_starting_again_keeps_the_old_certificate_and_deletes_the_old_keys(paths, tmp_path, today):
    old = fingerprint(paths)
    start_again(tmp_path, ("shed.local", "127.0.0.1"), today)
    assert fingerprint(paths) != old
    assert vouched_names(paths) == ["shed.local", "127.0.0.1"]
    aside = tmp_path / "authority-until-20260301T120000Z"
    assert sorted(path.name for path in aside.iterdir()) == ["ca.crt", "server.crt"]
    assert fingerprint(Paths(aside / "server.crt", aside / "server.key", aside / "ca.crt")) == old


def test_two_first_starts_at_once_agree(tmp_path, today) -> None:
    with ThreadPoolExecutor(8) as pool:
        list(pool.map(lambda _: ensure(tmp_path, NAMES, today), range(8)))
    paths = ensure(tmp_path, NAMES, today)
    key = serialization.load_pem_private_key(paths.ca.with_name("ca.key").read_bytes(), None)
    assert key.public_key() == kept_authority(paths).public_key()
    verify(paths, leaf_in(paths), "bench.local", today)
    assert [p.name for p in paths.ca.parent.iterdir() if p.name.endswith(".part")] == []


@pytest.mark.parametrize("name", ["", "bänch.local", "*.local", "fe80::1%eth0", "a b", "1.2.3.400"])
def test_names_that_cannot_be_certified_are_refused(tmp_path, today, name) -> None:
    with pytest.raises(AuthorityError, match="No certificate can be made"):
        ensure(tmp_path, (name, *NAMES), today)


def test_no_names_at_all_are_refused(tmp_path, today) -> None:
    with pytest.raises(AuthorityError, match="no name was given"):
        ensure(tmp_path, (), today)


def test_a_folder_that_cannot_be_written_is_said_plainly(tmp_path, today) -> None:
    (tmp_path / "authority").write_text("a file where the folder should be")
    with pytest.raises(AuthorityError, match=r"cannot be read or written .* Check that the folder"):
        ensure(tmp_path, NAMES, today)


def test_the_fingerprint_is_the_hash_of_the_file_phones_download(paths) -> None:
    der = kept_authority(paths).public_bytes(serialization.Encoding.DER)
    groups = fingerprint(paths).split(" ")
    assert [len(group) for group in groups] == [4] * 16
    assert "".join(groups) == hashlib.sha256(der).hexdigest().upper()


def test_the_pin_is_that_of_the_server_key(paths, tmp_path) -> None:
    command = ["openssl", "pkey", "-in", str(paths.key), "-pubout", "-outform", "DER"]
    public = subprocess.run(command, capture_output=True, timeout=30, check=True).stdout
    assert spki_pin(paths) == base64.b64encode(hashlib.sha256(public).digest()).decode()
