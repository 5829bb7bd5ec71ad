import pytest

from daq.audit.setup import MachineSetup
from daq.service.files import load
from daq.settings import SettingsError, build, plain
from tests.words import faults


def problems(folder):
    with pytest.raises(SettingsError) as error:
        load(folder)
    return faults(error.value)


def test_the_shipped_files_load(config):
    shop = load(config)
    assert list(shop.machines) == ["practice-mill"]
    assert {"practice", "example-inch"} <= set(shop.gauges)
    assert list(shop.used_gauges) == ["practice"]
    setup = shop.audit_setup("practice-mill")
    assert setup.machine.sweep_radius == 100.0
    assert setup.gauge.resolution == pytest.approx(0.001)
    assert setup.gauge.serial_number == shop.gauges["practice"].serial_number


def test_every_problem_of_every_file_is_listed(config):
    (config / "shop.toml").write_text('name = "x"\nhost = ["a"]\n', encoding="utf-8")
    machine = config / "machines" / "practice-mill.toml"
    text = machine.read_text(encoding="utf-8").replace('"100 mm"', '"100 apples"')
    machine.write_text(text, encoding="utf-8")
    said = "\n".join(problems(config))
    assert "shop.toml" in said and "'hosts'" in said
    assert "practice-mill.toml" in said and "sweep_radius" in said and "100 apples" in said


def test_a_machine_with_an_unknown_gauge_is_told_the_nearest(config):
    machine = config / "machines" / "practice-mill.toml"
    text = machine.read_text(encoding="utf-8").replace('gauge = "practice"', 'gauge = "practise"')
    machine.write_text(text, encoding="utf-8")
    (said,) = problems(config)
    assert "practice-mill.toml: gauge: found 'practise'" in said
    assert said.endswith("nearest known: 'practice'")


def test_what_an_audit_embeds_names_the_tolerance_it_goes_by(config):
    machine = config / "machines" / "practice-mill.toml"
    text = machine.read_text(encoding="utf-8")
    for line in ('limit = "0.025 mm"\n', 'over = "300 mm"\n'):
        assert line in text
        text = text.replace(line, "")
    machine.write_text(f'tolerance = "boring"\n{text}', encoding="utf-8")
    embedded = load(config).audit_setup("practice-mill").machine
    assert (embedded.tolerance, embedded.nod.tolerance, embedded.nod.limit) == (
        "boring",
        "boring",
        0.01,
    )
    assert build(MachineSetup, plain(embedded), "event", quantities="plain") == embedded


@pytest.mark.parametrize(
    ("resolution", "max_error", "finer"),
    [("0.0001", "0.004", True), ("0.001", "0.002", True), ("0.001", "0.004", False)],
)
def test_an_audit_embeds_the_shops_finer_gauges_and_no_example(
    config, resolution, max_error, finer
):
    text = (config / "gauges" / "practice.toml").read_text(encoding="utf-8")
    for key, was, now in (("resolution", "0.001", resolution), ("max_error", "0.004", max_error)):
        text = text.replace(f'{key} = "{was} mm"', f'{key} = "{now} mm"')
    for key in ("spare", "example-spare"):
        (config / "gauges" / f"{key}.toml").write_text(text, encoding="utf-8")
    others = load(config).audit_setup("practice-mill").others
    assert [gauge.key for gauge in others] == (["spare"] if finer else [])


def test_the_other_gauge_of_a_bar_is_told_the_nearest(config):
    machine = config / "machines" / "practice-mill.toml"
    bar = 'second_gauge = "example-inches"\nsecond_radius = "90 mm"\n'
    machine.write_text(f"{bar}{machine.read_text(encoding='utf-8')}", encoding="utf-8")
    (said,) = problems(config)
    assert "practice-mill.toml: second_gauge: found 'example-inches'; allowed: " in said
    assert said.endswith("nearest known: 'example-inch'")


def test_an_empty_folder_says_what_is_missing(tmp_path):
    said = "\n".join(problems(tmp_path))
    assert "shop.toml" in said and "machines" in said and "gauges" in said
    assert "no such folder" in problems(tmp_path / "none")[0]


@pytest.mark.parametrize("found", ["", "proxy.local", "127.0.0.1:80", "10.0.0.0/8", "FE80::1"])
def test_a_proxy_is_named_by_its_address(config, found):
    path = config / "shop.toml"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("proxies = []", f'proxies = ["::1", "{found}"]'), "utf-8")
    (said,) = problems(config)
    assert "proxies[1]: found" in said and "allowed: an address" in said
