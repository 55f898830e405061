"""Takes the README's pictures of the real app. Behind scripts/pictures.

A demo workshop is made, served on loopback and opened in Chromium as a phone is. The pictures go
to web/pictures, which the README shows.
"""

from __future__ import annotations

import sys
import tempfile
import time
from pathlib import Path

from in_venv import go_inside
from prepare import ROOT

FOLDER = ROOT / "web" / "pictures"
PHONE = {"width": 390, "height": 844}
SETTLE_MS = 400

# what a picture is for, where it stands below the question
BELOW = {"offcuts": "ol.serves", "reckoner": "figure.shop-drawing"}


def paths(folder: Path) -> dict[str, str]:
    """Name of a picture -> the path of the screen it shows."""
    from bucktail.storage.cards import states
    from bucktail.storage.opening import open_session

    with open_session(folder) as session:
        parts = {state["number"]: subject for subject, state in states(session, "part")}
        places = {state["name"]: subject for subject, state in states(session, "place")}
    return {
        "bench": "/",
        "part": f"/part/{parts['TP-01-R']}",
        "parts": "/parts",
        "offcuts": "/offcuts?thickness=.032&width=4&height=2",
        "place": f"/place/{places['Shelf 2']}",
        "reckoner": "/reckoner/rivet?stack=.032;.025;.040&diameter=1/8&was=.032;.040",
    }


def take(folder: Path) -> list[Path]:
    """Make the demo in `folder`, open every screen, and keep its picture."""
    from playwright.sync_api import sync_playwright

    from bucktail.workshop.demo.build import fill
    from running.phone import BenchPhone
    from running.workshop import Workshop

    fill(folder / "demo", int(time.time() * 1000))
    workshop = Workshop(folder / "demo")
    workshop.start()
    taken = []
    try:
        with sync_playwright() as playwright:
            phone = BenchPhone(playwright, workshop, folder / "phone")
            page = phone.pair("Robin Marsh", "bench phone")
            phone.settled()
            for name, path in paths(workshop.folder).items():
                page.goto(workshop.url + path)
                page.locator("main h1").wait_for()
                page.wait_for_timeout(SETTLE_MS)
                if name in BELOW:
                    page.locator(BELOW[name]).first.evaluate(
                        "(found) => found.scrollIntoView({block: 'center'})"
                    )
                taken.append(FOLDER / f"{name}.png")
                page.screenshot(path=str(taken[-1]))
            phone.close()
    finally:
        workshop.stop()
    return taken


def main() -> int:
    """Take all pictures into web/pictures."""
    sys.path.insert(0, str(ROOT / "tests"))
    FOLDER.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as folder:
        for picture in take(Path(folder)):
            print(f"took {picture.relative_to(ROOT)}")
    return 0


if __name__ == "__main__":
    go_inside()
    sys.exit(main())
