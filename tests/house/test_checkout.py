"""One test file runs from a checkout: the dependencies are installed, headsweep need not be."""

import os
import shutil
import subprocess
import sys

RUN = """
import sys, daq, pytest, web
print(daq.__file__, web.__file__)
sys.exit(pytest.main(sys.argv[1:]))
"""
FILES = ("tests/squaring/test_aim.py", "tests/service/test_files.py")
"""One of a pure room, and one that reads the configuration that comes with headsweep."""


def test_a_test_file_runs_from_a_checkout(tree, tmp_path):
    checkout = tmp_path / "checkout"
    for path in tree.files():
        name = tree.name(path)
        if name.startswith(("daq/", "web/", "config/", "tests/")) or name == "pyproject.toml":
            (checkout / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(path, checkout / name)
    left_out = ("PYTEST", "PYTHONSAFEPATH", "PYTHONPATH")
    environment = {k: v for k, v in os.environ.items() if not k.startswith(left_out)}
    done = subprocess.run(
        [sys.executable, "-c", RUN, "-q", "-p", "no:cacheprovider", *FILES],
        cwd=checkout,
        env=environment | {"PYTHONDONTWRITEBYTECODE": "1"},
        capture_output=True,
        text=True,
        timeout=100,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    used = done.stdout.splitlines()[0].split()
    assert used == [str(checkout / "daq" / "__init__.py"), str(checkout / "web" / "__init__.py")]
