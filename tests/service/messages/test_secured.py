"""A broker that asks who comes, over TLS: who may not come in is told why, and no secret is."""

import logging
import subprocess

import pytest

from tests.patience import until
from tests.service.messages.broker import broker
from tests.service.messages.certificates import authority
from tests.service.messages.rig import owing, telling
from tests.words import en

SECRET = "a word that nobody is told"


@pytest.fixture(scope="module")
def secured(tmp_path_factory):
    """A broker of a throw-away authority, that lets in one user."""
    folder = tmp_path_factory.mktemp("secured")
    folder.chmod(0o755)
    files = authority(folder, "shop")
    (folder / "passwords").touch(0o600)
    ask = ["mosquitto_passwd", "-b", str(folder / "passwords"), "headsweep", SECRET]
    subprocess.run(ask, check=True, capture_output=True)
    ca, certificate, key = files
    lines = f"allow_anonymous false\npassword_file {folder}/passwords\n"
    lines += f"cafile {ca}\ncertfile {certificate}\nkeyfile {key}"
    with broker(folder, lines) as found:
        yield found, folder


def password(folder, text, mode=0o600):
    path = folder / "password"
    path.write_text(f"{text}\n", "utf-8")
    path.chmod(mode)
    return str(path)


def way(found):
    return found.ways["broker"]


def test_over_tls_with_the_right_password_it_is_delivered(told, tmp_path, secured):
    running, folder = secured
    owing(told, seen=0)
    of = {"tls": True, "ca": str(folder / "shop-ca.pem"), "user": "headsweep"}
    found = telling(told, running.port, **of, password_file=password(tmp_path, SECRET))
    found.start()
    until(lambda: way(found).owed == 0, lambda: way(found))
    assert way(found).why is None
    found.stop()


# The client drops a socket whose handshake failed; Python closes it, and says so.
@pytest.mark.filterwarnings("ignore:unclosed <ssl.SSLSocket:ResourceWarning")
@pytest.mark.parametrize(
    ("case", "code", "told_why"),
    [
        ("wrong password", "broker-refuses", "Not authorized"),
        ("no user", "broker-refuses", "Not authorized"),
        ("open file", "password-open", "chmod 600"),
        ("another authority", "address-not-reached", "certificate verify failed"),
        ("no certificate there", "file-not-usable", "ca.pem"),
        ("no tls", "broker-gone", ""),
    ],
)
def test_who_is_not_let_in_is_told_why_and_all_stays_owed(
    told, tmp_path, secured, caplog, case, code, told_why
):
    running, folder = secured
    caplog.set_level(logging.DEBUG)
    owing(told, rows=[6])
    other, *_ = authority(tmp_path, "other")
    ca = {"another authority": other, "no certificate there": tmp_path / "ca.pem"}
    text = "not that" if case == "wrong password" else SECRET
    of = {"tls": True, "ca": str(ca.get(case, folder / "shop-ca.pem")), "user": "headsweep"}
    of["password_file"] = password(tmp_path, text, 0o644 if case == "open file" else 0o600)
    if case == "no user":
        of |= {"user": "", "password_file": ""}
    found = telling(told, running.port, **({} if case == "no tls" else of))
    found.start()
    why = until(lambda: (why := way(found).why) and why.code == code and why, lambda: way(found))
    found.stop()
    assert way(found).owed == 1
    assert told_why in en(why) and SECRET not in en(why) + caplog.text


def test_one_that_is_put_right_is_let_in_without_a_restart(told, tmp_path, secured):
    running, folder = secured
    owing(told, rows=[6])
    of = {"tls": True, "ca": str(folder / "shop-ca.pem"), "user": "headsweep"}
    found = telling(told, running.port, **of, password_file=password(tmp_path, "not that"))
    found.start()
    until(lambda: way(found).why)
    password(tmp_path, SECRET)
    until(lambda: way(found).owed == 0, lambda: way(found))
    found.stop()
