"""The power goes in mid-audit: started by the unit's own command the wall says so, and what is not
fine since, beside what the step shows; then the audit goes on."""

import json
import re
import shlex
import uuid
from contextlib import closing
from pathlib import Path

from daq.service import alive
from daq.virtual import Hands
from tests.patience import until
from tests.system.daemon import Daemon

UNIT = Path(__file__).resolve().parents[2] / "hardware" / "systemd" / "headsweep.service"
INSTALLED = "/opt/headsweep/current/bin/headsweep"
MOST_STEPS = 60
BEFORE_IT_GOES_ON = ("prepare", "touch-free", "touch-push", "touch-back")


class ByItsUnit(Daemon):
    """Started by what the unit says, its folders and its address the test's own."""

    def command(self):
        text = UNIT.read_text(encoding="utf-8").replace("\\\n", " ")
        (line,) = re.findall(r"^ExecStart=(.*)$", text, re.MULTILINE)
        there = {
            "/etc/headsweep": str(self.shop.config),
            "/var/lib/headsweep": str(self.shop.data),
            "${HEADSWEEP_LISTEN}": "127.0.0.1:0",
        }
        program, *words = shlex.split(line)
        assert program == INSTALLED
        assert there.keys() < set(words)
        return [there.get(word, word) for word in words]


def boots(shop):
    """The file as another start of the computer finds it."""
    path = shop.data / alive.NAME
    kept = json.loads(path.read_text(encoding="utf-8"))
    path.write_text(json.dumps(kept | {"boot": str(uuid.uuid4())}), encoding="utf-8")


def test_the_power_goes_in_mid_audit_and_the_wall_says_what_the_doctor_found(shop, mill):
    with closing(ByItsUnit(shop).start()) as daemon:
        client = daemon.client
        hands = Hands(client.snapshot, client.press, client.live, mill)

        def work_to(true_of):
            for _ in range(MOST_STEPS):
                if true_of(client.console()):
                    return
                hands.step()

        work_to(lambda console: console["step"] == "loosen")
        assert client.snapshot()["cut_off"] is None
        daemon.kill()
        mill.unplug()
        boots(shop)
        daemon.start()
        first = client.snapshot()
        assert first["cut_off"]["say"].startswith("The Pi went off")
        assert first["pages"]["wall"]["title"] == "The screen was off: is the lock still on?"
        assert first["pages"]["wall"]["stop_at"] is None
        told = until(lambda: said if (said := client.snapshot()["cut_off"])["amiss"] else None)
        assert "On again. Look at: " in told["say"]
        found = [line["found"] for line in told["amiss"]]
        assert any("practice" in line for line in found), found
        lines = client.ask("GET", "/api/doctor").body["lines"]
        assert {line["found"] for line in lines if not line["fine"]} == set(found)
        mill.replug()
        client.until_live(lambda live: live.fresh)
        assert client.snapshot()["cut_off"] is not None  # the gauge's own rows are no step
        work_to(lambda console: console["step"] != "prepare")
        assert client.snapshot()["cut_off"] is None
        work_to(lambda console: console["step"] not in BEFORE_IT_GOES_ON)
        assert client.console()["step"] == "check"
        daemon.stop()
        assert not (shop.data / alive.NAME).exists()
        assert "was cut off (power)" in daemon.stderr
