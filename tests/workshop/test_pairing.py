"""One secret, one phone, five minutes; and a typed code that cannot be guessed at."""

from __future__ import annotations

import itertools
import json
import threading
import uuid
from concurrent.futures import ThreadPoolExecutor
from dataclasses import asdict

import pytest

from bucktail.workshop.pairing import (
    LIFE_MS,
    SEEN_EVERY_MS,
    Newcomer,
    Offer,
    PairingDesk,
    PairingRefused,
)
from bucktail.workshop.pairing_code import code_in, in_symbols, pairing_link, shown_in_fours

START = 1_770_000_000_000
PHONE = Newcomer("0197c0de-0000-7000-8000-000000000001", "bench phone", "Robin")
OTHER = Newcomer("0197c0de-0000-7000-8000-000000000002", "spare phone", "robin")


class Clock:
    """UTC ms that a test moves on."""

    def __init__(self) -> None:
        self.now = START

    def __call__(self) -> int:
        return self.now


class Counted:
    """Bytes that differ at every draw; the test sees how many were asked for."""

    def __init__(self) -> None:
        self.asked: list[int] = []
        self._lock = threading.Lock()

    def __call__(self, count: int) -> bytes:
        with self._lock:
            self.asked.append(count)
            return (len(self.asked) * 0x9E3779B97F4A7C15).to_bytes(64, "big")[-count:]


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def desk(pairings, clock) -> PairingDesk:
    numbers = itertools.count(1)
    return PairingDesk(pairings, clock, Counted(), lambda: str(uuid.UUID(int=next(numbers))))


def refused(desk: PairingDesk, answer: str, newcomer: Newcomer = PHONE) -> PairingRefused:
    with pytest.raises(PairingRefused) as caught:
        desk.redeem(answer, newcomer)
    return caught.value


def wrong_code(offer: Offer, number: int) -> str:
    """A typed code that is not the one offered; a different one for each number below 32."""
    code = in_symbols(number.to_bytes(5, "big"))
    return code if code != offer.typed else in_symbols((number + 32).to_bytes(5, "big"))


def test_the_secret_pairs_a_phone_and_its_token_is_recognised(desk) -> None:
    offer = desk.start()
    paired = desk.redeem(offer.secret, PHONE)
    assert (paired.device.id, paired.device.name) == (PHONE.device_id, "bench phone")
    assert paired.person.name == "Robin"
    assert desk.authenticate(paired.token) == paired.device


def test_sizes_of_what_is_drawn(desk) -> None:
    offer = desk.start()
    paired = desk.redeem(offer.secret, PHONE)
    assert desk.random_bytes.asked == [16, 5, 32]
    assert (len(offer.secret), len(offer.typed), len(paired.token)) == (26, 8, 43)
    assert offer.expires_at == START + 300_000


@pytest.mark.parametrize("how", ["bare", "link", "typed", "typed in fours", "lower case"])
def test_every_way_to_bring_the_code_back(desk, how) -> None:
    offer = desk.start()
    answer = {
        "bare": offer.secret,
        "link": pairing_link("https://bench.local:8443", offer.secret),
        "typed": offer.typed,
        "typed in fours": f" {shown_in_fours(offer.typed)} ",
        "lower case": offer.typed.lower().replace("0", "o").replace("1", "l"),
    }[how]
    assert desk.redeem(answer, PHONE).device.id == PHONE.device_id


def test_nothing_that_is_kept_opens_anything(desk, pairings) -> None:
    offer = desk.start()
    token = desk.redeem(offer.secret, PHONE).token
    kept = json.dumps(
        [asdict(row) for rows in (pairings.pairings, pairings.devices) for row in rows.values()]
    )
    for secret in (offer.secret, offer.typed, token):
        assert secret not in kept
    assert all(len(row.secret_hash) == 64 for row in pairings.pairings.values())
    hash_of_token = pairings.devices[PHONE.device_id].token_hash
    with pytest.raises(PairingRefused):
        desk.authenticate(hash_of_token)


def test_a_secret_is_used_once(desk) -> None:
    offer = desk.start()
    desk.redeem(offer.secret, PHONE)
    assert refused(desk, offer.secret, OTHER).reason == "used"
    assert refused(desk, offer.typed, OTHER).reason == "expired"  # none is open any more


