"""What comes and goes leaves nothing behind in the daemon."""

from pathlib import Path

from tests.patience import until

COMINGS = 20


def held(daemon):
    """How many descriptors and threads the daemon has."""
    process = Path(f"/proc/{daemon.pid}")
    status = (process / "status").read_text(encoding="ascii")
    threads = next(line for line in status.splitlines() if line.startswith("Threads:"))
    return {"descriptors": len(list((process / "fd").iterdir())), "threads": int(threads[8:])}


def no_more_than(before, daemon):
    """Wait until it holds no more of either than before."""
    until(
        lambda: all(now <= before[what] for what, now in held(daemon).items()),
        lambda: (before, held(daemon)),
    )


def streams(client):
    return client.ask("GET", "/healthz").body["streams"]


def test_screens_that_come_and_go(gauge, client, daemon):
    client.until_live(lambda live: live.fresh)
    before = held(daemon)
    for _ in range(COMINGS):
        with client.stream():
            pass
    until(lambda: streams(client) == 0)
    no_more_than(before, daemon)


def test_screens_open_at_once_and_closed_at_once(gauge, client, daemon):
    client.until_live(lambda live: live.fresh)
    before = held(daemon)
    with client.stream(), client.stream(), client.stream():
        assert streams(client) == 3
    until(lambda: streams(client) == 0)
    no_more_than(before, daemon)


def test_a_cable_that_is_pulled_and_put_back(gauge, client, daemon):
    client.until_live(lambda live: live.fresh)
    before = held(daemon)
    runs = {client.live().run}
    for _ in range(COMINGS):
        gauge.replug()
        runs.add(client.until_live(lambda live: live.fresh and live.run not in runs).run)
    assert len(runs) == COMINGS + 1
    no_more_than(before, daemon)
