"""The plain-http page: what it says, what it refuses to say, and that it can do nothing."""

from __future__ import annotations

import hashlib
import plistlib
import re
from datetime import datetime
from html.parser import HTMLParser
from pathlib import Path
from typing import Any
from wsgiref.util import setup_testing_defaults
from wsgiref.validate import validator

import pytest
from cryptography import x509

from bucktail.workshop.authority import Paths, ensure, fingerprint, kept_authority
from bucktail.workshop.origin import Origin
from bucktail.workshop.trust_steps import EVERY_KIND, kind_of
from bucktail.workshop.trustpage import STYLE, TrustView, WsgiApp, trust_app, trust_page

ORIGIN = Origin("bench.local", 8443, 8480, "name")
VIEW = TrustView(ORIGIN.url, " ".join(f"{n:04X}" for n in range(16)), ORIGIN.certificate_names)


@pytest.fixture
def paths(tmp_path: Path, today: datetime) -> Paths:
    return ensure(tmp_path, ORIGIN.certificate_names, today)


@pytest.fixture
def app(paths: Paths) -> WsgiApp:
    return trust_app(paths, ORIGIN)


def ask(app: Any, path: str, method: str = "GET", **more: str) -> tuple[str, dict[str, str], bytes]:
    """One request through the standard library's WSGI checker."""
    environ: dict[str, Any] = {
        "REQUEST_METHOD": method,
        "PATH_INFO": path,
        "SCRIPT_NAME": "",
        "QUERY_STRING": "",
        "SERVER_NAME": "bench.local",
        "SERVER_PORT": "8480",
        "SERVER_PROTOCOL": "HTTP/1.1",
        **more,
    }
    setup_testing_defaults(environ)
    got: list[Any] = []
    answer = validator(app)(environ, lambda status, headers, _=None: got.extend((status, headers)))
    body = b"".join(answer)
    answer.close()
    return got[0], dict(got[1]), body


