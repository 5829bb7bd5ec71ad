"""Gauge files that name one port: what must agree, and what must not."""

import pytest

from daq.gauges import config
from daq.gauges.sharing import apart
from tests.gauges.conftest import gauge_table

ASKS = {"mode": "asks", "interval": "0.1 s", "timeout": "0.1 s"}


def channel(name, **changes):
    layout = [f"text {name};", "sign", "number 3.3"]
    frame = {"shape": "fields", "layout": layout, "terminator": "\r\n", "unit": "mm"}
    return config.from_table(gauge_table(**{"frame": frame, **changes}), f"{name}.toml")


def on(**line):
    return {"line": {"port": "/dev/serial/by-id/usb-one", **line}}


def asked(name, **talk):
    return channel(name, talk={**ASKS, "request": rf"{name}\r", **talk}, **on())


def test_three_channels_share_a_port():
    assert apart({name: channel(name, **on()) for name in ("C1", "C2", "C3")}) == {}
    assert apart({name: asked(name) for name in ("C1", "C2", "C3")}) == {}


def test_requests_alone_may_tell_gauges_apart():
    assert apart({"a": asked("C1"), "b": asked("C1", request=r"other\r")}) == {}


def test_the_same_frames_on_other_ports_are_nobodys_business():
    assert apart({"a": channel("C1", **on()), "b": channel("C1", line={"port": "b"})}) == {}


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (on(baud=4800), "line.baud: found 4800 in b.toml and 9600 in a.toml, on one port"),
        (on(parity="even"), 'line.parity: found "even" in b.toml and "none" in a.toml'),
        (on(rts=False), "line.rts: found false in b.toml and true in a.toml"),
        (
            {**on(), "talk": {**ASKS, "request": "R"}},
            'talk.mode: found "asks" in b.toml and "streams" in a.toml',
        ),
    ],
)
def test_what_must_agree_is_told_with_both_files(change, told):
    gauges = {"b.toml": channel("C2", **change), "a.toml": channel("C1", **on())}
    ((name, (why,)),) = apart(gauges).items()
    assert name == "b.toml"
    assert why.startswith(told)
    assert why.endswith("allowed: the same in both")


def test_frames_that_do_not_tell_whose_they_are():
    gauges = {name: channel("C1", **on()) for name in ("a.toml", "b.toml")}
    assert apart(gauges) == {
        "b.toml": [
            "frame: found the same frame in b.toml and in a.toml, on one port; "
            "allowed: one that tells whose it is, such as by its channel"
        ]
    }


def test_one_port_by_two_names(tmp_path):
    device, by_id = tmp_path / "ttyUSB0", tmp_path / "by-id"
    device.touch()
    by_id.symlink_to(device)
    gauges = {
        name: channel(name, line={"port": str(port)})
        for name, port in (("C1", device), ("C2", by_id))
    }
    (why,) = apart(gauges)["C2"]
    assert why.startswith(f'line.port: found "{by_id}" in C2 and "{device}" in C1, on one port')


def test_of_three_the_one_that_differs_is_told():
    gauges = {name: channel(name, **on()) for name in ("C1", "C3")}
    gauges["C2"] = channel("C2", **on(baud=4800))
    assert list(apart(gauges)) == ["C2"]


def test_time_outs_by_which_a_silent_gauge_makes_another_look_dead():
    # 0.1 s to the next request, 3 times 0.25 s of the silent one, 0.25 s for the answer.
    (why,) = apart({"a": asked("C1", timeout="0.25 s"), "b": asked("C2", timeout="0.25 s")})["b"]
    assert why.startswith(
        "talk.timeout: found timeouts by which the number of a can grow 1.1 s old"
    )
    assert apart({"a": asked("C1", timeout="0.2 s"), "b": asked("C2", timeout="0.2 s")}) == {}
