// A proof that follows each save: hears of a changed page, loads it again, and goes back to where the reader was.
(function () {
  "use strict";

  const { page, state } = document.currentScript.dataset;
  const key = `proof-place ${page}`;
  const told = document.getElementById("page.desk-state");
  const ended = document.getElementById("page.desk")?.dataset.ended ?? "";

  // What another manual has left at this address would answer in place of the server.
  globalThis.navigator.serviceWorker?.getRegistrations().then((all) => all.forEach((one) => one.unregister()), () => {});

  goBack();

  let news = null;
  let reloading = false;
  // A browser keeps only a few connections to one server: a page that nobody sees gives its own back.
  document.addEventListener("visibilitychange", follow);
  globalThis.addEventListener("pagehide", () => {
    stop();
    // Not before: the browser's own way back ends after the page has loaded, and knows nothing of text that has grown.
    if (!reloading) history.scrollRestoration = "auto";
  });
  globalThis.addEventListener("pageshow", follow);
  follow();

  function follow() {
    if (document.visibilityState === "hidden") return stop();
    if (news) return undefined;
    news = new EventSource(`/.proof/news/${state}/${page}`);
    news.addEventListener("open", () => told?.replaceChildren());
    news.addEventListener("error", () => told?.replaceChildren(ended));
    news.addEventListener("changed", () => {
      stop();
      keepPlace();
      reloading = true;
      globalThis.location.reload();
    });
    return undefined;
  }

  function stop() {
    news?.close();
    news = null;
  }

  /** Notes the first thing with a name that is seen, and how far from the top: text above it may grow. */
  function keepPlace() {
    // What is hidden says that it stands at 0.
    const shown = [...document.querySelectorAll("main [id]")].filter((element) => element.getClientRects().length > 0);
    const seen = shown.map((element) => ({ id: element.id, top: element.getBoundingClientRect().top }));
    const first = seen.filter(({ top }) => top >= 0).sort((a, b) => a.top - b.top)[0] ?? seen.at(-1);
    const open = [...document.querySelectorAll("details")].map((element) => element.open);
    const { scrollX: x, scrollY: y } = globalThis;
    try {
      sessionStorage.setItem(key, JSON.stringify({ x, y, ...first, open }));
      history.scrollRestoration = "manual";
    } catch {
      // Without storage the browser's own way of going back has to do.
    }
  }

  function goBack() {
    let place = null;
    try {
      place = JSON.parse(sessionStorage.getItem(key) ?? "null");
      sessionStorage.removeItem(key);
    } catch {
      return;
    }
    if (!place) return;
    const all = [...document.querySelectorAll("details")];
    if (all.length === place.open?.length) all.forEach((element, at) => (element.open = place.open[at]));
    const go = () => {
      const mark = place.id && place.y > 0 ? document.getElementById(place.id) : null;
      const y = mark ? globalThis.scrollY + mark.getBoundingClientRect().top - place.top : place.y;
      globalThis.scrollTo({ left: place.x, top: y, behavior: "instant" });
    };
    go();
    // Pictures without a size above the place may still push it down.
    if (document.readyState !== "complete") globalThis.addEventListener("load", go, { once: true });
  }
})();
