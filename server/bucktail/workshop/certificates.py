"""Certificates of the workshop: one authority that can vouch for this computer and nothing else.

Sources: RFC 5280 (4.2.1.3 key usage, 4.2.1.9 basic constraints, 4.2.1.10 name constraints,
4.2.1.12 extended key usage), RFC 6125 (names belong in the subject alternative name). Browsers
refuse a server certificate from a private authority that lives longer than 825 days; 397, the
limit for public ones, is safe everywhere (common practice).
"""

from __future__ import annotations

import ipaddress
import re
from collections.abc import Iterable
from datetime import datetime, timedelta

from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

AUTHORITY_LIFE = timedelta(days=20 * 365)
LEAF_LIFE = timedelta(days=397)
BACK_DATED = timedelta(days=1)  # a phone whose clock is some hours behind still accepts it

HOST_NAME = re.compile(
    r"(?!.*\.\d+$)(?=.{1,253}$)(?!-)[a-z0-9-]{1,63}(?<!-)(\.(?!-)[a-z0-9-]{1,63}(?<!-))*"
)
"""A host name in lower case (RFC 1123, 2.1); a last label of digits would be a broken address."""

Address = ipaddress.IPv4Address | ipaddress.IPv6Address
Name = str | Address


def parsed_names(names: Iterable[str]) -> frozenset[Name]:
    """Host names (lower case) and IP addresses out of their text.

    Raises ValueError for none at all, a name that is not ASCII, or an address with a zone
    (fe80::1%eth0), which means something else on every computer.
    """
    parsed: set[Name] = set()
    for text in names:
        try:
            address = ipaddress.ip_address(text)
        except ValueError:
            if not HOST_NAME.fullmatch(text.lower()):
                raise ValueError(f"“{text}” is neither a host name nor an address.") from None
            parsed.add(text.lower())
            continue
        if "%" in text:
            raise ValueError(f"“{text}” belongs to one cable only; give it without the %.")
        parsed.add(address)
    if not parsed:
        raise ValueError("no name was given.")
    return frozenset(parsed)


def _permitted(names: frozenset[Name]) -> list[x509.GeneralName]:
    """One permitted subtree for each name. An address is its own range, /32 or /128.

    Both kinds must be present, because a kind that is not mentioned is not constrained at all
    (RFC 5280, 4.2.1.10). By the same paragraph a host name also permits names below it.
    """
    if {isinstance(name, str) for name in names} != {True, False}:
        raise ValueError("An authority needs at least one host name and one address.")
    subtrees: list[x509.GeneralName] = []
    for name in sorted(names, key=str):
        if isinstance(name, str):
            subtrees.append(x509.DNSName(name))
        else:
            subtrees.append(x509.IPAddress(ipaddress.ip_network(name)))
    return subtrees


def _key_usage(*, signs_certificates: bool) -> x509.KeyUsage:
    return x509.KeyUsage(
        digital_signature=not signs_certificates,
        key_cert_sign=signs_certificates,
        crl_sign=signs_certificates,
        content_commitment=False,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        encipher_only=False,
        decipher_only=False,
    )


def new_authority(
    key: ec.EllipticCurvePrivateKey, title: str, names: frozenset[Name], now: datetime
) -> x509.Certificate:
    """The workshop's authority: pathlen 0, servers only, critical constraints to `names`.

    The extended key usage keeps it from vouching for mail or programs, which name constraints
    on hosts and addresses do not reach.
    """
    subject = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, title[:64])])
    begins = now - BACK_DATED
    constraints = x509.NameConstraints(permitted_subtrees=_permitted(names), excluded_subtrees=None)
    return (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(subject)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(begins)
        .not_valid_after(begins + AUTHORITY_LIFE)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(_key_usage(signs_certificates=True), critical=True)
        .add_extension(constraints, critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
        .sign(key, hashes.SHA256())
    )


def new_leaf(
    authority: x509.Certificate,
    authority_key: ec.EllipticCurvePrivateKey,
    key: ec.EllipticCurvePublicKey,
    names: frozenset[Name],
    now: datetime,
) -> x509.Certificate:
    """The server's certificate for `names`, 397 days at most and never past its authority."""
    begins = max(now - BACK_DATED, authority.not_valid_before_utc)
    # Both ends of a validity belong to it (RFC 5280, 4.1.2.5), so one second less.
    ends = min(begins + LEAF_LIFE - timedelta(seconds=1), authority.not_valid_after_utc)
    alternatives: list[x509.GeneralName] = [
        x509.DNSName(name) if isinstance(name, str) else x509.IPAddress(name)
        for name in sorted(names, key=str)
    ]
    subject_key = authority.extensions.get_extension_for_class(x509.SubjectKeyIdentifier).value
    subject = [x509.NameAttribute(NameOID.COMMON_NAME, "Bucktail workshop computer")]
    return (
        x509.CertificateBuilder()
        .subject_name(x509.Name(subject))
        .issuer_name(authority.subject)
        .public_key(key)
        .serial_number(x509.random_serial_number())
        .not_valid_before(begins)
        .not_valid_after(ends)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_key_usage(signs_certificates=False), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(x509.SubjectAlternativeName(alternatives), critical=False)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key), critical=False)
        .add_extension(
            x509.AuthorityKeyIdentifier.from_issuer_subject_key_identifier(subject_key),
            critical=False,
        )
        .sign(authority_key, hashes.SHA256())
    )


def names_permitted_by(authority: x509.Certificate) -> frozenset[Name]:
    """The host names and single addresses an authority of this workshop can vouch for."""
    constraints = authority.extensions.get_extension_for_class(x509.NameConstraints).value
    names: set[Name] = set()
    for subtree in constraints.permitted_subtrees or []:
        if isinstance(subtree, x509.IPAddress):
            names.add(ipaddress.ip_network(str(subtree.value)).network_address)
        elif isinstance(subtree, x509.DNSName):
            names.add(subtree.value)
    return frozenset(names)


def names_on(leaf: x509.Certificate) -> frozenset[Name]:
    """The host names and addresses a server certificate is for."""
    alternative = leaf.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    hosts: list[Name] = list(alternative.get_values_for_type(x509.DNSName))
    addresses = [
        ipaddress.ip_address(str(a)) for a in alternative.get_values_for_type(x509.IPAddress)
    ]
    return frozenset([*hosts, *addresses])
