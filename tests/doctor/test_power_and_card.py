"""Supply and cards, by the files of sysfs."""

import pytest

from tests.doctor.conftest import told

THROTTLED = "/sys/devices/platform/soc/soc:firmware/get_throttled"
HWMON = "/sys/class/hwmon/hwmon1"


@pytest.mark.parametrize(
    ("bits", "fine", "code"),
    [
        ("0", True, "doctor-supply-well"),
        ("0x1", False, "doctor-supply-low"),
        ("10000", False, "doctor-supply-was-low"),
        ("50005", False, "doctor-supply-low"),
        ("e000e", True, "doctor-supply-well"),  # capped and too warm, which is another look's
    ],
)
def test_the_firmwares_bits(made, look, bits, fine, code):
    made.put(THROTTLED, bits)
    assert told(look("supply")) == [(fine, code)]


@pytest.mark.parametrize(("alarm", "code"), [(0, "doctor-supply-well"), (1, "doctor-supply-low")])
def test_the_kernels_own_sensor(made, look, alarm, code):
    made.put(f"{HWMON}/name", "rpi_volt")
    made.put(f"{HWMON}/in0_lcrit_alarm", alarm)
    assert told(look("supply")) == [(not alarm, code)]


def test_another_sensor_and_none_tell_nothing(made, look):
    assert told(look("supply")) == [(True, "doctor-supply-unknown")]
    made.put(f"{HWMON}/name", "nvme")
    made.put(f"{HWMON}/in0_lcrit_alarm", 1)
    assert told(look("supply")) == [(True, "doctor-supply-unknown")]


@pytest.mark.parametrize(
    ("life", "spare", "fine", "used"),
    [
        ("0x01 0x02", "0x01", True, 20),
        ("0x07 0x01", "0x01", True, 70),
        ("0x08 0x01", "0x01", False, 80),
        ("0x01 0x01", "0x02", False, 10),
    ],
)
def test_a_soldered_card_says_how_worn_it_is(made, look, life, spare, fine, used):
    made.put("/sys/block/mmcblk0/device/life_time", life)
    made.put("/sys/block/mmcblk0/device/pre_eol_info", spare)
    (found,) = look("card")
    assert (found.fine, found.found.of["used"]) == (fine, used)


def test_one_that_is_plugged_in_does_not_and_a_computer_without_has_none(made, look):
    assert look("card") == []
    made.put("/sys/block/mmcblk0/device/type", "SD")
    made.put("/sys/block/mmcblk0boot0/size", 8)
    assert told(look("card")) == [(True, "doctor-card-silent")]
