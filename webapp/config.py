"""Every setting that comes from outside the shop's own pages, its default and its meaning."""

import os
import secrets
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True, slots=True)
class Config:
    """database_url: any SQLAlchemy URL. secret_key signs the cookies. staff_on_public_door: staff may sign in over the
    walk-ins' plain http (the demo says so, with a warning; `serve` does not unless told)."""

    database_url: str
    secret_key: str
    staff_on_public_door: bool = False
    testing: bool = False


def instance_folder() -> Path:
    """Where the shop's database and secret live: RACKSIDE_INSTANCE, else 'instance' in the current folder."""
    return Path(os.environ.get("RACKSIDE_INSTANCE", "instance")).resolve()


def from_environment(staff_on_public_door: bool = False) -> Config:
    """The configuration of a running shop: RACKSIDE_DATABASE, else a SQLite file in the instance folder."""
    folder = instance_folder()
    folder.mkdir(parents=True, exist_ok=True)
    url = os.environ.get("RACKSIDE_DATABASE", f"sqlite:///{folder / 'rackside.sqlite'}")
    return Config(url, _secret_key(folder / "secret_key"), staff_on_public_door)


def _secret_key(path: Path) -> str:
    """The key that signs cookies, made at the first start and readable by its owner only."""
    if not path.exists():
        descriptor = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
        with os.fdopen(descriptor, "w") as file:
            file.write(secrets.token_hex(32))
    return path.read_text().strip()
