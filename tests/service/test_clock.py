from daq.service.clock import SystemClock


def test_stamps_grow_and_carry_the_boot():
    clock = SystemClock()
    first, second = clock.stamp(), clock.stamp()
    assert second.mono_ns > first.mono_ns
    assert first.boot == second.boot != ""
    assert second.utc_us >= first.utc_us > 1_700_000_000_000_000
    assert isinstance(first.utc_trusted, bool)


def test_the_boot_comes_from_the_kernel(tmp_path):
    boot = tmp_path / "boot_id"
    boot.write_text("abc\n", encoding="ascii")
    assert SystemClock(boot).stamp().boot == "abc"
