"""Everything that comes along at run time has a permissive licence, by what its own package says."""

import re
from importlib.metadata import distribution, requires

from packaging.markers import default_environment
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

#: SPDX names or the words of older packages. LGPL is weak copyleft: used as a library, unchanged, it binds only itself.
ALLOWED = re.compile(r"\b(MIT|MIT-CMU|BSD|BSD-2-Clause|BSD-3-Clause|Apache|Apache-2\.0|PSF-2\.0|HPND|0BSD|ISC|Zlib)\b")
WEAK = {"zeroconf": "LGPL-2.1-or-later"}
GPL = re.compile(r"\b(A?GPL|GNU (Affero )?General Public)", re.IGNORECASE)


def run_time(name="rackside", seen=None):
    """Names of every package that `name` needs here, without extras."""
    seen = set() if seen is None else seen
    environment = default_environment() | {"extra": ""}
    for line in requires(name) or []:
        requirement = Requirement(line)
        if requirement.marker is not None and not requirement.marker.evaluate(environment):
            continue
        package = canonicalize_name(requirement.name)
        if package not in seen:
            seen.add(package)
            run_time(package, seen)
    return seen


def licence(name):
    """What a package says of its licence: expression, classifiers, or the first line of the text."""
    about = distribution(name).metadata
    classifiers = [line.rsplit("::", 1)[1] for line in about.get_all("Classifier", []) if line.startswith("License ::")]
    said = about.get("License-Expression") or "; ".join(classifiers) or (about.get("License") or "").split("\n")[0]
    return said.strip()


def test_run_time_packages_are_permissive():
    names = run_time()
    assert {"flask", "sqlalchemy", "gsw", "jinja2"} <= names
    said = {name: licence(name) for name in sorted(names)}
    wrong = {name: words for name, words in said.items() if not ALLOWED.search(words) and name not in WEAK}
    assert not wrong
    assert {name: said[name] for name in WEAK} == WEAK


def test_no_run_time_package_is_under_the_gpl():
    said = {name: licence(name) for name in run_time() - set(WEAK)}
    assert not {name: words for name, words in said.items() if GPL.search(words)}


def test_the_gpl_reference_is_for_tests_only():
    assert "pyco2sys" not in run_time()
    assert GPL.search(licence("PyCO2SYS"))
