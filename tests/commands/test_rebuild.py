"""Everything can be worked out anew from the record, and comes out as it was."""

from __future__ import annotations

from sqlalchemy import select, update

from bucktail.storage.opening import open_workshop
from bucktail.storage.tables import Card
from bucktail.workshop.recorder import Recorder


def cards(folder) -> dict[str, str]:
    with open_workshop(folder) as session:
        return dict(session.execute(select(Card.subject, Card.text)).all())


def test_a_damaged_card_is_mended_and_counted(bucktail, folder) -> None:
    with open_workshop(folder) as session:
        recorder = Recorder(session)
        ribs = [recorder.record("part.added.v1", {"name": f"Rib {n}"}) for n in range(3)]
    whole = cards(folder)
    assert "3 things worked out anew from the record; 0 came out different." in (
        bucktail("rebuild", "--workshop", folder).out
    )
    with open_workshop(folder) as session:
        session.execute(update(Card).where(Card.subject == ribs[0]).values(text="{}"))
    said = bucktail("rebuild", "--workshop", folder)
    assert (said.code, said.err) == (0, "")
    assert "3 things worked out anew from the record; 1 came out different." in said.out
    assert cards(folder) == whole


def test_a_folder_without_a_workshop_is_not_made_into_one(bucktail, tmp_path) -> None:
    for words in (["rebuild"], ["pair"], ["outbox", "list"]):
        said = bucktail(*words, "--workshop", tmp_path / "nowhere")
        assert said.code == 1
        assert "There is no workshop in" in said.err
    assert not (tmp_path / "nowhere").exists()
