"""Coverage-guided fuzzing: python tests/fuzz/fuzz.py TARGET CORPUS [options of libFuzzer].

Such as -runs=100000 or -max_total_time=600. What it finds is written to `crash-…` in the working
folder: put it into tests/fuzz/corpus/TARGET, where every run of the tests tries it again.
"""

import sys
from pathlib import Path

import atheris

sys.path.append(str(Path(__file__).resolve().parents[2]))  # for the tests; what is installed first

with atheris.instrument_imports(include=["daq", "web"]):
    from tests.fuzz.seeds import SEEDS
    from tests.fuzz.targets import TARGETS

    SEEDED = tuple(SEEDS[sys.argv[1]]())
    for seed in SEEDED:
        TARGETS[sys.argv[1]](seed)  # modules that are imported when they are first of use, too

if __name__ == "__main__":
    name, corpus = sys.argv[1], Path(sys.argv[2])
    corpus.mkdir(exist_ok=True)
    for n, seed in enumerate(SEEDED):
        (corpus / f"seed-{n}").write_bytes(seed)
    atheris.Setup([sys.argv[0], *sys.argv[2:]], TARGETS[name])
    atheris.Fuzz()
