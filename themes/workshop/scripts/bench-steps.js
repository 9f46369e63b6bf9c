// The bar at the foot: back and next, one step a screen if wanted, what everybody must know.
(function (leaf) {
  "use strict";

  const { bench, element } = leaf;
  if (!bench) return;

  bench.part(() => {
    const groups = grouped();
    const back = element("button", { type: "button", class: "bench-move" }, bench.say("bench-back"));
    const next = element("button", { type: "button", class: "bench-move" }, bench.say("bench-next"));
    const place = element("span", {}, element("span", { class: "bench-place" }));
    const way = element("span", { class: "bench-way" });
    const where = element("button", { type: "button", class: "bench-move bench-where" }, place, way);
    const status = element("button", { type: "button", class: "bench-status" });
    const timers = element("button", { type: "button", class: "bench-status bench-soonest", hidden: true });
    const notices = element("div", { class: "bench-notices", role: "status" });
    const moves = element("div", { class: "bench-moves" }, back, where, next);
    const bar = element("section", { class: "bench-bar", "aria-label": bench.say("bench-build-title") }, notices, timers, status, moves);
    document.querySelector(".sheet main").after(bar);
    bench.bar = { status, timers };
    let at = placeKept(groups);

    function show(focus = false) {
      const one = bench.settings.oneStep;
      for (const [index, group] of groups.entries()) {
        for (const part of group.parts) part.classList.toggle("not-now", one && index !== at);
      }
      document.body.classList.toggle("one-step", one);
      place.firstChild.textContent = words(at);
      way.textContent = bench.say(one ? "bench-list" : "bench-one");
      back.disabled = at === 0;
      next.disabled = at === groups.length - 1;
      if (focus) {
        const heading = groups[at].parts[0].querySelector("h2, h1") ?? groups[at].parts[0];
        heading.tabIndex = -1;
        heading.focus({ preventScroll: true });
        groups[at].parts[0].scrollIntoView();
      }
    }

    function words(index) {
      if (index === 0) return bench.say("bench-start");
      // By the heading's own number and name: paper, page and a STOP line name the step so. Numbers may have gaps.
      const part = (name) => groups[index].parts[0].querySelector(name)?.textContent.trim() ?? "";
      return groups[index].step ? bench.say("bench-step", { number: part(".step-count"), name: part(".step-title") }) : bench.say("bench-end");
    }

    function go(to) {
      at = Math.min(Math.max(to, 0), groups.length - 1);
      bench.write(bench.key("place", bench.data.procedure), groups[at].step ?? String(at));
      show(true);
    }

    back.addEventListener("click", () => go(at - 1));
    next.addEventListener("click", () => go(at + 1));
    where.addEventListener("click", () => {
      bench.set({ oneStep: !bench.settings.oneStep });
      show(true);
    });
    bench.onChange(() => show());

    // In the list the step in view is the one at hand.
    let waits = false;
    document.addEventListener("scroll", () => {
      if (waits || bench.settings.oneStep) return;
      waits = true;
      requestAnimationFrame(() => {
        waits = false;
        const line = globalThis.innerHeight / 3;
        const seen = groups.findLastIndex((group) => group.parts[0].getBoundingClientRect().top <= line);
        if (seen >= 0 && seen !== at) {
          at = seen;
          show();
        }
      });
    }, { passive: true });

    // A number on paper or a link names its step.
    const follow = () => {
      const target = document.getElementById(decodeURIComponent(globalThis.location.hash.slice(1)));
      const index = target ? groups.findIndex(({ parts }) => parts.some((part) => part.contains(target))) : -1;
      if (index >= 0 && target.id !== "page.content") go(index);
    };
    globalThis.addEventListener("hashchange", follow);

    bench.showNotices = () => {
      notices.replaceChildren(...[...bench.notices].map(([key, { text, actions }]) => {
        const buttons = actions.map(([label, act]) => {
          const button = element("button", { type: "button", class: "bench-button" }, label);
          button.addEventListener("click", act);
          return button;
        });
        const seen = element("button", { type: "button", class: "bench-button" }, bench.say("bench-dismiss"));
        seen.addEventListener("click", () => bench.dismiss(key));
        return element("div", { class: "bench-notice" }, element("p", {}, text), element("div", { class: "bench-buttons" }, ...buttons, ...(actions.length ? [] : [seen])));
      }));
    };
    bench.showNotices();
    show();
    follow();
  });

  /** What is shown together: what stands before the work, each step, what stands behind it. The caution always is. */
  function grouped() {
    const groups = [{ parts: [] }];
    const end = { parts: [] };
    // On paper the steps run in columns and have a frame of their own; here each is a part like the others.
    const parts = [...bench.root.querySelector(".paper > tbody > tr > td").children];
    for (const part of parts.flatMap((part) => (part.matches(".sheet-steps") ? [...part.children] : [part]))) {
      // What is for a pencil alone, such as where one stopped, is not there on a screen and would be a step without a place.
      if (part.matches(".sheet-caution, .stopped")) continue;
      if (part.matches(".sheet-step")) groups.push({ parts: [part], step: part.dataset.step });
      else (groups.length === 1 ? groups[0] : end).parts.push(part);
    }
    if (end.parts.length > 0) groups.push(end);
    return groups;
  }

  function placeKept(groups) {
    const kept = bench.read(bench.key("place", bench.data.procedure));
    const found = groups.findIndex(({ step }, index) => (step ?? String(index)) === kept);
    return Math.max(found, 0);
  }
})((globalThis.leaf ??= {}));