def test_a_typed_code_uses_up_the_secret_too(desk) -> None:
    offer = desk.start()
    desk.redeem(offer.typed, PHONE)
    assert refused(desk, offer.secret, OTHER).reason == "used"


def test_five_minutes_and_not_a_moment_more(desk, clock) -> None:
    offer = desk.start()
    clock.now = START + LIFE_MS
    assert refused(desk, offer.secret).reason == "expired"
    assert refused(desk, offer.typed).reason == "expired"
    clock.now = START + LIFE_MS - 1
    assert desk.redeem(offer.secret, PHONE).token


def test_a_secret_of_another_workshop_is_unknown(desk) -> None:
    desk.start()
    assert refused(desk, in_symbols(bytes(16))).reason == "unknown"


@pytest.mark.parametrize("answer", ["", "ABC", "7KQ2M0XDZZ", "UUUUUUUU", "7KQ2M0X!", "é" * 8])
def test_what_is_no_code_says_what_to_do_and_costs_no_try(desk, pairings, answer) -> None:
    desk.start()
    trouble = refused(desk, answer)
    assert trouble.reason == "unknown"
    assert "type the eight letters and digits" in str(trouble)
    assert [row.tries for row in pairings.pairings.values()] == [0]


def test_after_five_wrong_tries_even_the_right_typed_code_is_refused(desk) -> None:
    offer = desk.start()
    said = [refused(desk, wrong_code(offer, number)) for number in range(5)]
    assert [trouble.reason for trouble in said] == ["wrong"] * 5
    assert "4 more tries" in str(said[0])
    assert "1 more try." in str(said[3])
    assert "now closed" in str(said[4])
    assert refused(desk, offer.typed).reason == "closed"
    assert desk.redeem(offer.secret, PHONE).token  # scanning goes on


def test_the_fifth_try_may_still_be_the_right_one(desk) -> None:
    offer = desk.start()
    for number in range(4):
        refused(desk, wrong_code(offer, number))
    assert desk.redeem(offer.typed, PHONE).token


def test_wrong_tries_count_against_every_open_pairing(desk) -> None:
    first = desk.start()
    for number in range(3):
        refused(desk, wrong_code(first, number))
    second = desk.start()
    for number in range(3):
        refused(desk, wrong_code(second, number))
    assert refused(desk, first.typed).reason == "wrong"  # closed for the first, fourth on second
    assert desk.redeem(second.typed, PHONE).token


def test_fifty_wrong_codes_at_once_get_five_looks(desk, pairings) -> None:
    offer = desk.start()
    with ThreadPoolExecutor(50) as pool:
        said = list(pool.map(lambda n: refused(desk, wrong_code(offer, n)).reason, range(50)))
    assert sorted(said) == ["closed"] * 45 + ["wrong"] * 5
    assert [row.tries for row in pairings.pairings.values()] == [5]


@pytest.mark.parametrize("way", ["secret", "typed"])
def test_fifty_phones_at_once_give_one_token(desk, pairings, way) -> None:
    offer = desk.start()
    together = threading.Barrier(50)

    def redeem(number: int) -> str:
        newcomer = Newcomer(str(uuid.UUID(int=number)), f"phone {number}", "Robin")
        together.wait()
        try:
            return desk.redeem(getattr(offer, way), newcomer).token
        except PairingRefused as trouble:
            return trouble.reason

    with ThreadPoolExecutor(50) as pool:
        given = list(pool.map(redeem, range(1, 51)))
    tokens = [answer for answer in given if answer not in ("used", "expired")]
    assert len(tokens) == 1
    assert len(pairings.devices) == 1
    assert desk.authenticate(tokens[0]).id in pairings.devices


def test_what_fails_while_the_phone_is_entered_leaves_the_secret_unused(desk, pairings) -> None:
    offer = desk.start()

    def full(_device: object) -> None:
        raise OSError("disk full")

    pairings.put_device = full
    with pytest.raises(OSError, match="disk full"):
        desk.redeem(offer.secret, PHONE)
    del pairings.put_device
    assert desk.redeem(offer.secret, PHONE).token
    assert len(pairings.persons) == 1


