"""The guards themselves: each is seen to bite."""

import socket

import pytest

from tests.guards import NetworkRefused

pytest_plugins = ["pytester"]

CASES = {
    "skip": "import pytest\n\ndef test_it():\n    pytest.skip('not today')\n",
    "skip mark": "import pytest\n\n@pytest.mark.skip\ndef test_it():\n    pass\n",
    "whole file": "import pytest\n\npytest.skip('no file', allow_module_level=True)\n",
    "expected failure": "import pytest\n\n@pytest.mark.xfail\ndef test_it():\n    assert False\n",
    "unexpected pass": "import pytest\n\n@pytest.mark.xfail\ndef test_it():\n    pass\n",
    "no cases": "import pytest\n\n@pytest.mark.parametrize('case', [])\ndef test_it(case):\n    pass\n",
}


OUTCOMES = {
    "true": {"failed": 3, "errors": 3},
    "": {"skipped": 4, "xfailed": 1, "xpassed": 1},
}


@pytest.mark.parametrize(("ci", "outcomes"), OUTCOMES.items())
def test_in_ci_nothing_is_skipped(pytester, monkeypatch, ci, outcomes):
    monkeypatch.setenv("CI", ci)
    pytester.makepyfile(**{f"test_{name.replace(' ', '_')}": text for name, text in CASES.items()})
    result = pytester.runpytest_subprocess("-p", "tests.guards", "--continue-on-collection-errors")
    result.assert_outcomes(**outcomes)


@pytest.mark.parametrize("address", [("192.0.2.1", 80), ("198.51.100.7", 443)])
def test_no_test_reaches_another_computer(address):
    """192.0.2.0/24 and 198.51.100.0/24 are for documentation (RFC 5737)."""
    with socket.socket() as one:
        with pytest.raises(NetworkRefused):
            one.connect(address)
        with pytest.raises(NetworkRefused):
            one.connect_ex(address)
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as one, pytest.raises(NetworkRefused):
        one.sendto(b"x", address)
