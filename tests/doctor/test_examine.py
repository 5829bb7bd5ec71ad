"""All looks together: none that fails, or hangs, ends the others."""

import subprocess
import threading

import pytest

from daq.doctor import examine as examining
from daq.doctor import patient as of_patient
from daq.doctor.diagnosis import fine, look_here
from daq.words import said


@pytest.fixture
def chosen(monkeypatch):
    def choose(**looks):
        monkeypatch.setattr(examining, "looks", lambda: looks)

    return choose


def test_what_is_to_be_looked_at_comes_first_and_else_the_looks_keep_their_order(made, chosen):
    def well(_):
        return [fine("well", said("a")), look_here("well", said("b"), said("c"))]

    chosen(well=well, other=lambda _: [fine("other", said("d"))])
    found = examining.examine(made.patient())
    assert [each.found.code for each in found] == ["b", "a", "d"]


def test_a_look_that_breaks_off_says_so_and_the_others_go_on(made, chosen):
    def broken(_):
        yield fine("broken", said("a"))
        raise RuntimeError("no such thing")

    chosen(broken=broken, well=lambda _: [fine("well", said("b"))])
    broke, well = examining.examine(made.patient())
    assert (broke.about, broke.fine, broke.found.code) == ("broken", False, "doctor-broke-off")
    assert broke.found.of["error"] == "RuntimeError: no such thing"
    assert well.fine


def test_a_look_that_hangs_is_left_behind(made, chosen):
    end = threading.Event()

    def hangs(_):
        end.wait()
        return ()

    chosen(hangs=hangs, well=lambda _: [fine("well", said("b"))])
    late, well = examining.examine(made.patient(), within_s=0.05)
    end.set()
    assert (late.about, late.fine, late.found.code) == ("hangs", False, "doctor-no-end")
    assert well.fine


def test_a_command_that_does_not_answer_is_no_answer(made, chosen):
    def asks(_):
        raise subprocess.TimeoutExpired(["systemctl"], 5.0)

    chosen(asks=asks)
    (late,) = examining.examine(made.patient())
    assert (late.fine, late.found.code, late.found.of) == (False, "doctor-no-end", {"seconds": 5})


def test_the_shops_files_are_read_once_however_many_look(made, chosen, monkeypatch):
    read = []
    monkeypatch.setattr(of_patient, "what_is_good", read.append)

    def reads(patient):
        assert patient.files is None
        return ()

    chosen(one=reads, other=reads)
    assert examining.examine(made.patient()) == ()
    assert read == [made.config]


def test_what_this_user_may_not_read_is_named(made, chosen):
    def closed(_):
        raise PermissionError(13, "Permission denied", "/var/lib/headsweep/ledger.db")

    chosen(closed=closed)
    (found,) = examining.examine(made.patient())
    assert (found.fine, found.found.code) == (False, "doctor-not-allowed")
    assert found.found.of == {"file": "/var/lib/headsweep/ledger.db"}
