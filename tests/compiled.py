"""Templates compiled once a process: every test makes an app of its own, and each would compile all of them again."""

from flask import Flask
from jinja2 import BytecodeCache, Environment
from jinja2.bccache import Bucket


class OnceCompiled(BytecodeCache):
    """Jinja keeps what it compiled with a checksum of the text, so a template that was changed is compiled anew; apps
    that are set up otherwise (test_style has a bare one) do not share it."""

    def __init__(self) -> None:
        self._kept: dict[str, bytes] = {}

    def get_bucket(self, environment: Environment, name: str, filename: str | None, source: str) -> Bucket:
        """The place of one template as this environment compiles it."""
        flags = (environment.trim_blocks, environment.lstrip_blocks, getattr(environment, "newstyle_gettext", False))
        set_up = f"{flags} {sorted(environment.extensions)} {sorted(environment.filters)}"
        return super().get_bucket(environment, f"{set_up} {name}", filename, source)

    def load_bytecode(self, bucket: Bucket) -> None:
        """Fill the place when the template was compiled before."""
        if bucket.key in self._kept:
            bucket.bytecode_from_string(self._kept[bucket.key])

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep what was compiled."""
        self._kept[bucket.key] = bucket.bytecode_to_string()


def compile_once() -> None:
    """Every app of this process shares what it compiled."""
    Flask.jinja_options = {**Flask.jinja_options, "bytecode_cache": OnceCompiled()}
