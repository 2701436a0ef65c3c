"""The line that a benchmark prints."""

import re
from types import SimpleNamespace

import pytest

from tests import benchmarks

LINE = re.compile(r"bench \w+ ratio=\d+(\.\d+)?(e-?\d+)? ours=\d+\.\d{3}m?s baseline=\d+\.\d{3}m?s\n")


@pytest.mark.parametrize(
    ("times", "words"),
    [
        ((3.0, 1.5), "ratio=2 ours=3.000s baseline=1.500s"),
        ((0.004, 0.001, 0.25), "ratio=0.25 ours=4.000ms baseline=1.000ms"),
        ((0.5, 2.0), "ratio=0.25 ours=500.000ms baseline=2.000s"),
    ],
)
def test_ratio_is_ours_to_the_baseline_unless_it_is_given(capsys, times, words):
    benchmarks.emit("card", *times)
    out = capsys.readouterr().out
    assert LINE.fullmatch(out)
    assert words in out


def test_an_unknown_name_ends_with_the_known_ones(capsys):
    assert benchmarks.measure(["nothing"]) == 2
    assert "labels" in capsys.readouterr().out


def test_only_the_named_benchmarks_run_and_helpers_do_not(capsys, monkeypatch):
    modules = {
        "tests.bench.labels": SimpleNamespace(run=lambda emit: emit("labels", 1.0, 1.0)),
        "tests.bench.helper": SimpleNamespace(),
    }
    monkeypatch.setattr(benchmarks.importlib, "import_module", modules.__getitem__)
    names = [SimpleNamespace(name=name.rsplit(".", 1)[1]) for name in modules]
    monkeypatch.setattr(benchmarks.pkgutil, "iter_modules", lambda path: names)
    assert benchmarks.measure([]) == 0
    assert benchmarks.measure(["helper"]) == 0
    assert capsys.readouterr().out == "bench labels ratio=1 ours=1.000s baseline=1.000s\n"
