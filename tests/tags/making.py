"""Labels for tests, with codes from a fixed seed."""

from random import Random

from webapp.tags.codes import new_code
from webapp.tags.page import Label

HOSTS = ("shop.local",)


def make_labels(count: int, title: str = "Green mushroom", subtitle: str = "") -> list[Label]:
    """`count` labels of one shop; the same codes for the same count."""
    random = Random(count)
    codes = [new_code(random) for _ in range(count)]
    return [Label(code, f"http://SHOP.LOCAL/{code}", title, subtitle) for code in codes]
