"""The shop's files, and what is installed."""

from daq import __version__
from daq.doctor.looks import versions as of_versions
from tests.doctor.conftest import told


def test_files_in_order_are_counted(made, look):
    made.shop()
    (found,) = look("config")
    assert found.fine
    assert (found.found.of["machines"], found.found.of["gauges"]) == (1, 1)


def test_every_problem_is_a_line(made, look):
    made.shop()
    made.write("machines/practice-mill.toml", "gauge = ", "gouge = ")
    made.write("gauges/practice.toml", "baud = ", "bawd = ")
    found = look("config")
    assert len(found) > 1 and not any(each.fine for each in found)
    text = " ".join(str(each.found) for each in found)
    assert "practice-mill.toml" in text and "practice.toml" in text


def test_the_one_machine_with_a_mistake_is_not_called_missing_besides(made, look):
    made.shop()
    made.write("machines/practice-mill.toml", "gauge = ", "colour = 3\ngauge = ")
    (found,) = look("config")
    assert "colour" in str(found.found) and found.todo.code == "doctor-mend-file"


def test_an_empty_shop_is_to_be_set_up(made, look):
    made.config.mkdir()
    assert told(look("config")) == [(False, "doctor-empty-shop")]


def test_a_folder_that_lacks_one_of_its_files_is_to_be_set_up_further(made, look):
    made.shop()
    (made.config / "shop.toml").unlink()
    assert [each.todo.code for each in look("config")] == ["doctor-set-up"]


def test_no_folder_is_to_be_named(made, look):
    assert told(look("config")) == [(False, "doctor-no-folder")]


def test_versions_name_what_it_stands_on(made, look):
    made.put("/etc/os-release", 'NAME="x"\nPRETTY_NAME="Debian GNU/Linux 13 (trixie)"')
    made.put("/proc/sys/kernel/osrelease", "6.12.0")
    found, packages = look("versions")
    assert found.fine and packages.fine
    assert found.found.of["headsweep"] == __version__
    assert found.found.of["system"] == "Debian GNU/Linux 13 (trixie)"
    assert "pyserial 3." in packages.found.of["packages"]


def test_a_package_that_is_not_there_is_named(look, monkeypatch):
    monkeypatch.setattr(of_versions, "requires", lambda _: ["no-such-thing>=1", "x; extra == 'y'"])
    assert told(look("versions"))[1] == (False, "doctor-packages-missing")
