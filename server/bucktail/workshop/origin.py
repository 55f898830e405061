"""The one address under which the phones know the workshop, chosen once and then kept.

A browser keeps the work of a page under the page's origin (scheme, host and port, RFC 6454). If
the host or the port changed, a phone would open an empty Bucktail and the work it had not sent
yet would stay behind under the old address. So the address is chosen at set-up, remembered in
`origin.json` in the workshop folder, and changed only when the person asks for it by `move`.
"""

from __future__ import annotations

import ipaddress
import json
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Literal

from bucktail.workshop.certificates import HOST_NAME
from bucktail.workshop.errors import OriginError
from bucktail.workshop.kept_file import READABLE, write_whole
from bucktail.workshop.machine import Machine
from bucktail.workshop.ports import Ports

FILE_NAME = "origin.json"
MOVE = "bucktail setup --move-to"
HERE = ("localhost", "127.0.0.1", "::1")
How = Literal["name", "given", "address"]


@dataclass(frozen=True)
class Origin:
    """Where the workshop lives. `how` says where `host` came from: the computer's own name
    (`name`), the person (`given`), or today's address on the home network (`address`)."""

    host: str
    https_port: int
    http_port: int
    how: How

    @property
    def url(self) -> str:
        """The address the phones keep, without a slash at the end."""
        return f"https://{in_url(self.host)}:{self.https_port}"

    @property
    def trust_url(self) -> str:
        """The plain address of the page on which a phone learns to trust this workshop."""
        return f"http://{in_url(self.host)}:{self.http_port}/"

    @property
    def certificate_names(self) -> tuple[str, ...]:
        """What the certificates are for: the host, and this computer as seen from itself.

        Not today's address when the host is a name: a phone that opened it would get a second,
        empty Bucktail there.
        """
        return (self.host, *(name for name in HERE if name != self.host))


@dataclass(frozen=True)
class Settled:
    """The origin to serve under, and sentences the person should read before using it."""

    origin: Origin
    notes: tuple[str, ...]


def in_url(host: str) -> str:
    """A host as a URL writes it: an IPv6 address stands in brackets (RFC 3986, 3.2.2)."""
    return f"[{host}]" if ":" in host else host


def canonical_host(text: str) -> str:
    """A host name or IP address as it will be remembered. Raises OriginError for anything else."""
    host = text.strip().rstrip(".").lower().removeprefix("[").removesuffix("]")
    if "://" in host or "/" in host:
        raise OriginError(
            f"“{text}” is a whole address. Give only the name, such as “bench.local”."
        )
    try:
        address = ipaddress.ip_address(host)
    except ValueError:
        if ":" in host:
            raise OriginError(f"“{text}” holds a port. Give only the name or address.") from None
        if not HOST_NAME.fullmatch(host):
            raise OriginError(
                f"“{text}” is neither a host name nor an address. Letters a to z, digits and"
                " hyphens in parts joined by dots, such as “bench.local”, or an address such as"
                " 192.168.1.20."
            ) from None
        return host
    if address.is_unspecified or address.is_multicast or address.is_link_local or "%" in host:
        raise OriginError(
            f"No phone can open {host}. Give the address that your router shows for this computer."
        )
    return str(address)


def remembered(folder: Path) -> Origin | None:
    """The origin kept in the workshop folder, None before set-up. OriginError when damaged."""
    path = folder / FILE_NAME
    try:
        kept = json.loads(path.read_text("utf-8"))
        if kept["how"] not in ("name", "given", "address"):
            raise ValueError(kept["how"])
        https_port, http_port = int(kept["https_port"]), int(kept["http_port"])
        return Origin(canonical_host(kept["host"]), https_port, http_port, kept["how"])
    except FileNotFoundError:
        return None
    except (OSError, ValueError, KeyError, TypeError, AttributeError, OriginError) as error:
        raise OriginError(
            f"{path} cannot be read, so the address your phones know is not known here. Put the"
            f" file back from a copy of the workshop folder, or run “{MOVE} NAME” with the name"
            " that stands in the address on a phone."
        ) from error


def settle(folder: Path, ports: Ports, machine: Machine, given: str | None = None) -> Settled:
    """The origin to serve under: the remembered one, or at the first start a new one.

    At the first start `given` wins if there is one, then `<host name>.local` if a look-up leads
    to this computer, then its address on the home network. Later starts keep what is remembered
    and say in `notes` when it no longer leads here. Raises OriginError with a sentence when there
    is no usable address, or when `given` or `ports` differ from what the phones know.
    """
    kept = remembered(folder)
    if kept is None:
        origin = _chosen(ports, machine, given)
        _remember(folder, origin)
    else:
        _check_unchanged(kept, ports, given)
        origin = kept
    return Settled(origin, tuple(_notes(origin, machine, first=kept is None)))


