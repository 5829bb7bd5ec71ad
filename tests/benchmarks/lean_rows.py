"""How often the lean told while an adjuster is turned is what a pair check taken at once finds.

    python tests/benchmarks/lean_rows.py [--heads N] [--audits N] [--limit MM] [--seed N]

Stated is 95 %; `heads/leaning.py` says what is counted.
"""

import argparse
import math
from itertools import pairwise

from heads.leaning import agrees, told

BOUNDS_MM = (0.0, 0.002, 0.003, 0.006, 0.02, math.inf)


def main() -> None:
    """Measure what was asked for and print it."""
    parser = argparse.ArgumentParser(description="How often the live lean is right.")
    parser.add_argument("--heads", type=int, default=130)
    parser.add_argument("--audits", type=int, default=1)
    parser.add_argument("--limit", type=float, default=0.010, help="mm across the sweep")
    parser.add_argument("--seed", type=int, default=1)
    args = parser.parse_args()
    found = told(args.limit, args.heads, args.audits, args.seed)
    share = agrees(found)
    error = math.sqrt(share * (1.0 - share) / len(found))
    print(f"{len(found)} turns: {100 * share:.1f} % inside the stated 95 % (± {100 * error:.1f})")
    for low, high in pairwise(BOUNDS_MM):
        part = [each for each in found if low <= each[1] < high]
        if part:
            say = f"  stated sd from {low:.3f} mm: {len(part):4d} turns"
            print(f"{say}, {100 * agrees(part):.1f} %")


if __name__ == "__main__":
    main()
