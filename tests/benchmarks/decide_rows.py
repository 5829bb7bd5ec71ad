"""How likely "in" after one more move is said to be as found, and how often it comes so.

    python tests/benchmarks/decide_rows.py [--heads N] [--audits N] [--limit MM] [--seed N]

Exact heads that tightening shifts, by the guarded rule: `heads/foretold.py` says what is counted.
"""

import argparse

from heads.foretold import compared, foretold
from heads.shop import Files


def main() -> None:
    """Measure what was asked for and print it."""
    parser = argparse.ArgumentParser(description='How likely "in" is, said and come so.')
    parser.add_argument("--heads", type=int, default=60)
    parser.add_argument("--audits", type=int, default=3)
    parser.add_argument("--limit", type=float, default=0.005, help="mm across the sweep")
    parser.add_argument("--seed", type=int, default=1)
    args = parser.parse_args()
    found = foretold(Files(args.limit, "guarded"), args.heads, args.audits, args.seed)
    said, came, error = compared(found)
    print(f"{args.limit} mm: {len(found)} axes, said {said:.3f}, came so {came:.3f} ± {error:.3f}")
    for low in (0.0, 0.2, 0.4, 0.6, 0.8):
        part = [each for each in found if low <= each[0] < low + 0.2 + (low == 0.8)]
        if part:
            said, came, error = compared(part)
            print(f"  {low:.1f}: {len(part):4d}  said {said:.3f}  came {came:.3f} ± {error:.3f}")


if __name__ == "__main__":
    main()
