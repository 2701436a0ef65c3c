"""axe on the page that is open: what breaks a rule of WCAG 2.2, A and AA, or of good practice."""

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

RULES = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice")


def broken_rules(page: Page, rules: tuple[str, ...] = RULES) -> list[str]:
    """A line for each place that breaks a rule. All rules run; axe only collects nothing about the places that are
    well, which would take most of the time."""
    options = {"runOnly": list(rules), "resultTypes": ["violations"]}
    violations = Axe().run(page, options=options).response["violations"]
    return [f"{one['id']}: {node['html'][:160]}" for one in violations for node in one["nodes"]]
