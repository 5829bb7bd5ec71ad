"""Learning a gauge over HTTP: who begins it, who answers, what is refused."""

import pytest

from daq.words import SaidTrouble, said
from daq.words.learning import LearnView
from tests.web import test_set_up
from tests.web.test_set_up import ANN, LEARN
from web.rights import HEADER

quick, access, begun = test_set_up.quick, test_set_up.access, test_set_up.begun
app, phone = test_set_up.app, test_set_up.phone


@pytest.fixture
def press(phone):
    """A press on the page of a learning."""
    return lambda path, **body: phone.client.post(
        f"/api/set-up/learn/{path}", json=body, headers={HEADER: phone.token}
    )


class Told:
    """A learning that remembers what reached it."""

    under_way = True

    def __init__(self):
        self.got = []

    def view(self):
        return LearnView(None)

    def begin(self, asked, person):
        self.got.append((asked.port, person.name))

    def answer(self, number, typed):
        if number != 3:
            raise SaidTrouble(said("bench-asked-meanwhile"))
        self.got.append(typed)

    def skip(self):
        self.got.append("skip")

    def leave(self):
        self.got.append("leave")


def test_a_gauge_is_learned_by_who_may_set_up_and_a_screen_answers(phone, app, press, begun):
    phone.post("who")
    gone = phone.post("learn/begin", learn=LEARN)
    assert gone.status_code == 422 and "There is no port" in gone.json["reason"]
    assert phone.client.get("/api/set-up/learn").json == {"talk": None}
    assert app.test_client().get("/api/set-up/learn").status_code == 403
    told = app.extensions["headsweep"].set_up.learning = Told()
    assert phone.post("learn/begin", learn=LEARN).json == {"talk": None}
    assert press("answer", number=3, typed="0.1 mm").status_code == 200
    assert [press("press", what=each).status_code for each in ("skip", "leave")] == [200, 200]
    assert told.got == [(LEARN["port"], ANN), "0.1 mm", "skip", "leave"]
    late = press("answer", number=2, typed="")
    assert (late.status_code, late.json["reason"]) == (422, "Something else is asked by now.")
    assert press("press", what="stop").status_code == 400
    answer = phone.post("anew")
    assert answer.status_code == 409 and "is being learned" in answer.json["reason"]
    assert begun == []
