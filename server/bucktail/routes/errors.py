"""Errors as the phone gets them: a problem in one sentence that says what to do."""

from __future__ import annotations

from flask import Flask, Response, jsonify
from werkzeug.exceptions import HTTPException

from bucktail.storage.eventlog import OtherWorkshop
from bucktail.storage.tables import db
from bucktail.storage.trouble import DatabaseTrouble, disk_is_full


class Refused(Exception):
    """A request that is refused. `status` is the HTTP status, `word` a fixed name of the reason."""

    def __init__(self, status: int, word: str, sentence: str) -> None:
        super().__init__(sentence)
        self.status, self.word, self.sentence = status, word, sentence


def _answer(status: int, word: str, sentence: str) -> Response:
    answer = jsonify({"problem": word, "sentence": sentence})
    answer.status_code = status
    return answer


def add_error_handlers(app: Flask) -> None:
    """Answer every error in the same shape."""

    @app.errorhandler(Refused)
    def _refused(problem: Refused) -> Response:
        return _answer(problem.status, problem.word, problem.sentence)

    @app.errorhandler(OtherWorkshop)
    def _other(_problem: OtherWorkshop) -> Response:
        db.session.rollback()
        return _answer(
            409,
            "other workshop",
            "These entries belong to another workshop. Nothing was taken over and the phone "
            "keeps them; open the address of their own workshop to send them.",
        )

    @app.errorhandler(DatabaseTrouble)
    def _database(problem: DatabaseTrouble) -> Response:
        db.session.rollback()
        full = disk_is_full(problem)
        return _answer(
            507 if full else 503,
            "disk full" if full else "database busy",
            "The workshop computer's disk is full. Make room there; the phone keeps "
            "everything and sends it again."
            if full
            else "The workshop computer cannot write just now. The phone keeps everything "
            "and sends it again.",
        )

    @app.errorhandler(HTTPException)
    def _http(problem: HTTPException) -> Response:
        return _answer(problem.code or 500, "http", problem.description or problem.name)
