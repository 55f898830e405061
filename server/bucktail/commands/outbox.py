"""`bucktail outbox`: brings in what a phone could not send, and shows what was set aside."""

from __future__ import annotations

import argparse
import json
import sys
from datetime import datetime
from pathlib import Path

from bucktail.commands.folders import add_which_workshop, existing
from bucktail.commands.pair import clock
from bucktail.commands.paragraphs import Paragraphs
from bucktail.storage.eventlog import OtherWorkshop
from bucktail.storage.opening import open_workshop
from bucktail.storage.pairing_store import paired
from bucktail.storage.photos import NoRoomForPhoto
from bucktail.storage.set_aside import Aside, all_set_aside
from bucktail.workshop.outbox_file import BroughtIn, FileRefused, bring_in

IMPORT = """\
Brings in a file that a phone saved of what it could not send: on the phone “This workshop”, then
“Save what is not sent as a file”. The file may come from a phone that was removed, or from one that
knew this workshop under another address. Bringing the same file in twice changes nothing, and the
phone may still send the same entries itself.

A file of another workshop is refused. An entry that cannot be read is set aside and reported, and
the others are taken up."""
LIST = """\
Shows the entries that were sent to this workshop and could not be taken up, with the reason. Each
is kept exactly as it arrived."""


def add_parser(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """bucktail outbox import | list."""
    parser = subparsers.add_parser(
        "outbox",
        help="bring in what a phone could not send; list what was set aside",
        description="Brings in what a phone could not send, and shows what was set aside.",
    )
    actions = parser.add_subparsers(dest="action", required=True, metavar="ACTION")
    bring = actions.add_parser(
        "import",
        help="bring in a file that a phone saved",
        description=IMPORT,
        formatter_class=Paragraphs,
    )
    bring.add_argument("file", type=Path, metavar="FILE", help="the file from the phone")
    add_which_workshop(bring)
    bring.set_defaults(run=run_import)
    show = actions.add_parser(
        "list",
        help="show what was set aside, with the reasons",
        description=LIST,
        formatter_class=Paragraphs,
    )
    add_which_workshop(show)
    show.set_defaults(run=run_list)


def run_import(options: argparse.Namespace) -> int:
    """Take a file up and say what became of it; 1 where something of it was not taken up."""
    folder = existing(options)
    try:
        data = options.file.read_bytes()
    except OSError as problem:
        return _refuse(f"{options.file} cannot be read ({problem.strerror}). Check its name.")
    try:
        with open_workshop(folder) as session:
            done = bring_in(session, folder, data, clock())
    except FileRefused as problem:
        return _refuse(f"{options.file}: {problem}")
    except OtherWorkshop:
        return _refuse(
            f"{options.file} belongs to another workshop than the one in {folder}. Nothing was"
            " taken up. Name its own workshop's folder with “--workshop DIR”."
        )
    except NoRoomForPhoto:
        return _refuse(
            f"A photo of the file cannot be written to {folder}. Look whether the disk is full,"
            " make room, and bring the file in again. Nothing was taken up."
        )
    print("\n".join(told(done)))
    return 1 if done.aside or done.photos_aside or done.missing else 0


def _refuse(sentence: str) -> int:
    print(sentence, file=sys.stderr)
    return 1


def told(done: BroughtIn) -> list[str]:
    """What became of a file, in lines."""
    lines = [
        f"{counted(done.stored)} taken up, {done.known} known already, {len(done.aside)} set aside."
    ]
    lines += [f"  line {number}: {reason}" for number, reason in done.aside]
    if done.photos or done.photos_aside:
        lines.append(f"{_photos(done.photos)} kept, {len(done.photos_aside)} not.")
        lines += [f"  line {number}: {reason}" for number, reason in done.photos_aside]
    if done.missing:
        lines.append(
            f"The file ends too early: {counted(done.missing)} that it promises not in it."
            " Save it again on the phone and bring that in too."
        )
    return lines


def counted(number: int) -> str:
    """So many entries, in words."""
    return f"{number} {'entry' if number == 1 else 'entries'}"


def _photos(number: int) -> str:
    return f"{number} {'photo' if number == 1 else 'photos'}"


def run_list(options: argparse.Namespace) -> int:
    """Show what was set aside."""
    with open_workshop(existing(options)) as session:
        found = all_set_aside(session)
        names = {device.id: device.name for device in paired(session)}
    if not found:
        print("Nothing is set aside: every entry that arrived is in the record.")
        return 0
    print(f"{counted(len(found))} set aside, kept as they arrived:")
    for one in found:
        print("\n".join(["", *_shown(one, names)]))
    return 0


def _shown(one: Aside, names: dict[str, str]) -> list[str]:
    """When, from where, what (as far as it can be read) and why."""
    when = datetime.fromtimestamp(one.received_at / 1000)
    kind, by = "not readable", one.device
    try:
        read = json.loads(one.raw)
        kind, by = f"{read['kind']} {read['id']}", str(read["device"])
    except (ValueError, TypeError, KeyError):
        pass
    sender = names.get(by or "", "a device that is not known here")
    return [
        f"{when:%Y-%m-%d %H:%M} from {sender}: {kind}",
        f"    because {one.reason}",
    ]
