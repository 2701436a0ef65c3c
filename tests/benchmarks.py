"""Runs `tests/bench/*.py`. Each has `run(emit)` and measures what is ours and a baseline in the same run.

It calls `emit(name, ours, baseline)` with seconds for each. The ratio printed is ours / baseline, 'how many times the
baseline' (smaller is better); a benchmark whose goal is a share of the baseline's speed gives `ratio=baseline / ours`.
"""

import importlib
import pkgutil
from collections.abc import Callable
from types import ModuleType

from tests import bench


def measure(names: list[str]) -> int:
    """Run the named benchmarks (all when none is named), one printed line each. 2 when a name is unknown."""
    found = {info.name: info.name for info in pkgutil.iter_modules(bench.__path__) if not info.name.startswith("_")}
    unknown = [name for name in names if name not in found]
    if unknown:
        print(f"There is no benchmark {', '.join(unknown)}. There are: {', '.join(sorted(found))}.")
        return 2
    for name in sorted(names or found):
        module = importlib.import_module(f"tests.bench.{name}")
        run = runner(module)
        if run is not None:
            run(emit)
    return 0


def runner(module: ModuleType) -> Callable[..., None] | None:
    """The module's `run`, or None for one that only helps the others."""
    return getattr(module, "run", None)


def emit(name: str, ours: float, baseline: float, ratio: float | None = None) -> None:
    """Print one result: times in seconds; ratio is ours / baseline unless given."""
    share = ours / baseline if ratio is None else ratio
    print(f"bench {name} ratio={share:.3g} ours={_time(ours)} baseline={_time(baseline)}", flush=True)


def _time(seconds: float) -> str:
    return f"{seconds:.3f}s" if seconds >= 1 else f"{seconds * 1000:.3f}ms"
