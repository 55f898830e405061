"""Entries that wait on a phone, put where the app puts them, many at a time."""

from __future__ import annotations

import json
import uuid
from collections.abc import Sequence
from typing import Any

from playwright.sync_api import Page

from bucktail.storage.ids import uuid7
from running.workshop import now_ms

ADD = """async ([entries]) => {
  const name = (await indexedDB.databases()).map((one) => one.name)
    .find((one) => /^bucktail-[0-9a-f-]{36}$/.test(one));
  const db = await new Promise((done, failed) => {
    const asked = indexedDB.open(name);
    asked.onsuccess = () => done(asked.result);
    asked.onerror = () => failed(asked.error);
  });
  const had = (request) => new Promise((done, failed) => {
    request.onsuccess = () => done(request.result);
    request.onerror = () => failed(request.error);
  });
  const writing = db.transaction(['outbox', 'meta'], 'readwrite', { durability: 'strict' });
  const meta = writing.objectStore('meta');
  let seq = (await had(meta.get('seq'))) ?? 0;
  const { workshop, device, person } = await had(meta.get('identity'));
  const base = (await had(meta.get('head'))) ?? { position: 0, chain: '' };
  for (const one of entries) {
    seq += 1;
    const text = JSON.stringify({ ...one, workshop, device, by: person, seq, base });
    writing.objectStore('outbox')
      .put({ seq, id: one.id, subject: one.subject, group: null, text });
  }
  meta.put(seq, 'seq');
  await new Promise((done, failed) => {
    writing.oncomplete = done;
    writing.onerror = () => failed(writing.error);
  });
  db.close();
}"""


def entry(name: str, at: int, **changes: Any) -> dict[str, Any]:
    """A part entered at `at` (UTC ms); what the phone adds is left out."""
    return {
        "id": uuid7(at),
        "kind": "part.added.v1",
        "at": at,
        "tz": "UTC",
        "subject": str(uuid.UUID(uuid7(at))),
        "via": None,
        "group": None,
        "body": {"name": name},
        **changes,
    }


def add_unsent(page: Page, names: Sequence[str], ago_ms: int = 60_000, **changes: Any) -> None:
    """Enter parts on the phone as if that had been `ago_ms` ago. Out of reach of the workshop, and
    the page must be loaded again before it shows them."""
    at = now_ms() - ago_ms
    entries = [entry(name, at + number, **changes) for number, name in enumerate(names)]
    page.evaluate(ADD, [entries])


def texts(rows: list[dict[str, Any]]) -> list[str]:
    """The entries themselves out of rows of `outbox` or `sent`, in order."""
    return [row["text"] for row in sorted(rows, key=lambda row: row["seq"])]


def names(rows: list[dict[str, Any]]) -> list[str]:
    """The names of the parts that rows of `outbox` or `sent` enter, in order."""
    return [json.loads(text)["body"]["name"] for text in texts(rows)]
