// A page that reports on work in progress looks again by itself, until the work is over.
const part = document.querySelector("[data-poll]");

async function look() {
  try {
    const answer = await fetch(location.href);
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    const fresh = page.querySelector("#main > .stack");
    if (answer.ok && fresh) {
      part.replaceChildren(...fresh.childNodes);
      if (!fresh.hasAttribute("data-poll")) return;
    }
  } catch {
    // No signal just now: look again later.
  }
  setTimeout(look, Number(part.dataset.poll));
}

if (part) setTimeout(look, Number(part.dataset.poll));