def move(folder: Path, ports: Ports, machine: Machine, host: str) -> Settled:
    """Change the origin because the person asked for it; every phone starts afresh there."""
    origin = Origin(canonical_host(host), ports.https, ports.http, "given")
    _remember(folder, origin)
    return Settled(origin, tuple(_notes(origin, machine, first=True)))


def _remember(folder: Path, origin: Origin) -> None:
    text = json.dumps(asdict(origin), indent=2, sort_keys=True) + "\n"
    try:
        write_whole(folder / FILE_NAME, text.encode("utf-8"), READABLE)
    except OSError as error:
        raise OriginError(
            f"The workshop's address cannot be written to {folder} ({error.strerror}). Check that"
            " the folder belongs to you and the disk is not full."
        ) from error


def _chosen(ports: Ports, machine: Machine, given: str | None) -> Origin:
    if given is not None:
        return Origin(canonical_host(given), ports.https, ports.http, "given")
    name = _own_local_name(machine)
    if name is not None and _leads_here(name, machine):
        return Origin(name, ports.https, ports.http, "name")
    address = machine.lan_address()
    if address is None:
        raise OriginError(
            "This computer is on no network, so a phone could not find it. Connect it to your home"
            " network and start again, or give the name it will have there with “--host NAME”."
        )
    return Origin(address, ports.https, ports.http, "address")


def _own_local_name(machine: Machine) -> str | None:
    """`<first part of the host name>.local`, the form of RFC 6762, section 3; None if unusable."""
    label = machine.host_name().strip().lower().partition(".")[0]
    if label in ("", "localhost") or not HOST_NAME.fullmatch(label):
        return None
    return f"{label}.local"


def _leads_here(host: str, machine: Machine) -> bool:
    """Whether other devices at home that use `host` would reach this computer.

    An answer that is only the computer itself (127.0.0.1) proves nothing about the others.
    """
    found = {host} if _is_address(host) else machine.look_up(host)
    reached = [address for address in found if not ipaddress.ip_address(address).is_loopback]
    return any(machine.has_address(address) for address in reached)


def _is_address(host: str) -> bool:
    try:
        ipaddress.ip_address(host)
    except ValueError:
        return False
    return True


def _check_unchanged(kept: Origin, ports: Ports, given: str | None) -> None:
    if given is not None and canonical_host(given) != kept.host:
        raise OriginError(
            f"Your phones know this workshop as {kept.host}, not {canonical_host(given)}, and keep"
            " their work under that address. Start without “--host” to go on. To change it, first"
            f" send everything from each phone, then run “{MOVE} {canonical_host(given)}” and set"
            " each phone up again."
        )
    if (kept.https_port, kept.http_port) != (ports.https, ports.http):
        raise OriginError(
            f"Your phones know this workshop on ports {kept.https_port} and {kept.http_port}, not"
            f" {ports.https} and {ports.http}. Start it with the ports it had."
        )


def _notes(origin: Origin, machine: Machine, *, first: bool) -> list[str]:
    host = origin.host
    if host in HERE:
        return [f"Only this computer itself can open {host}; no phone can."]
    notes = []
    if origin.how == "address" or _is_address(host):
        if first:
            notes.append(
                f"Your phones will know this workshop by the number {host}. In your router, reserve"
                " that address for this computer (often called a DHCP reservation): without it the"
                " number can change and the phones lose their way."
            )
        if not machine.has_address(host):
            notes.append(_gone_address(host, machine))
    elif not _leads_here(host, machine):
        notes.append(
            f"The name {host} does not lead to this computer at the moment, so phones may not find"
            f" it; they keep their work meanwhile. Check that the computer is on the home network"
            f" and still called {host.partition('.')[0]}. The address stays {origin.url}."
        )
    return notes


def _gone_address(host: str, machine: Machine) -> str:
    today = machine.lan_address()
    now_at = f" It has {today} now." if today else ""
    return (
        f"This computer no longer has the address {host} that your phones know.{now_at} In your"
        f" router, reserve {host} for this computer, then reconnect it to the network. Until then"
        " the phones cannot reach it, but they keep their work."
    )
