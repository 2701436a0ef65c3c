"""`python3 tests [--quick] [--bench [NAME ...]] [pytest's arguments]`: everything from a bare Python to a verdict."""

import argparse
import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path[0] = str(ROOT)

from demo import bootstrap  # noqa: E402  the project's folder must be on the path first

#: Left out by --quick: the tests in a real browser, the wheel, what is marked as long (many trials, much waiting), and
#: three in four examples of a law.
LONG = ("-m", "not browser and not long", "--ignore=tests/house/test_wheel.py", "--hypothesis-profile=quick")
LINT_IMPORTS = "import sys; from importlinter.cli import lint_imports; sys.exit(lint_imports())"


def main() -> int:
    """Run what was asked for; the exit status is 0 only when all of it went well."""
    parser = argparse.ArgumentParser(prog="python3 tests", description=__doc__.split(": ", 1)[1], allow_abbrev=False)
    parser.add_argument(
        "--quick", action="store_true", help="leave out the browser, the wheel, long trials and most examples of laws"
    )
    parser.add_argument("--bench", nargs="*", metavar="NAME", help="measure instead of test: all benchmarks, or these")
    options, for_pytest = parser.parse_known_args()
    os.chdir(ROOT)
    if options.bench is not None:
        from tests.benchmarks import measure

        return measure(options.bench)
    from tests.system_packages import provide

    left_out = [*provide(browser=not options.quick), *(LONG if options.quick else [])]
    lint = max(_run("-m", "ruff", "check", "--quiet", "--output-format=concise", "."), _run("-c", LINT_IMPORTS))
    spread = [] if any(word in for_pytest for word in ("-s", "--pdb")) else ["-n", "auto", "--no-loadscope-reorder"]
    where = [] if any(Path(word.split("::")[0]).exists() for word in for_pytest) else ["tests/house", "tests"]
    return max(_run("-m", "pytest", "-q", *spread, *left_out, *for_pytest, *where), lint)


def _run(*command: str) -> int:
    # One thread a process for the arithmetic, since there is a process on every core already; every file is compiled
    # once, not in each process anew.
    env = os.environ | {"OPENBLAS_NUM_THREADS": "1", "PYTHONDONTWRITEBYTECODE": ""}
    return abs(subprocess.call([sys.executable, *command], env=env))


if __name__ == "__main__":
    bootstrap.enter(Path(__file__).parent, test=True)
    sys.exit(main())
