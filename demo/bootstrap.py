"""From a bare Python to one with everything installed: makes .venv, installs the project into it, goes on inside it.

Standard library only, and written so that an older Python can read it far enough to say that it is too old.
"""

import hashlib
import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / ".venv"
STAMP = VENV / "rackside-installed"
OLDEST = (3, 11)


def enter(script, test=False):
    """Go on inside the project's own environment, making it when needed.

    script: the folder that was started (its __main__ is started again inside). test: install what the tests need too.
    Returns when this is already the Python of .venv; otherwise it does not return.
    """
    if sys.version_info < OLDEST:
        sys.exit(
            "Rackside needs Python {}.{} or newer; this is {}.{} ({}).".format(
                *OLDEST, sys.version_info[0], sys.version_info[1], sys.executable
            )
        )
    _make_venv()
    _install(test)
    if Path(sys.prefix).resolve() != VENV.resolve():
        _start_again(script)


def venv_python():
    """The Python inside .venv."""
    return VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def _make_venv():
    if _works(venv_python()):
        return
    try:
        import ensurepip  # noqa: F401
        import venv
    except ImportError:
        sys.exit(_missing("the modules venv and ensurepip"))
    print("Making an environment of its own in .venv", flush=True)
    try:
        venv.create(str(VENV), with_pip=True, clear=True)
    except (OSError, subprocess.CalledProcessError) as error:
        sys.exit("The environment could not be made: {}\n{}".format(error, _missing("what it needs")))


def _missing(what):
    package = "python{}.{}-venv".format(*sys.version_info[:2])
    return (
        f"This Python is installed without {what}.\n"
        f"On Debian and its relatives:  apt install {package}   (or: apt install python3-venv)\n"
        "On other systems, install Python from the system's packages or its own installer, then start again."
    )


def _works(python):
    if not python.exists():
        return False
    wanted = f"import sys, pip; sys.exit(sys.version_info < {OLDEST!r})"
    return subprocess.call([str(python), "-c", wanted], stderr=subprocess.DEVNULL) == 0


def _install(test):
    """Install when pyproject.toml is not the one that was installed last, or when the tests' packages are missing."""
    digest = hashlib.sha256((ROOT / "pyproject.toml").read_bytes()).hexdigest()
    installed = STAMP.read_text().split() if STAMP.exists() else []
    if digest in installed and (not test or "test" in installed):
        return
    with_test = test or "test" in installed
    what = "the tests need" if with_test else "the shop needs"
    print(f"Installing what {what} (once; a minute or two)", flush=True)
    target = ".[test]" if with_test else "."
    command = [str(venv_python()), "-m", "pip", "install", "--disable-pip-version-check", "--no-input", "-e", target]
    status = _with_progress(command)
    if status != 0:
        sys.exit("Installing did not work: see the lines above. Is there a connection to the package index?")
    STAMP.write_text(digest + (" test" if with_test else "") + "\n")


def _with_progress(command):
    """Run pip, showing one short line for each package; the whole output when it fails."""
    lines = []
    with subprocess.Popen(
        command, cwd=str(ROOT), stdout=subprocess.PIPE, stderr=subprocess.STDOUT, encoding="utf-8", errors="replace"
    ) as pip:
        for line in pip.stdout:
            lines.append(line)
            if line.startswith(("Collecting", "Installing collected", "Successfully")):
                print("  " + line.strip()[:100], flush=True)
    if pip.returncode != 0:
        print("".join(lines), flush=True)
    return pip.returncode


def _start_again(script):
    command = [str(venv_python()), str(script), *sys.argv[1:]]
    sys.stdout.flush()
    if os.name == "nt":
        sys.exit(subprocess.call(command))
    os.execv(command[0], command)