class Read(HTMLParser):
    """Every tag with its attributes, and the text; fails on tags that do not close in order."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.text, self._open = "", []
        self.feed(page)
        assert self._open == []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        if tag != "meta":
            self._open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self._open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.text += data


def test_the_three_addresses_and_nothing_else(app) -> None:
    assert ask(app, "/")[0] == "200 OK"
    assert ask(app, "/bucktail-ca.crt")[0] == "200 OK"
    assert ask(app, "/bucktail-ca.mobileconfig")[0] == "200 OK"
    for path in ("/ca.key", "/../authority/ca.key", "//", "/index.html", "/api/pair"):
        assert ask(app, path)[0] == "404 Not Found"
    for method in ("POST", "PUT", "DELETE", "OPTIONS"):
        assert ask(app, "/", method)[0] == "404 Not Found"


def test_head_has_the_headers_and_no_body(app) -> None:
    status, headers, body = ask(app, "/", "HEAD")
    assert (status, body) == ("200 OK", b"")
    assert int(headers["Content-Length"]) > 1000


def test_every_answer_has_strict_headers(app) -> None:
    for path in ("/", "/bucktail-ca.crt", "/bucktail-ca.mobileconfig", "/nothing"):
        _, headers, body = ask(app, path)
        policy = headers["Content-Security-Policy"]
        assert policy.startswith("default-src 'none'; style-src 'sha256-")
        assert "unsafe" not in policy
        assert headers["X-Content-Type-Options"] == "nosniff"
        assert headers["Cache-Control"] == "no-store"
        assert headers["Referrer-Policy"] == "no-referrer"
        assert int(headers["Content-Length"]) == len(body)


def test_the_certificate_is_the_der_file_of_the_fingerprint(app, paths) -> None:
    _, headers, body = ask(app, "/bucktail-ca.crt")
    assert headers["Content-Type"] == "application/x-x509-ca-cert"
    assert headers["Content-Disposition"] == 'attachment; filename="bucktail-ca.crt"'
    assert x509.load_der_x509_certificate(body) == kept_authority(paths)
    assert hashlib.sha256(body).hexdigest().upper() == fingerprint(paths).replace(" ", "")


def test_the_profile_holds_the_same_certificate_and_can_be_removed(app, paths) -> None:
    _, headers, body = ask(app, "/bucktail-ca.mobileconfig")
    assert headers["Content-Type"] == "application/x-apple-aspen-config"
    profile = plistlib.loads(body)
    (payload,) = profile["PayloadContent"]
    assert (profile["PayloadType"], profile["PayloadVersion"]) == ("Configuration", 1)
    assert payload["PayloadType"] == "com.apple.security.root"
    assert x509.load_der_x509_certificate(payload["PayloadContent"]) == kept_authority(paths)
    assert profile["PayloadRemovalDisallowed"] is False
    assert profile["PayloadUUID"] != payload["PayloadUUID"]


def test_the_profile_is_the_same_every_time_and_new_for_a_new_authority(
    app, tmp_path, today
) -> None:
    again = ask(app, "/bucktail-ca.mobileconfig")[2]
    assert again == ask(app, "/bucktail-ca.mobileconfig")[2]
    other = trust_app(ensure(tmp_path / "other", ORIGIN.certificate_names, today), ORIGIN)
    one, two = plistlib.loads(again), plistlib.loads(ask(other, "/bucktail-ca.mobileconfig")[2])
    assert one["PayloadIdentifier"] != two["PayloadIdentifier"]
    assert one["PayloadUUID"] != two["PayloadUUID"]


def test_the_page_is_whole_and_has_no_script(app) -> None:
    page = Read(ask(app, "/")[2].decode())
    names = {tag for tag, _ in page.tags}
    assert not names & {"script", "img", "iframe", "form", "input", "link", "object", "base"}
    assert [key for _, attrs in page.tags for key in attrs if key.startswith("on")] == []
    assert "style" not in {key for _, attrs in page.tags for key in attrs}


def test_the_page_says_what_there_is_to_compare_and_to_agree_to(app, paths) -> None:
    text = Read(ask(app, "/")[2].decode()).text
    assert fingerprint(paths).replace(" ", "") in text
    assert "install nothing" in text
    for name in ORIGIN.certificate_names:
        assert name in text
    assert text.count("To take it off again") == len(EVERY_KIND)
    assert text.count("https://bench.local:8443") >= len(EVERY_KIND)
    for steps in ("Certificate Trust Settings", "Add to Home Screen", "Install a certificate"):
        assert steps in text


def test_every_list_tells_where_to_compare_on_the_device_itself() -> None:
    for steps in EVERY_KIND:
        compare = [n for n, text in enumerate(steps.do) if "fingerprint" in text]
        trusted = [n for n, text in enumerate(steps.do) if "{url}" in text]
        assert len(compare) == 1, steps.title
        assert compare[0] < trusted[0], steps.title


def test_buttons_lead_to_the_files(app) -> None:
    page = Read(ask(app, "/")[2].decode())
    hrefs = [attrs["href"] for tag, attrs in page.tags if attrs.get("class") == "get"]
    assert hrefs == ["/bucktail-ca.mobileconfig"] + ["/bucktail-ca.crt"] * 5


@pytest.mark.parametrize("field", ["url", "fingerprint", "names"])
def test_nothing_gets_in_unescaped(field) -> None:
    bad = "\"><script>alert('x')</script>{0}&"
    parts: dict[str, Any] = {**vars(VIEW), field: [bad] if field == "names" else bad}
    page = trust_page(TrustView(**parts))
    assert "<script" not in page
    assert "&lt;script&gt;" in page
    assert ("script", {}) not in Read(page).tags


@pytest.mark.parametrize(
    ("says", "kind"),
    [
        ("Mozilla/5.0 (iPhone; CPU iPhone OS 18_0 like Mac OS X) Safari/604.1", "iphone"),
        ("Mozilla/5.0 (iPad; CPU OS 16_0 like Mac OS X)", "iphone"),
        ("Mozilla/5.0 (Linux; Android 15) Chrome/140.0 Mobile", "android"),
        ("Mozilla/5.0 (Windows NT 10.0; Win64) Chrome/140.0", "windows"),
        ("Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) Safari/605", "mac"),
        ("Mozilla/5.0 (X11; Linux x86_64) Chrome/140.0", "linux"),
        ("Mozilla/5.0 (X11; Linux x86_64; rv:140.0) Gecko Firefox/140.0", "firefox"),
        ("", ""),
        ("<script>", ""),
    ],
)
def test_the_list_for_the_asking_device_is_open(app, says, kind) -> None:
    assert kind_of(says) == kind
    page = Read(ask(app, "/", HTTP_USER_AGENT=says)[2].decode())
    opened = ["open" in attrs for tag, attrs in page.tags if tag == "details"]
    assert opened == [steps.kind == kind for steps in EVERY_KIND]


def relative_luminance(colour: str) -> float:
    """WCAG 2.2, definition of relative luminance; `colour` is #rrggbb."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, two: str) -> float:
    light, dark = sorted((relative_luminance(one), relative_luminance(two)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_text_is_seven_to_one_in_both_schemes() -> None:
    """WCAG 2.2, success criterion 1.4.6, for every pair of colours that carries text."""
    schemes = [dict(re.findall(r"--(\w+): (#\w{6});", part)) for part in STYLE.split("@media")]
    assert len(schemes) == 2
    for scheme in schemes:
        for text, ground in (("ink", "ground"), ("quiet", "ground"), ("bare", "dye")):
            assert contrast(scheme[text], scheme[ground]) >= 7, (text, ground)
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
