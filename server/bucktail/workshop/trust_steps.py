"""What to press on each kind of device to trust the workshop, and how to undo it.

Menu names are those of current releases, from memory; makers move them, so each list also says
what to look for. The texts are HTML of our own: `{url}`, `{profile}`, `{certificate}` are filled
in by the page, escaped.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Steps:
    """One kind of device. `download` names the file that its button fetches."""

    kind: str
    title: str
    button: str
    download: str
    do: tuple[str, ...]
    undo: str


PAIR_INSIDE = (
    "Open Bucktail <b>from its icon</b>. Pair it there with the code on the computer’s screen:"
    " what is paired in a browser tab does not count for the icon."
)

IPHONE = Steps(
    kind="iphone",
    title="iPhone or iPad",
    button="Get the profile",
    download="{profile}",
    do=(
        "Read this page in <b>Safari</b>. Press the button above, then <b>Allow</b>.",
        "Open <b>Settings › General › VPN &amp; Device Management</b> and the profile"
        " “Bucktail workshop”.",
        "Before you install: <b>More Details</b>, then the certificate. Its SHA-256 fingerprint"
        " must be the one on the computer’s screen. If it is not, press <b>Remove Downloaded"
        " Profile</b> and stop.",
        "<b>Install</b>.",
        "<b>Settings › General › About › Certificate Trust Settings</b>: turn on the switch for"
        " Bucktail. Without it nothing works, and it is easily missed.",
        'In Safari open <a href="{url}">{url}</a>, then <b>Share › Add to Home Screen</b>.',
        PAIR_INSIDE,
    ),
    undo="Settings › General › VPN &amp; Device Management › Bucktail workshop › Remove Profile.",
)

ANDROID = Steps(
    kind="android",
    title="Android",
    button="Get the certificate",
    download="{certificate}",
    do=(
        "Press the button above. The file goes to Downloads. If the phone offers to open it"
        " at once, say no.",
        "Open <b>Settings › Security › Encryption &amp; credentials › Install a certificate › CA"
        " certificate</b>. (Named differently? Search the settings for “CA certificate”.) Press"
        " <b>Install anyway</b> and choose bucktail-ca.crt.",
        "<b>Encryption &amp; credentials › Trusted credentials › User</b>, then Bucktail: its"
        " SHA-256 fingerprint must be the one on the computer’s screen. If it is not, press"
        " <b>Remove</b> at once.",
        'In Chrome open <a href="{url}">{url}</a>, then the menu <b>⋮ › Add to home screen ›'
        " Install</b>.",
        PAIR_INSIDE,
        "The phone may now say that the network could be watched. It says so of every certificate"
        " that a person adds; this one reaches no further than the names below.",
    ),
    undo="Settings › Security › Encryption &amp; credentials › Trusted credentials › User ›"
    " Bucktail › Remove.",
)

WINDOWS = Steps(
    kind="windows",
    title="Windows, with Chrome",
    button="Get the certificate",
    download="{certificate}",
    do=(
        "Press the button above.",
        "In a command window in your Downloads folder: <code>certutil -hashfile bucktail-ca.crt"
        " SHA256</code>. It must print the fingerprint on the workshop computer’s screen. If it"
        " does not, delete the file and stop.",
        "Open the file: <b>Install Certificate › Current User › Place all certificates in the"
        " following store › Trusted Root Certification Authorities</b>.",
        'Start Chrome again, open <a href="{url}">{url}</a>, and press <b>Install</b> in the'
        " address bar.",
        PAIR_INSIDE,
    ),
    undo="Run <code>certmgr.msc</code> › Trusted Root Certification Authorities › Certificates ›"
    " Bucktail › Delete.",
)

MAC = Steps(
    kind="mac",
    title="Mac, with Chrome or Safari",
    button="Get the certificate",
    download="{certificate}",
    do=(
        "Press the button above.",
        "In Terminal: <code>shasum -a 256 ~/Downloads/bucktail-ca.crt</code>. It must print the"
        " fingerprint on the workshop computer’s screen. If it does not, delete the file and stop.",
        "Open the file, so that Keychain Access takes it into <b>login</b>. There open Bucktail ›"
        " <b>Trust</b> and choose <b>Always Trust</b>.",
        'Open <a href="{url}">{url}</a>. Chrome: <b>Install</b> in the address bar. Safari:'
        " <b>File › Add to Dock</b>.",
        PAIR_INSIDE,
    ),
    undo="Keychain Access › login › Certificates › Bucktail › Delete.",
)

LINUX = Steps(
    kind="linux",
    title="Linux, with Chrome or Chromium",
    button="Get the certificate",
    download="{certificate}",
    do=(
        "Press the button above.",
        "In a terminal: <code>sha256sum ~/Downloads/bucktail-ca.crt</code>. It must print the"
        " fingerprint on the workshop computer’s screen. If it does not, delete the file and stop.",
        "<b>Settings › Privacy and security › Security › Manage certificates</b>, under those"
        " installed by you: <b>Trusted certificates › Import</b>, for websites.",
        'Open <a href="{url}">{url}</a> and press <b>Install</b> in the address bar.',
        PAIR_INSIDE,
    ),
    undo="The same place in the settings › Bucktail › Delete.",
)

FIREFOX = Steps(
    kind="firefox",
    title="Firefox on a computer",
    button="Get the certificate",
    download="{certificate}",
    do=(
        "Press the button above and save the file.",
        "<b>Settings › Privacy &amp; Security › Certificates › View Certificates › Authorities ›"
        " Import</b>.",
        "Press <b>View</b> before you agree: its SHA-256 fingerprint must be the one on the"
        " workshop computer’s screen. If it is not, cancel and stop.",
        "Tick <b>Trust this CA to identify websites</b>.",
        'Open <a href="{url}">{url}</a> and pair there. Keep a bookmark: Firefox on a computer may'
        " not offer to install it.",
    ),
    undo="Settings › Privacy &amp; Security › View Certificates › Authorities › Bucktail ›"
    " Delete or Distrust.",
)

EVERY_KIND = (IPHONE, ANDROID, WINDOWS, MAC, LINUX, FIREFOX)


def kind_of(user_agent: str) -> str:
    """Which list to open, from what the browser says it is; "" when that tells nothing.

    An iPad may call itself a Mac; its list then stands first, closed.
    """
    said = user_agent.lower()
    if "iphone" in said or "ipad" in said:
        return IPHONE.kind
    if "android" in said:
        return ANDROID.kind
    if "firefox" in said:
        return FIREFOX.kind
    for mark, steps in (("windows", WINDOWS), ("macintosh", MAC), ("linux", LINUX)):
        if mark in said:
            return steps.kind
    return ""
