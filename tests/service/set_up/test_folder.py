"""A shop's files are there whole, old or new, whatever ends the writing and wherever."""

import errno
import os
import subprocess
import sys
from collections import Counter
from contextlib import suppress

import pytest

from daq.service.files import load
from daq.service.set_up.folder import ChangedMeanwhile, ConfigFolder, NotSoundError

MILL = "machines/practice-mill.toml"
KILLS = (pytest.param(20, id="20"), pytest.param(1000, id="1000", marks=pytest.mark.long))
KILLING = """
import os, random, select, signal, sys
from pathlib import Path
from daq.service.files import load
from daq.service.set_up.folder import ConfigFolder

shop, kills = ConfigFolder(Path(sys.argv[1])), int(sys.argv[2])
text, draw, amid = shop.text("shop.toml"), random.Random(7), 0
shop._try = lambda *_: None  # the killing is to fall where it writes

def nth(n):
    return f"{text}# {n}\\n" + "# so long\\n" * (n % 7 * 500)

for kill in range(kills):
    out, into = os.pipe()
    child = os.fork()
    if not child:
        seen = shop.as_of()
        for n in range(10**9):
            seen = shop.put("shop.toml", nth(n), seen)
            os.write(into, b".")
    os.close(into)
    select.select([out], [], [])
    for _ in range(draw.randrange(30_000)):
        pass
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    with open(out, "rb") as told:
        answered = len(told.read())
    found = shop.text("shop.toml")
    assert found in (nth(answered - 1), nth(answered)), kill
    amid += found != nth(answered - 1) or bool(list(shop.path.glob("*.part-*")))
    load(shop.path)
print(amid)
"""
"""Kills what saves and saves, once it has answered, and looks; prints how often it fell amid."""


@pytest.fixture
def shop(config):
    return ConfigFolder(config)


def files(config):
    return {path: path.read_bytes() for path in config.rglob("*") if path.is_file()}


def more(shop, name="shop.toml"):
    return shop.text(name) + "# one line more\n"


def test_a_file_is_written_for_everybody_to_read_and_the_answer_is_what_comes_next(shop, config):
    seen = shop.put("shop.toml", more(shop), shop.as_of())
    assert seen == shop.as_of()
    assert oct((config / "shop.toml").stat().st_mode & 0o777) == oct(0o644 & ~_umask())
    shop.put("shop.toml", more(shop), seen)
    assert (config / "shop.toml").read_text(encoding="utf-8").endswith("# one line more\n" * 2)


def _umask():
    mask = os.umask(0)
    os.umask(mask)
    return mask


def test_a_shop_begins_with_a_folder_that_is_not_there(shop, config, tmp_path):
    begun = ConfigFolder(tmp_path / "etc" / "headsweep")
    for name in ("shop.toml", "gauges/practice.toml", MILL):
        begun.put(name, shop.text(name), begun.as_of())
    assert list(load(begun.path).machines) == ["practice-mill"]


@pytest.mark.parametrize("how", ["changed", "added", "deleted"])
def test_what_somebody_changed_meanwhile_is_not_written_over(shop, config, how):
    seen = shop.as_of()
    if how == "changed":
        (config / MILL).write_bytes((config / MILL).read_bytes() + b"#\n")
    elif how == "added":
        (config / "gauges" / "new.toml").touch()
    else:
        (config / "shop.toml").unlink()
    before = files(config)
    with pytest.raises(ChangedMeanwhile):
        shop.put(MILL, "name = 1", seen)
    assert files(config) == before


def test_what_would_not_be_read_is_refused_by_file_and_key_and_nothing_is_written(shop, config):
    before = files(config)
    bad = shop.text(MILL).replace('unit = "mm"', 'unit = "cm"')
    with pytest.raises(NotSoundError) as refused:
        shop.put(MILL, bad, shop.as_of())
    (told,) = refused.value.problems
    assert (told.of["where"], told.of["path"]) == (MILL, "unit")
    assert files(config) == before


def test_a_gauge_that_a_machine_would_lose_is_such_a_mistake_too(shop):
    bad = shop.text(MILL).replace('gauge = "practice"', 'gauge = "nobody"')
    with pytest.raises(NotSoundError) as refused:
        shop.put(MILL, bad, shop.as_of())
    assert f"{MILL}: gauge: found 'nobody'" in str(refused.value.problems[0])


