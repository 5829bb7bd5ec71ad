"""What is wrong with `[mqtt]` is said by its key; a password's file is its owner's alone."""

import pytest

from daq.service import shop_file
from daq.service.messages.line import _password
from daq.settings import SettingsError
from daq.words import SaidTrouble
from tests.words import faults


def shop(tmp_path, table):
    path = tmp_path / "shop.toml"
    path.write_text(f'name = "Shop"\n{table}\n', "utf-8")
    return shop_file.read(path)


@pytest.mark.parametrize(
    ("table", "told"),
    [
        ("", "host"),
        ('host = ""', "host: found ''; allowed: a name such as broker.local, or an address"),
        ('host = "a b"', "host: found 'a b'; allowed: a name"),
        ('host = "mqtt://x"', "host: found 'mqtt://x'; allowed: a name"),
        ('host = "x"\nport = 99999', "port: found 99999; allowed: 1 to 65535"),
        ('host = "x"\nport = "1883"', "port"),
        ('host = "x"\nca = "/ca.pem"', "ca: found without tls; allowed: both, or neither"),
        ('host = "x"\ntls = true\nca = "ca.pem"', "ca: found 'ca.pem'; allowed: a whole path"),
        ('host = "x"\npassword_file = "/p"', "password_file: found without user"),
        ('host = "x"\nuser = "u"\npassword_file = "p"', "password_file: found 'p'; allowed"),
        ('host = "x"\npassword = "p"', "password"),
        ('host = "x"\nprefix = "a/+/b"', "prefix: found 'a/+/b'; allowed: levels such as"),
        ('host = "x"\nprefix = ""', "prefix: found ''"),
        ('host = "x"\nprefix = "/a"', "prefix: found '/a'"),
        ('host = "x"\nprefix = "$SYS"', "prefix: found '$SYS'"),
        ('host = "x"\nlive_hz = 50', "live_hz: found 50; allowed: 0 to 5"),
        ('host = "x"\nlive_hz = nan', "live_hz"),
    ],
)
def test_what_is_wrong_is_said_by_its_key(tmp_path, table, told):
    with pytest.raises(SettingsError) as error:
        shop(tmp_path, f"[mqtt]\n{table}")
    (found,) = faults(error.value)
    assert "mqtt" in found and told in found


def test_nobody_is_told_until_a_shop_asks_for_it(tmp_path):
    found = shop(tmp_path, "")
    assert found.mqtt is None and found.metrics is False
    asked = shop(tmp_path, 'metrics = true\n[mqtt]\nhost = "::1"\ntls = true')
    assert asked.metrics and asked.mqtt is not None and asked.mqtt.at == "::1:8883"


@pytest.mark.parametrize(
    ("mode", "content", "code"),
    [
        (0o600, b"secret\n", ""),
        (0o400, b"secret", ""),
        (0o640, b"secret", "password-open"),
        (0o604, b"secret", "password-open"),
        (0o600, b"\xff\xfe", "file-not-usable"),
        (0o600, None, "file-not-usable"),
    ],
)
def test_a_password_is_read_from_a_file_of_its_owner_alone(tmp_path, mode, content, code):
    path = tmp_path / "password"
    if content is not None:
        path.write_bytes(content)
        path.chmod(mode)
    if not code:
        assert _password(path) == "secret"
        return
    with pytest.raises(SaidTrouble) as trouble:
        _password(path)
    assert trouble.value.said.code == code and "secret" not in str(trouble.value.said)
