"""The plain-http page on which a phone learns to trust the workshop. It does nothing else.

It is read before there is any trust, so it carries no secret, runs no script, and says that the
fingerprint has to be compared on the phone itself: whoever can change this page on the way can
change the figures on it too.
"""

from __future__ import annotations

import base64
import hashlib
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from html import escape
from importlib import resources
from typing import Any

from bucktail.workshop.authority import Paths, fingerprint, vouched_names
from bucktail.workshop.origin import Origin
from bucktail.workshop.phone_files import CERTIFICATE_NAME, PROFILE_NAME, phone_files
from bucktail.workshop.trust_steps import EVERY_KIND, Steps, kind_of

StartResponse = Callable[[str, list[tuple[str, str]]], Any]
WsgiApp = Callable[[dict[str, Any], StartResponse], Iterable[bytes]]

STYLE = resources.files(__package__).joinpath("trustpage.css").read_text("utf-8")
_STYLE_HASH = base64.b64encode(hashlib.sha256(STYLE.encode("utf-8")).digest()).decode("ascii")
HEADERS = (
    (
        "Content-Security-Policy",
        f"default-src 'none'; style-src 'sha256-{_STYLE_HASH}'; base-uri 'none';"
        " form-action 'none'; frame-ancestors 'none'",
    ),
    ("X-Content-Type-Options", "nosniff"),
    ("X-Frame-Options", "DENY"),
    ("Referrer-Policy", "no-referrer"),
    ("Cross-Origin-Resource-Policy", "same-origin"),
    ("Cache-Control", "no-store"),
    ("Server", "Bucktail"),
)


@dataclass(frozen=True)
class TrustView:
    """What the page shows: the address phones will use, the authority's fingerprint in groups,
    and every name the authority can vouch for."""

    url: str
    fingerprint: str
    names: Sequence[str]


def trust_page(view: TrustView, kind: str = "") -> str:
    """The whole page as HTML. `kind` is the list of steps that is open (see `kind_of`)."""
    groups = "".join(f"<li>{escape(group)}</li>" for group in view.fingerprint.split())
    names = "".join(f"<li><code>{escape(name)}</code></li>" for name in view.names)
    lists = "".join(_steps(steps, view.url, is_open=steps.kind == kind) for steps in EVERY_KIND)
    return f"""<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>Trust this workshop</title>
<style>{STYLE}</style>
</head>
<body>
<main>
<h1>Let this phone trust your workshop</h1>
<p>Once for each phone. After that Bucktail opens from its own icon, with the camera, and
without a network.</p>
<section class="mark" aria-labelledby="mark">
<h2 id="mark">Compare first</h2>
<p>The certificate’s fingerprint (SHA-256):</p>
<ul class="groups" aria-label="Fingerprint, SHA-256">{groups}</ul>
<p>These sixteen groups must stand on the computer’s screen too. If one differs, close this page
and install nothing.</p>
<p>This page is not protected yet, so the phone’s own figures count for more: each list below says
where the phone shows them.</p>
</section>
<h2>Your phone or computer</h2>
{lists}
<h2>What you are agreeing to</h2>
<p>Your workshop computer made a certificate of its own. With it, this phone can tell that
computer from any other. It is good for these names and for nothing else on the internet:</p>
<ul class="names">{names}</ul>
<p>The key behind it stays on the workshop computer. Install it only if the fingerprint matches,
and take it off again when you no longer use Bucktail; the list for your phone ends with how.</p>
</main>
</body>
</html>
"""


def trust_app(paths: Paths, origin: Origin) -> WsgiApp:
    """A WSGI application with the page and the two files, read once; everything else is 404."""
    view = TrustView(origin.url, fingerprint(paths), vouched_names(paths))
    files = phone_files(paths, origin.host)
    downloads = {
        f"/{CERTIFICATE_NAME}": (files.certificate, "application/x-x509-ca-cert"),
        f"/{PROFILE_NAME}": (files.profile, "application/x-apple-aspen-config"),
    }

    def answer(environ: dict[str, Any], start_response: StartResponse) -> Iterable[bytes]:
        path, method = environ.get("PATH_INFO", ""), environ.get("REQUEST_METHOD", "")
        status, extra = "200 OK", []
        if method not in ("GET", "HEAD") or path not in ("/", *downloads):
            status, kind, body = "404 Not Found", "text/plain; charset=utf-8", _NOT_HERE
        elif path == "/":
            page = trust_page(view, kind_of(environ.get("HTTP_USER_AGENT", "")))
            kind, body = "text/html; charset=utf-8", page.encode("utf-8")
        else:
            body, kind = downloads[path]
            if path.endswith(".crt"):  # kept as a file everywhere; a profile must open in place
                extra = [("Content-Disposition", f'attachment; filename="{CERTIFICATE_NAME}"')]
        start_response(
            status,
            [("Content-Type", kind), ("Content-Length", str(len(body))), *extra, *HEADERS],
        )
        return [] if method == "HEAD" else [body]

    return answer


_NOT_HERE = b"There is nothing here. Open the address without anything after the port.\n"


def _steps(steps: Steps, url: str, *, is_open: bool) -> str:
    """One kind of device as a section that opens; `url` is escaped here."""
    fill = {
        "url": escape(url),
        "profile": f"/{PROFILE_NAME}",
        "certificate": f"/{CERTIFICATE_NAME}",
    }
    items = "".join(f"<li>{text.format(**fill)}</li>" for text in steps.do)
    href = steps.download.format(**fill)
    return (
        f"<details{' open' if is_open else ''}><summary>{escape(steps.title)}</summary>"
        f'<a class="get" href="{href}">{escape(steps.button)}</a>'
        f"<ol>{items}</ol>"
        f'<p class="undo"><b>To take it off again:</b> {steps.undo}</p></details>'
    )
