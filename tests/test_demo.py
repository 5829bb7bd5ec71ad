"""The demo's wiring: files of its own that stay as a person leaves them."""

import signal

import pytest

from daq.demo import demo


@pytest.fixture
def shown():
    """Run a demo until its address is told; the addresses told."""
    addresses = []
    before = {number: signal.getsignal(number) for number in (signal.SIGINT, signal.SIGTERM)}

    def tell(address):
        addresses.append(address)
        signal.raise_signal(signal.SIGTERM)

    def show(data):
        assert demo(data, 0, tell, browser=False, speed=100.0, hands=False, seed=1) == 0
        return addresses

    yield show
    for number, handler in before.items():
        signal.signal(number, handler)


def test_a_demo_makes_its_files_once_and_leaves_them_to_the_person(shown, tmp_path):
    (address,) = shown(tmp_path)
    assert address.startswith("http://localhost:")
    file = tmp_path / "config" / "shop.toml"
    file.write_text("# mine\n" + file.read_text(encoding="utf-8"), encoding="utf-8")
    assert len(shown(tmp_path)) == 2
    assert file.read_text(encoding="utf-8").startswith("# mine\n")
