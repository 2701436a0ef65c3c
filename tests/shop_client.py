"""A browser without a screen: forms are found on the page, filled and sent as a person would."""

import re
from html.parser import HTMLParser
from urllib.parse import urljoin, urlsplit

from tests.spare_apps import lend
from tests.stage import PIN, Stage, new_memory


class _Forms(HTMLParser):
    """Collects every form of a page: where it goes, and what stands in it, or elsewhere and belongs to it by its id."""

    def __init__(self) -> None:
        super().__init__()
        self.forms: list[dict] = []
        self._by_id: dict[str, dict] = {}
        self._fields: dict[str, list[str]] = {}
        self._select: str | None = None
        self._textarea: str | None = None

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        if tag == "form":
            known = self._by_id.setdefault(given.get("id") or f"form {len(self.forms)}", {})
            self.forms.append(
                {"action": given.get("action") or "", "method": (given.get("method") or "get").lower(), "fields": known}
            )
        if given.get("form"):
            fields = self._by_id.setdefault(given["form"], {})
        elif self.forms:
            fields = self.forms[-1]["fields"]
        else:
            return
        name = given.get("name")
        if tag == "input" and name and given.get("type") not in ("submit", "file"):
            if given.get("type") in ("checkbox", "radio"):
                if "checked" in given:
                    fields.setdefault(name, []).append(given.get("value") or "on")
            else:
                fields.setdefault(name, []).append(given.get("value") or "")
        elif tag == "select" and name:
            self._select, self._fields = name, fields
        elif tag == "option" and self._select:
            fields = self._fields
            if "selected" in given or self._select not in fields:
                fields[self._select] = [given.get("value") or ""]
        elif tag == "textarea" and name:
            self._textarea = name
            fields[name] = [""]

    def handle_data(self, data: str) -> None:
        if self._textarea:
            self.forms[-1]["fields"][self._textarea][0] += data

    def handle_endtag(self, tag: str) -> None:
        if tag == "select":
            self._select = None
        elif tag == "textarea":
            self._textarea = None


class Visitor:
    """Somebody at a door of the shop. `page` is the text of the last page, `status` its code, `path` its address."""

    def __init__(self, stage: Stage, door: str = "staff"):
        self.app, give_back = lend(stage.url, stage.database, new_memory())
        stage.at_close.append(give_back)
        self._client = self.app.test_client()
        self._door = door
        self.page, self.status, self.path, self.headers = "", 0, "/", {}
        self.data = b""

    def open(self, path: str, **headers: str) -> "Visitor":
        """Follow an address, and redirects."""
        return self._took(self._client.get(path, environ_overrides=self._environ(), headers=headers), path)

    def send(self, action: str, /, files: dict | None = None, **typed: object) -> "Visitor":
        """Fill the form whose action holds `action` and send it. Names of fields as they are on the page; '__' for
        '-'."""
        forms = _Forms()
        forms.feed(self.page)
        form = next((form for form in forms.forms if action in (form["action"] or self.path)), None)
        assert form is not None, f"no form for {action!r} on {self.path}"
        fields = {name: list(values) for name, values in form["fields"].items()}
        for name, value in typed.items():
            known = name.replace("__", "-")
            fields[known] = [str(item) for item in value] if isinstance(value, list) else [str(value)]
        target = urljoin(self.path, form["action"] or self.path)
        if form["method"] == "get":
            answer = self._client.get(target, query_string=fields, environ_overrides=self._environ())
        else:
            answer = self._client.post(target, data=fields | (files or {}), environ_overrides=self._environ())
        return self._took(answer, target)

    def sign_in(self, name: str = "Noor", pin: str = PIN) -> "Visitor":
        """Sign in at the staff door. The way leads on to a page that is quick to make."""
        return self.open("/sign-in?next=/manifest.webmanifest").send("/sign-in", person=name, secret=pin)

    def find(self, pattern: str) -> str:
        """The first group of a pattern in the page."""
        found = re.search(pattern, self.page, re.DOTALL)
        assert found, f"{pattern!r} is not on {self.path}: {self.text[:2000]}"
        return found.group(1)

    @property
    def text(self) -> str:
        """The words of the page, without tags."""
        bare = re.sub(r"<(script|style)\b.*?</\1>|<[^>]+>", " ", self.page, flags=re.DOTALL)
        return " ".join(bare.replace("&#39;", "'").replace("&#34;", '"').replace("&amp;", "&").split())

    def _environ(self) -> dict[str, str]:
        return {"rackside.door": self._door, "HTTP_HOST": "localhost"}

    def _took(self, answer, path: str) -> "Visitor":
        for _ in range(5):
            if answer.status_code not in (301, 302, 303, 307, 308):
                break
            path = urljoin(path, answer.headers["Location"])
            answer = self._client.get(path, environ_overrides=self._environ())
        parts = urlsplit(path)
        self.path = parts.path + (f"?{parts.query}" if parts.query else "")
        self.status, self.headers, self.data = answer.status_code, answer.headers, answer.data
        self.page = answer.get_data(as_text=True) if answer.mimetype in ("text/html", "text/plain") else ""
        return self
