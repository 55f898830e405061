"""The phone's own code against the real computer: what it shows before it has sent is what comes of
it, and what it holds afterwards is what the computer holds."""

from __future__ import annotations

import json
import subprocess
import threading
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from flask import Flask
from sqlalchemy import select
from werkzeug.serving import make_server

from bucktail.app import create_app
from bucktail.storage.chain import check_chain
from bucktail.storage.rebuilding import rebuild
from bucktail.storage.set_aside import all_set_aside
from bucktail.storage.tables import Card
from running.browser import Browser, database_of
from running.bundle import bundle

#: Two phones of one workshop write about three things, now and then out of reach. Prints what is
#: not as it should be, and at last the cards that each holds.
ENTRY = """
import 'fake-indexeddb/auto';
import { newId } from 'SRC/store/ids.ts';
import { Phone } from 'SRC/store/phone.ts';
import { exchange } from 'SRC/sync/exchange.ts';
import { http } from 'SRC/sync/wire.ts';
import { canonical } from 'SRC/twins/facts.ts';

const { url, workshop, browsers, seed, turns } = JSON.parse(process.argv[2]);
const real = globalThis.fetch;
let cookie = '';
globalThis.fetch = (path, init = {}) =>
  real(url + path, { ...init, headers: { ...init.headers, cookie } });

let number = seed;
const draw = (n) => {
  number = (number * 1103515245 + 12345) % 2147483648;
  return Math.floor((number / 2147483648) * n);
};
const one = (list) => list[draw(list.length)];
const phones = [];
for (const { device, person } of browsers) {
  // one process has one set of databases: give each phone its own name for it
  const name = `${workshop}-${phones.length}`;
  const phone = await Phone.create({ workshop: name, device, person, name: 'w', unit: 'in' });
  phone.identity.workshop = workshop;
  phones.push(phone);
}
const meet = (at) => {
  cookie = browsers[at].cookie;
  return exchange(phones[at], http, Date.now);
};
// the two clocks are read at different moments, so times may differ by that
const withoutTimes = (card) => canonical(card.state).replace(/"(at|touched)":[0-9]+/g, '"$1":0');

const things = [newId(), newId(), newId()];
const ops = ['film', 'deburr', 'countersink', 'clean', 'prime', 'rivet'];
const draft = (subject, known) => {
  if (!known.length) return ['part.added.v1', { name: 'Skin 🛩️ "1"', pieces: 12 }];
  const kind = draw(10);
  if (kind === 0) {
    const body = { template: 't', open: [], along_lines: true, final_after_dimple: false };
    const holes = { count: one([null, 20]), supplied: 'final' };
    const asked = Object.fromEntries(ops.map((op) => [op, one(['do', 'do', 'bare'])]));
    return ['steps.set.v1', { ...body, ops: asked, holes, die: null, window_h: 1 }];
  }
  if (kind === 1) return ['metal.changed.v1', { change: 'holes enlarged', holes: one([null, 4]) }];
  if (kind === 2) return ['part.described.v1', { note: one(['a', 'b', '=1+1']) }];
  if (kind === 3) return ['event.withdrawn.v1', { event: one(known).id }];
  const body = { op: one(ops), result: one(['all', 'some', 'none']), done: null, of: null };
  return ['step.recorded.v1', body];
};
const said = [];
let compared = 0;
for (let turn = 0; turn < turns; turn += 1) {
  const at = draw(2);
  const phone = phones[at];
  const subject = one(things);
  const known = (await phone.card(subject))?.facts ?? [];
  const [kind, body] = draft(subject, known);
  await phone.record([{ kind, subject, body }]);
  if (draw(3)) continue;
  // fetch without sending, so that nothing intervenes between what is shown and what is sent
  cookie = browsers[at].cookie;
  const page = await http.pull(phone.from);
  await phone.takePage(page, page.now - Date.now(), phone.from);
  const shown = await Promise.all(things.map((id) => phone.card(id)));
  const done = await meet(at);
  said.push(...done.aside.map((reason) => `turn ${turn}: set aside: ${reason}`));
  for (const card of shown) {
    if (!card) continue;
    compared += 1;
    const came = withoutTimes(await phone.card(card.id));
    if (withoutTimes(card) !== came)
      said.push(`turn ${turn}: shown ${withoutTimes(card)}\\ncame ${came}`);
  }
}
for (const at of [0, 1, 0]) await meet(at);
const held = [];
for (const phone of phones) {
  const cards = await phone.db.getAll('cards');
  held.push(Object.fromEntries(cards.map(({ id, text }) => [id, text])));
}
console.log(JSON.stringify({ said, held, compared, unsent: await phones[0].outboxCount() }));
"""


@pytest.fixture(scope="module")
def phones(tmp_path_factory: pytest.TempPathFactory) -> list[str]:
    """The command that runs two phones."""
    return bundle(tmp_path_factory.mktemp("phones"), ENTRY)


@pytest.fixture
def app(tmp_path: Path) -> Flask:
    """The application on a blank workshop."""
    return create_app(tmp_path / "workshop")


@pytest.fixture
def url(app: Flask) -> Iterator[str]:
    """The application, served on loopback."""
    server = make_server("127.0.0.1", 0, app, threaded=True)
    thread = threading.Thread(target=server.serve_forever)
    thread.start()
    yield f"http://localhost:{server.port}"
    server.shutdown()
    thread.join()


@pytest.mark.parametrize("seed", [1, 2])
def test_two_phones_show_what_the_computer_will_make_of_it(
    phones: list[str], app: Flask, url: str, seed: int
) -> None:
    browsers = [Browser(app, "one", "Sam"), Browser(app, "two", "Kim")]
    told: dict[str, Any] = {"url": url, "seed": seed, "turns": 60, "browsers": []}
    for browser in browsers:
        (cookie,) = browser.client._cookies.values()
        pen = browser.pen
        told["workshop"] = pen.workshop
        told["browsers"].append(
            {"device": pen.device, "person": pen.person, "cookie": f"{cookie.key}={cookie.value}"}
        )
    done = subprocess.run(
        [*phones, json.dumps(told)], capture_output=True, encoding="utf-8", timeout=300, check=False
    )
    assert done.returncode == 0, done.stderr[-3000:]
    found = json.loads(done.stdout)
    assert found["said"] == []
    assert found["compared"] > 20
    assert found["unsent"] == 0
    with database_of(app) as session:
        cards = dict(session.execute(select(Card.subject, Card.text)).all())
        assert found["held"] == [cards, cards]
        assert len(cards) == 3
        assert all_set_aside(session) == []
        assert check_chain(session) == []
        assert rebuild(session) == (3, 0)
