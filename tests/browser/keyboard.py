"""The keyboard on the page that is open: what can be reached shows that it was, and nothing lies over it."""

from playwright.sync_api import Page

#: What a pointer can use, and what stands for it on the screen where it is a clear field over a drawn one.
_COMMON = """
  const controls = () => [...document.querySelectorAll("a[href], button, input, select, textarea, summary, [tabindex]")]
    .filter((e) => e.checkVisibility({ visibilityProperty: true }) && !e.disabled && e.tabIndex >= 0);
  const clear = (e) => { const box = e.getBoundingClientRect();
    return box.width < 4 || box.height < 4 || getComputedStyle(e).opacity === "0" };
  const near = (e) => [e.nextElementSibling, ...(e.labels ?? [])].find((one) => one && !clear(one));
  const shown = (e) => clear(e) ? near(e) ?? e : e;
  const told = (e) => e.outerHTML.slice(0, 110);
"""
_FOCUS = (
    "() => {"
    + _COMMON
    + """
  const ringed = (e) => { const { outlineStyle: line, outlineWidth: width } = getComputedStyle(e);
    return !clear(e) && (line === "auto" || (line !== "none" && parseFloat(width) >= 2)) };
  const over = (e, part) => { const box = part.getClientRects()[0]; if (!box) return false;
    return [[0.5, 0.5], [0.1, 0.1], [0.9, 0.9]].some(([x, y]) => {
      let at = document.elementFromPoint(box.left + box.width * x, box.top + box.height * y);
      for (; at; at = at.parentElement) {
        if (at.contains(e)) return false;
        if (/sticky|fixed/.test(getComputedStyle(at).position)) return true;
      }
      return false;
    }) };
  const found = [];
  for (const e of controls()) {
    e.focus();
    if (document.activeElement !== e) { found.push("takes no focus: " + told(e)); continue; }
    const part = shown(e), around = [part, e, e.parentElement, ...(e.form?.querySelectorAll("label") ?? [])];
    if (!around.some(ringed)) found.push("focus is not seen: " + told(e));
    if (over(e, part)) found.push("lies under a bar: " + told(e));
  }
  for (const e of document.querySelectorAll("[tabindex]")) if (e.tabIndex > 0) found.push("out of order: " + told(e));
  document.activeElement.blur();
  scrollTo(0, 0);
  return found;
}"""
)
_LISTEN = (
    "() => {"
    + _COMMON
    + """
  window.stops = [];
  document.addEventListener("focusin", (event) => window.stops.push(event.target));
  const group = (e) => e.type === "radio" ? [...document.forms].indexOf(e.form) + e.name : e;
  window.due = [...new Map(controls().map((e) => [group(e), e])).keys()];
  window.missed = () => { const met = window.stops.map(group), first = [...new Set(met)];
    const say = (said, all) => all.map((one) => said + (one.outerHTML ? told(one) : one));
    const place = (one) => window.due.indexOf(one), known = first.filter((one) => place(one) >= 0);
    return [...say("not reached: ", window.due.filter((one) => !first.includes(one))),
      ...say("out of order: ", known.filter((one, at) => at && place(one) < place(known[at - 1])))] };
  return window.due.length;
}"""
)


def poor_stops(page: Page) -> list[str]:
    """Each control takes the focus in turn (WCAG 2.2, 2.1.1), shows it by an outline of 2 px or more, or the browser's
    own, on itself or on what is drawn for it (2.4.7), and lies under nothing that sticks to the screen (2.4.11); none
    jumps the queue (2.4.3)."""
    page.keyboard.press("Tab")
    return page.evaluate(_FOCUS)


def missed_by_tab(page: Page) -> list[str]:
    """The tab key alone, from the top of the page: every control, in the order in which it is read, and out at the end
    (2.1.1, 2.1.2, 2.4.3). A group of radio buttons is one stop; a field of a date or an hour is several."""
    page.evaluate("document.activeElement.blur()")
    due = page.evaluate(_LISTEN)
    for _ in range(
        due + 1 + 8 * page.locator("input[type=time], input[type=datetime-local], input[type=date]").count()
    ):
        page.keyboard.press("Tab")
    return page.evaluate("window.missed()")
