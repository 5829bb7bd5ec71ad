"""Where the service listens, and what it says when it is asked as the own wall."""

from daq.doctor.service import asked_service, listens_at

HEAD = "  sl  local_address rem_address   st"
REST = "00000000:00000000 00:00000000 00000000     0        0"


def table(*rows):
    """As proc(5) shows /proc/net/tcp."""
    lines = (
        f"   {n}: {local} 00000000:0000 {state} {REST} {inode} 1 0"
        for n, (local, state, inode) in enumerate(rows)
    )
    return "\n".join((HEAD, *lines))


def test_the_address_is_that_of_its_own_listening_socket(made):
    made.process(77, "headsweep", f3="socket:[501]", f4="socket:[502]")
    made.put("/proc/77/net/tcp", table(
        ("0100007F:1F40", "0A", 400),  # another process's
        ("0100007F:21C2", "01", 501),  # a connection
        ("0100007F:21C3", "0A", 502),
    ))  # fmt: skip
    assert listens_at(made.patient(), 77) == ("127.0.0.1", 0x21C3)


def test_all_addresses_stand_for_this_computers_own(made):
    made.process(77, "headsweep", f3="socket:[501]")
    made.put("/proc/77/net/tcp", table(("00000000:21C2", "0A", 501)))
    assert listens_at(made.patient(), 77) == ("127.0.0.1", 8642)
    made.put("/proc/77/net/tcp", table())
    for words, host in (("0" * 32, "::1"), ("0" * 24 + "01000000", "::1")):
        made.put("/proc/77/net/tcp6", table((f"{words}:21C2", "0A", 501)))
        assert listens_at(made.patient(), 77) == (host, 8642)


def test_whom_this_user_may_not_look_at_is_not_asked(made):
    made.process(77, "headsweep")
    made.holds_record(77)
    assert asked_service(made.patient()) is None