def test_one_person_with_two_phones_is_one_person(desk, pairings) -> None:
    first = desk.redeem(desk.start().secret, PHONE)
    second = desk.redeem(desk.start().secret, OTHER)  # “robin”
    assert first.person == second.person
    assert len(pairings.persons) == 1


def test_pairing_a_known_phone_again_ends_its_old_token(desk) -> None:
    old = desk.redeem(desk.start().secret, PHONE).token
    new = desk.redeem(desk.start().secret, PHONE).token
    assert desk.authenticate(new).id == PHONE.device_id
    with pytest.raises(PairingRefused, match="not paired"):
        desk.authenticate(old)


def test_a_removed_phone_is_told_so_and_may_be_paired_again(desk, clock) -> None:
    token = desk.redeem(desk.start().secret, PHONE).token
    desk.revoke(PHONE.device_id)
    with pytest.raises(PairingRefused, match="was removed") as caught:
        desk.authenticate(token)
    assert caught.value.reason == "revoked"
    clock.now += 1000
    desk.revoke(PHONE.device_id)
    assert desk.store.device(PHONE.device_id).revoked_at == START  # the first time stays
    again = desk.redeem(desk.start().secret, PHONE).token
    assert desk.authenticate(again).revoked_at is None


def test_revoking_nobody_is_an_error(desk) -> None:
    with pytest.raises(PairingRefused, match="no such phone"):
        desk.revoke(PHONE.device_id)


@pytest.mark.parametrize("token", ["", "x", "\ud800", "A" * 43])
def test_a_made_up_token_is_not_paired(desk, token) -> None:
    desk.redeem(desk.start().secret, PHONE)
    with pytest.raises(PairingRefused) as caught:
        desk.authenticate(token)
    assert caught.value.reason == "unknown"


def test_last_seen_is_written_once_a_minute(desk, clock, pairings) -> None:
    token = desk.redeem(desk.start().secret, PHONE).token
    clock.now = START + SEEN_EVERY_MS - 1
    assert desk.authenticate(token).last_seen == START
    clock.now = START + SEEN_EVERY_MS
    assert desk.authenticate(token).last_seen == clock.now
    assert pairings.devices[PHONE.device_id].last_seen == clock.now


@pytest.mark.parametrize(
    ("newcomer", "said"),
    [
        (Newcomer("phone-1", "bench phone", "Robin"), "Reload Bucktail"),
        (Newcomer(PHONE.device_id, "  ", "Robin"), "Give this phone a name"),
        (Newcomer(PHONE.device_id, "bench phone", "\n\t"), "Say who uses this phone"),
        (Newcomer(PHONE.device_id, "b" * 61, "Robin"), "60 letters at most"),
        (Newcomer(PHONE.device_id, "bench\x00phone", "Robin"), "cannot be shown"),
    ],
)
def test_names_that_will_not_do_leave_the_secret_unused(desk, newcomer, said) -> None:
    offer = desk.start()
    trouble = refused(desk, offer.secret, newcomer)
    assert trouble.reason == "names"
    assert said in str(trouble)
    assert desk.redeem(offer.secret, PHONE).token


def test_old_offers_are_forgotten_after_a_day(desk, clock, pairings) -> None:
    desk.start()
    clock.now += LIFE_MS + 24 * 3600 * 1000
    desk.start()
    assert len(pairings.pairings) == 2
    clock.now += 1
    desk.start()
    assert len(pairings.pairings) == 2


@pytest.mark.parametrize(
    ("data", "symbols"),
    [
        (bytes(5), "00000000"),
        (b"\xff" * 5, "ZZZZZZZZ"),
        (bytes([0b00001_000, 0b10_00011_0, 0b0100_0010, 0b1_00110_00, 0b111_01000]), "12345678"),
        (b"\xff" * 16, "Z" * 25 + "W"),  # 128 bits and two zeros: the last symbol is 11100
    ],
)
def test_five_bits_make_a_symbol(data, symbols) -> None:
    assert in_symbols(data) == symbols


def test_a_link_with_more_in_its_fragment_still_reads() -> None:
    secret = in_symbols(b"\x5a" * 16)
    assert code_in(f"https://bench.local:8443/#pair={secret}&x=1") == secret
    assert code_in(f"https://bench.local:8443/#other={secret}") is None
