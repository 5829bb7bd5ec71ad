"""Workers that run the tests of one collection, file by file: forked once all tests are known.

To import and collect them costs a worker that is started anew nine seconds of its core. So what a
file works out as it is imported is the collecting process's: its number, say, is another.
"""

import gc
import os
from itertools import groupby
from multiprocessing.connection import Connection, Pipe, wait
from typing import Any

import pytest

PLACE = 4
"""Bytes of a file's place in the queue."""

File = list[pytest.Item]


class Workers:
    """Runs the tests by so many processes, each of which takes file after file."""

    def __init__(self, count: int) -> None:
        self._count = count

    def pytest_runtestloop(self, session: pytest.Session) -> bool | None:
        if session.testsfailed or session.config.option.collectonly:
            return None
        files = [list(items) for _, items in groupby(session.items, lambda item: item.path)]
        queue, fill = os.pipe()
        os.write(fill, b"".join(at.to_bytes(PLACE, "big") for at in range(len(files))))
        os.close(fill)
        gc.collect()
        gc.freeze()  # what is there stays: no worker need look through it, nor copy it
        lines: dict[Connection, int] = {}
        for _ in range(self._count):
            ours, theirs = Pipe(duplex=False)
            if (pid := os.fork()) == 0:
                for line in (ours, *lines):
                    line.close()
                Worker(session, queue, theirs).work(files)
                return True
            theirs.close()
            lines[ours] = pid
        Told(session, queue).hear(lines)
        os.close(queue)
        return True


class Worker:
    """In a process of its own: tells what comes of each test, and shows nothing by itself."""

    def __init__(self, session: pytest.Session, queue: int, line: Connection) -> None:
        self._session = session
        self._queue = queue
        self._line = line
        manager = session.config.pluginmanager
        manager.unregister(name="terminalreporter")
        silent = pytest.TerminalReporter(session.config, open(os.devnull, "w"))  # noqa: PTH123, SIM115
        silent.pytest_sessionstart(session)
        manager.register(silent, "terminalreporter")
        manager.register(self)

    def work(self, files: list[File]) -> None:
        """Run files as long as there are any; how the session ends is pytest's own affair."""
        file = self._next(files)
        while file and not (self._session.shouldfail or self._session.shouldstop):
            file = self._run(file, files)

    def _run(self, file: File, files: list[File]) -> File:
        """Run one file, and return the next: what both share stays."""
        *most, last = file
        for item, after in zip(most, file[1:], strict=True):
            self._run_one(item, after)
        coming = self._next(files)
        self._run_one(last, coming[0] if coming else None)
        return coming

    def _run_one(self, item: pytest.Item, after: pytest.Item | None) -> None:
        if not (self._session.shouldfail or self._session.shouldstop):
            item.config.hook.pytest_runtest_protocol(item=item, nextitem=after)

    def _next(self, files: list[File]) -> File:
        place = os.read(self._queue, PLACE)
        return files[int.from_bytes(place, "big")] if place else []

    def pytest_runtest_logstart(self, nodeid: str, location: Any) -> None:
        self._line.send((nodeid, location, None))

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        config = self._session.config
        plain = config.hook.pytest_report_to_serializable(config=config, report=report)
        self._line.send((report.nodeid, report.location, plain))


class Told:
    """What the workers tell, as if it had been done here."""

    def __init__(self, session: pytest.Session, queue: int) -> None:
        self._session = session
        self._queue = queue
        self._left = {item.nodeid: item.location for item in session.items}

    def hear(self, lines: dict[Connection, int]) -> None:
        """Until no worker is left; whatever was not run though nobody stopped it has failed."""
        codes = []
        while lines:
            for line in list(wait(lines)):
                assert isinstance(line, Connection)
                try:
                    self._hear(*line.recv())
                except EOFError:
                    codes.append(os.waitstatus_to_exitcode(os.waitpid(lines.pop(line), 0)[1]))
        if self._session.shouldfail:
            raise self._session.Failed(self._session.shouldfail)
        for nodeid, location in self._left.items():
            say = f"not run to its end: the workers ended with {codes}"
            self._tell(pytest.TestReport(nodeid, location, {}, "failed", say, "call"))
        assert self._session.testsfailed or not any(codes), f"the workers ended with {codes}"

    def _hear(self, nodeid: str, location: Any, plain: Any) -> None:
        config = self._session.config
        if plain is None:
            config.hook.pytest_runtest_logstart(nodeid=nodeid, location=location)
            return
        report = config.hook.pytest_report_from_serializable(config=config, data=plain)
        self._tell(report)
        if report.when == "teardown":
            self._left.pop(nodeid)
            config.hook.pytest_runtest_logfinish(nodeid=nodeid, location=location)
        if self._session.shouldfail:
            while os.read(self._queue, PLACE):
                pass  # what nobody has begun is left

    def _tell(self, report: pytest.TestReport) -> None:
        self._session.config.hook.pytest_runtest_logreport(report=report)
