"""The counts of a gauge's frames in the health report: those of now, whatever its state."""

from tests.patience import until


def test_the_counts_go_on_while_nothing_else_changes(gauge, client, daemon):
    client.until_live(lambda live: live.fresh)

    def counted():
        (found,) = client.ask("GET", "/healthz").body["service"]["gauges"].values()
        return found

    before = until(lambda: found if (found := counted())["code"] == "ok" else None)
    until(lambda: counted()["good"] >= before["good"] + 10, counted)
