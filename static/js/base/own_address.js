// The page that answers a refused form stands in the history under an address that opens it: going back to it, or
// reloading it, asks nobody to send the form once more. What was sent and comes back out of the browser's memory is
// made anew: its deed is done.
const FORM_PAGE = "form page";
const answer = document.querySelector("meta[name=own-address]");
const here = () => location.pathname + location.search;

if (answer) {
  for (const form of document.forms) if (!form.getAttribute("action")) form.setAttribute("action", here());
  history.replaceState(history.state, "", answer.content || sessionStorage.getItem(FORM_PAGE) || here());
}

document.addEventListener("submit", (event) => {
  if (event.target.getAttribute("method")?.toLowerCase() === "post") sessionStorage.setItem(FORM_PAGE, here());
});

window.addEventListener("pageshow", (event) => {
  if (event.persisted && document.querySelector("form[data-sent-at]")) location.reload();
});
