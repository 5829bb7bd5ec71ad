"""The ledger's files taken away under the running service."""


def test_it_says_so_and_acknowledges_nothing(person, client, daemon):
    person.start()
    for path in daemon.shop.data.glob("ledger.db*"):
        path.unlink()
    answer = client.post("abandon", {"why": "x"})
    assert (answer.status, answer.body["code"]) == (503, "not-recorded")
    assert "ledger.db: the file is gone" in answer.body["reason"]
    assert client.snapshot()["recording"]["say"].startswith("NOT RECORDED: ")
    assert client.ask("GET", "/healthz").status == 503
