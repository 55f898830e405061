"""The two fixed ports of a workshop, and what to say when one of them is taken."""

from __future__ import annotations

import errno
import os
import socket
import sys
from dataclasses import dataclass
from pathlib import Path

from bucktail.workshop.errors import PortError


@dataclass(frozen=True)
class Ports:
    """`https` serves the workshop, `http` only the page on which a phone learns to trust it."""

    https: int
    http: int


OWN = Ports(https=8443, http=8480)
DEMO = Ports(https=8543, http=8580)


def family_of(host: str) -> socket.AddressFamily:
    """IPv6 for an address with colons, IPv4 for everything else."""
    return socket.AF_INET6 if ":" in host else socket.AF_INET


def require_free_port(host: str, port: int) -> None:
    """Raise PortError, saying who holds `port` on `host`, unless a server can listen there.

    A port left by a server that just stopped counts as free. The port is never changed by
    itself: it is part of the address under which the phones keep their work.
    """
    with socket.socket(family_of(host), socket.SOCK_STREAM) as trial:
        if sys.platform == "win32":
            trial.setsockopt(socket.SOL_SOCKET, socket.SO_EXCLUSIVEADDRUSE, 1)
        else:
            trial.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            trial.bind((host, port))
            trial.listen(1)
        except (OSError, OverflowError) as error:
            raise PortError(_sentence(host, port, error)) from error


def in_use(port: int) -> bool:
    """Whether some program of this computer listens on `port`, on any of its addresses."""
    try:
        require_free_port("0.0.0.0", port)
    except PortError:
        return True
    return False


def _sentence(host: str, port: int, error: Exception) -> str:
    number = getattr(error, "errno", None)
    if number == errno.EADDRINUSE:
        return (
            f"Port {port} is taken by {_holder(port)}. If that is Bucktail already running, use"
            f" it as it is. If not, stop that program and start again. {_how_to_look(port)} The"
            " port is not changed by itself, because your phones keep their work under it."
        )
    if number in (errno.EACCES, errno.EPERM):
        return (
            f"This computer does not let you open port {port}. Use the usual ports, or ask"
            " whoever looks after the computer."
        )
    if number in (errno.EADDRNOTAVAIL, socket.EAI_NONAME):
        return f"{host} is not an address of this computer. Leave the address out to use them all."
    return f"Port {port} cannot be opened on {host}: {error}. Choose a port from 1024 to 65535."


def _how_to_look(port: int) -> str:
    if sys.platform == "win32":
        return f"“netstat -ano | findstr :{port}” shows which program it is."
    if sys.platform == "darwin":
        return f"“lsof -nP -iTCP:{port} -sTCP:LISTEN” shows which program it is."
    return f"“ss -ltnp sport = :{port}” shows which program it is."


def _holder(port: int) -> str:
    """Who listens on `port`, in words, as far as this computer lets us see."""
    try:
        wanted = {f"socket:[{inode}]" for inode in _listening_inodes(port)}
        for handle in Path("/proc").glob("[0-9]*/fd/*") if wanted else ():
            try:
                held = os.readlink(handle)
            except OSError:
                continue
            if held in wanted:
                program = (handle.parents[1] / "comm").read_text().strip()
                return f"the program “{program}” (process {handle.parents[1].name})"
    except OSError:
        pass
    return "another program on this computer"


def _listening_inodes(port: int) -> set[str]:
    """Inodes of the sockets that listen on `port`, from Linux's table (proc(5), /proc/net/tcp)."""
    listening, found = "0A", set()
    for table in (Path("/proc/net/tcp"), Path("/proc/net/tcp6")):
        if not table.exists():
            continue
        for line in table.read_text().splitlines()[1:]:
            columns = line.split()
            if columns[3] == listening and int(columns[1].rsplit(":", 1)[1], 16) == port:
                found.add(columns[9])
    return found
