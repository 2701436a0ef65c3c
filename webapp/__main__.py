"""`python -m webapp`."""

from webapp.cli import main

main(prog_name="python -m webapp")
