// The copy of the manual on this device: kept from the first visit on, and never changed behind a reader's back.
(function (leaf) {
  "use strict";

  const words = leaf.data("page-words") ?? {};
  const script = document.currentScript?.src;
  const worker = globalThis.navigator.serviceWorker;
  // From a folder or a memory stick there is nothing to keep: the folder is the manual.
  if (!script || !worker || !globalThis.location.protocol.startsWith("http")) return;
  // A proof that follows each save must never come from a copy.
  if (document.getElementById("page.desk")) return;

  const root = new URL("./", script);
  let asked = false;

  worker.register(new URL("offline.js", root), { scope: root.pathname, updateViaCache: "none" }).then((registration) => {
    if (registration.waiting) offer(registration.waiting);
    registration.addEventListener("updatefound", () => {
      const coming = registration.installing;
      coming?.addEventListener("statechange", () => {
        if (coming.state === "installed" && registration.active) offer(coming);
      });
    });
    // A page that stays open over days looks again now and then.
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "visible") registration.update().catch(() => {});
    });
  }).catch(() => {
    // No storage, or not allowed: the manual works as long as the network does.
  });

  // Another tab has loaded the new values. On a sheet somebody may be writing: the reader decides when it follows. A page
  // follows at once, so that no picture of the new version is loaded into the old one.
  const before = worker.controller;
  worker.addEventListener("controllerchange", () => {
    if (asked || (before && !leaf.bench)) globalThis.location.reload();
    else if (before) bar(words["saved-older"], () => globalThis.location.reload());
  });

  /** Asks a version that waits which revision it has of this page, and offers it. */
  function offer(coming) {
    const answer = new MessageChannel();
    const path = decodeURIComponent(globalThis.location.pathname.slice(root.pathname.length));
    answer.port1.onmessage = ({ data }) => {
      const now = data?.revision;
      const text = Number.isSafeInteger(now) ? leaf.fill(words["saved-new-revision"], { now }) : words["saved-new"];
      bar(text, () => {
        asked = true;
        coming.postMessage({ do: "take over" });
      });
    };
    coming.postMessage({ do: "tell", path }, [answer.port2]);
  }

  // There is news now and then, and pages are opened all the time: what shows it is loaded when there is some.
  let shown;
  function bar(text, load) {
    shown ??= leaf.load(new URL("saved-news.css", root), new URL("saved-news.js", root));
    shown.then(() => leaf.news(words, text, load)).catch(() => {});
  }
})((globalThis.leaf ??= {}));
