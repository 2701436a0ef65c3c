// A rack that is looked at is a rack one works at: its plugs, its tank and the scanner are kept for when the signal goes.
const worker = navigator.serviceWorker;
if (worker && document.querySelector(".rack-map")) {
  worker.ready.then((registration) => {
    const links = [...document.querySelectorAll('main a[href^="/s/"], main a[href^="/tanks/"]')].map((link) => link.pathname);
    registration.active.postMessage({ keep: [...new Set([location.pathname, "/do", "/series", ...links])] });
  });
}
