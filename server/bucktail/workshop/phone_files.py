"""The authority's certificate in the two forms that phones and desktops install."""

from __future__ import annotations

import hashlib
import plistlib
import uuid
from dataclasses import dataclass

from bucktail.workshop.authority import Paths, authority_der

CERTIFICATE_NAME = "bucktail-ca.crt"
PROFILE_NAME = "bucktail-ca.mobileconfig"


@dataclass(frozen=True)
class PhoneFiles:
    """`certificate` is DER, `profile` an Apple configuration profile that holds the same bytes."""

    certificate: bytes
    profile: bytes


def phone_files(paths: Paths, host: str) -> PhoneFiles:
    """Both files for the workshop whose phones know it as `host`."""
    certificate = authority_der(paths)
    return PhoneFiles(certificate, apple_profile(certificate, host))


def apple_profile(certificate: bytes, host: str) -> bytes:
    """A configuration profile with one root certificate (payload com.apple.security.root).

    The identifiers come from the certificate, so installing the same one twice replaces it and
    a new authority stands beside the old one until that is removed. Source of the keys: Apple,
    "Configuration Profile Reference", Certificate Payload (from memory).
    """
    digest = hashlib.sha256(certificate).hexdigest()
    identifier = f"bucktail.workshop.{digest[:16]}"

    def same_every_time(part: str) -> str:
        return str(uuid.uuid5(uuid.NAMESPACE_OID, f"{digest}/{part}")).upper()

    payload = {
        "PayloadType": "com.apple.security.root",
        "PayloadVersion": 1,
        "PayloadIdentifier": f"{identifier}.root",
        "PayloadUUID": same_every_time("root"),
        "PayloadDisplayName": f"Bucktail workshop {host}",
        "PayloadCertificateFileName": CERTIFICATE_NAME,
        "PayloadContent": certificate,
    }
    profile = {
        "PayloadType": "Configuration",
        "PayloadVersion": 1,
        "PayloadIdentifier": identifier,
        "PayloadUUID": same_every_time("profile"),
        "PayloadDisplayName": f"Bucktail workshop {host}",
        "PayloadDescription": (
            "Lets this device check that it is talking to your own workshop computer."
            " It can vouch for no other address."
        ),
        "PayloadRemovalDisallowed": False,
        "PayloadContent": [payload],
    }
    return plistlib.dumps(profile)
