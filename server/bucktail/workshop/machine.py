"""What the network knows about this computer, asked without sending anything to anybody else."""

from __future__ import annotations

import ipaddress
import socket
import threading
from typing import Protocol

SECONDS_FOR_A_NAME = 4.0
# Where a packet might be sent, though none is. The first and the last are reserved for
# documentation (RFC 5737, RFC 3849); the private ones (RFC 1918) show an address on a network
# that has no router. IPv6 comes last, as its home addresses change by themselves.
ASIDE = (
    (socket.AF_INET, "192.0.2.1"),
    (socket.AF_INET, "192.168.255.254"),
    (socket.AF_INET, "10.255.255.254"),
    (socket.AF_INET, "172.31.255.254"),
    (socket.AF_INET6, "2001:db8::1"),
)


class Machine(Protocol):
    """The computer as seen from its own network; tests give their own."""

    def host_name(self) -> str:
        """The name the computer gives itself, possibly with dots."""
        ...

    def look_up(self, name: str) -> frozenset[str]:
        """The addresses that `name` leads to as seen from here; empty when it leads nowhere."""
        ...

    def has_address(self, address: str) -> bool:
        """Whether `address` belongs to this computer."""
        ...

    def lan_address(self) -> str | None:
        """The address other devices at home reach this computer by, or None without a network."""
        ...


class ThisMachine:
    """The computer this program runs on."""

    def host_name(self) -> str:
        """The name the computer gives itself, possibly with dots."""
        return socket.gethostname()

    def look_up(self, name: str) -> frozenset[str]:
        """The addresses of `name`; gives up after a few seconds, as a dead name server would not.

        For a name that ends in .local only the home network is asked.
        """
        found: set[str] = set()

        def ask() -> None:
            try:
                for answer in socket.getaddrinfo(name, None, type=socket.SOCK_STREAM):
                    found.add(str(answer[4][0]).partition("%")[0])
            except (OSError, UnicodeError):
                pass

        asking = threading.Thread(target=ask, daemon=True)
        asking.start()
        asking.join(SECONDS_FOR_A_NAME)
        return frozenset() if asking.is_alive() else frozenset(found)

    def has_address(self, address: str) -> bool:
        """Whether `address` belongs to this computer: only then can a socket be bound to it."""
        try:
            parsed = ipaddress.ip_address(address)
        except ValueError:
            return False
        if parsed.is_unspecified or parsed.is_multicast:
            return False
        family = socket.AF_INET6 if parsed.version == 6 else socket.AF_INET
        try:
            with socket.socket(family, socket.SOCK_DGRAM) as trial:
                trial.bind((address, 0))
        except OSError:
            return False
        return True

    def lan_address(self) -> str | None:
        """The address this computer would send from. Connecting a UDP socket sends nothing."""
        for family, target in ASIDE:
            try:
                with socket.socket(family, socket.SOCK_DGRAM) as trial:
                    trial.connect((target, 9))
                    own = ipaddress.ip_address(trial.getsockname()[0])
            except (OSError, ValueError):
                continue
            if not (own.is_loopback or own.is_link_local or own.is_unspecified):
                return str(own)
        return None
