"""Looking at screens: screenshots in both sizes, and what axe finds serious in both themes."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from playwright.sync_api import Page

ROOT = Path(__file__).resolve().parents[2]
AXE = (ROOT / "web" / "node_modules" / "axe-core" / "axe.min.js").read_text
SIZES = {"phone": {"width": 390, "height": 844}, "desk": {"width": 1280, "height": 800}}
THEMES = ("light", "evening")
PICTURES = ROOT / "tests" / "pictures"  # git-ignored: looked at, not committed

RUN_AXE = """async () => {
  const found = await axe.run(document, { resultTypes: ['violations'] });
  return JSON.stringify(found.violations
    .filter((one) => one.impact === 'serious' || one.impact === 'critical')
    .map((one) => (
      { id: one.id, help: one.help, at: one.nodes.map((n) => n.html.slice(0, 200)) }
    )));
}"""

SMALL_TARGETS = """() => {
  const small = [];
  for (const one of document.querySelectorAll('a, button, input, select, textarea, summary')) {
    if (one.closest('label') && /checkbox|radio/.test(one.type)) continue;
    // a link in running text
    if (one.tagName === 'A' && one.parentElement.tagName === 'P') continue;
    const box = one.getBoundingClientRect();
    if (box.width === 0 || box.height === 0) continue;
    if (one.classList.contains('out-of-sight')) continue;
    if (box.width < 47.5 || box.height < 47.5)
      small.push(`${one.outerHTML.slice(0, 120)} ${box.width} x ${box.height}`);
  }
  return small;
}"""


def use_theme(page: Page, theme: str) -> None:
    """Show the page in a theme, as the setting does."""
    page.evaluate("(theme) => { document.documentElement.dataset.theme = theme }", theme)


def serious(page: Page) -> list[dict[str, Any]]:
    """What axe finds serious or critical on the page."""
    page.evaluate(AXE())
    found: list[dict[str, Any]] = json.loads(page.evaluate(RUN_AXE))
    return found


def small_targets(page: Page) -> list[str]:
    """Controls under 48 px; links inside a sentence are left out (WCAG 2.2, 2.5.8)."""
    small: list[str] = page.evaluate(SMALL_TARGETS)
    return small


def overflow(page: Page) -> bool:
    """True where the page is wider than the screen."""
    wide: bool = page.evaluate("document.documentElement.scrollWidth > innerWidth")
    return wide


def picture(page: Page, name: str) -> None:
    """Keep a screenshot for a person to look at."""
    PICTURES.mkdir(parents=True, exist_ok=True)
    page.screenshot(path=str(PICTURES / f"{name}.png"))
