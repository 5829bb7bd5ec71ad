"""What a gauge takes for a request."""

import pytest

from daq.virtual.talk import OnRequest


@pytest.mark.parametrize(
    ("request_", "came", "times", "rest"),
    [
        (b"?\r", b"?\r", 1, b""),
        (b"?\r", b"?\r?\r", 2, b""),
        (b"?\r", b"?", 0, b"?"),
        (b"?\r", b"??\r", 0, b""),
        (b"?\r", b"X?\r?\r", 1, b""),
        (b"?\r", b"READ\r", 0, b""),
        (b"\x05", b"\x05\x05", 2, b""),
        (b"\x05", b"A\x05", 0, b""),
        (b"\x01\x02\x03", b"\x02\x03\x01\x02\x03\x01", 1, b"\x01"),
        (b"?\r", b"x" * 100, 0, b"x" * 64),
    ],
)
def test_only_whole_requests_count(request_: bytes, came: bytes, times: int, rest: bytes) -> None:
    assert OnRequest(request_).asked(came) == (times, rest)


@pytest.mark.parametrize("request_", [b"", b"\r\r", b"a?b?"])
def test_a_request_without_a_clear_end_is_refused(request_: bytes) -> None:
    with pytest.raises(ValueError, match="request: found"):
        OnRequest(request_)