def test_one_broken_file_keeps_no_other_from_being_written(shop, config):
    (config / "gauges" / "broken.toml").write_text("name = ", encoding="utf-8")
    shop.put(MILL, more(shop, MILL), shop.as_of())


def test_a_key_that_is_taken_gets_a_number(shop):
    assert shop.free("machines", "mill") == "mill"
    assert shop.free("machines", "practice-mill") == "practice-mill-2"


class Stops:
    """Lets the n-th call of all fail, or be the last one ever: half of what is written is there."""

    def __init__(self, monkeypatch, at, wrong):
        self.count, self.at, self.wrong, self.kinds = 0, at, wrong, Counter()
        for name in ("open", "fsync", "rename", "replace", "unlink", "mkdir", "fchown"):
            monkeypatch.setattr(os, name, self._wrapped(name, getattr(os, name)))

    def _wrapped(self, name, real):
        def call(*args, **named):
            self.count += 1
            self.kinds[name] += 1
            if self.count == self.at:
                raise self.wrong
            return real(*args, **named)

        return call


@pytest.mark.parametrize("wrong", [OSError(errno.ENOSPC, "full"), KeyboardInterrupt()], ids=type)
@pytest.mark.parametrize("name", ["shop.toml", MILL, "gauges/new.toml"])
def test_whichever_call_fails_the_file_is_as_it_was_or_as_it_was_to_be(
    shop, config, monkeypatch, wrong, name
):
    there = (config / name).exists()
    old = files(config)
    new = more(shop, name if there else "gauges/practice.toml")
    monkeypatch.setattr(shop, "_try", lambda *_: None)
    at, done = 0, False
    while not done:
        at += 1
        seen = shop.as_of()
        with monkeypatch.context() as patched:
            stops = Stops(patched, at, wrong)
            try:
                shop.put(name, new, seen)
                done = stops.count < at
            except type(wrong):
                pass
        after = {p: b for p, b in files(config).items() if ".part-" not in p.name}
        assert after in (old, old | {config / name: new.encode()}), at
        if after != old:
            (config / name).unlink() if not there else (config / name).write_bytes(
                old[config / name]
            )
    assert at > 5, stops.kinds


def test_whichever_call_fails_a_new_file_is_there_with_what_goes_beside_it_or_neither(
    shop, config, monkeypatch
):
    old, new = files(config), shop.text("gauges/practice.toml")
    monkeypatch.setattr(shop, "_try", lambda *_: None)
    at, done = 0, False
    while not done:
        at += 1
        with monkeypatch.context() as patched:
            stops = Stops(patched, at, OSError(errno.ENOSPC, "full"))
            with suppress(OSError):
                shop.add("gauges", "arm", new, {".cap": "bytes"})
                done = stops.count < at
        new_ones = {p: b for p, b in files(config).items() if p not in old}
        made = {p.name: b for p, b in new_ones.items() if ".part-" not in p.name}
        assert made in ({}, {"arm.toml": new.encode(), "arm.cap": b"bytes"}), at
        for name in made:
            (config / "gauges" / name).unlink()
    assert at > 8, stops.kinds


def test_a_new_file_takes_no_others_place(shop, config):
    text = shop.text("gauges/practice.toml")
    (config / "gauges" / "arm.cap").touch()
    assert shop.add("gauges", "arm", text, {".cap": ""})[0] == "arm-2"
    assert shop.add("gauges", "practice", text, {}) == ("practice-2", shop.as_of())


def test_a_file_cut_off_at_any_byte_is_only_ever_the_part(shop, config, monkeypatch):
    """What was written of it stands under another name, which nothing reads."""
    new = more(shop).encode()
    old = load(config)
    for size in (0, 1, len(new) // 2, len(new) - 1):
        part = config / "shop.toml.part-9"
        part.write_bytes(new[:size])
        assert load(config) == old
        shop.put("shop.toml", shop.text("shop.toml"), shop.as_of())
        assert not part.exists(), "it is cleared away by the next one"


@pytest.mark.parametrize("kills", KILLS)
def test_killed_while_it_saves_and_saves(config, kills):
    """The file is the one that was answered last, or the one after it, and nothing else."""
    command = [sys.executable, "-P", "-c", KILLING, str(config), str(kills)]
    done = subprocess.run(command, capture_output=True, text=True, timeout=600, check=False)
    assert (done.returncode, done.stderr) == (0, "")
    assert int(done.stdout) > 0, "no kill fell amid a save"
