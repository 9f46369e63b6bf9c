// Times that are begun with a step: kept by the moment they end, so that they run on while the page is closed.
(function (leaf) {
  "use strict";

  const { bench, element } = leaf;
  if (!bench) return;

  const SEEN = "leaf.seen";
  const MOST = 50;
  const FORM = leaf.writings.list(({ procedure, key }) => JSON.stringify([procedure, key]));

  bench.part(() => {
    const seen = leaf.storage.read(SEEN);
    const watch = new leaf.clock.Watch(() => Date.now(), () => performance.now(), typeof seen === "number" ? seen : NaN);
    if (watch.wentBack > 0) jumped("bench-clock-back", watch.wentBack);
    const lines = [];
    for (const row of bench.root.querySelectorAll(".tick[data-act]")) {
      const act = bench.acts.get(row.dataset.act);
      if (act?.timer) lines.push(timerLine(row, act));
    }
    const show = () => {
      for (const line of lines) line();
      soonest();
    };
    bench.onChange(show);
    show();
    let seconds = 0;
    setInterval(() => {
      const jump = watch.look();
      if (jump < 0) jumped("bench-clock-back", -jump);
      if (jump > 0) jumped("bench-clock-forward", jump);
      // Now and then is enough: a jump of less than a minute is none.
      if (seconds++ % 10 === 0) leaf.storage.write(SEEN, Date.now());
      show();
    }, 1000);
  });

  /** Times of this machine, each `{procedure, key, name, end, begun, within, doubt}`. */
  function all() {
    const kept = bench.serial === "" ? null : bench.readShared(bench.key("timers"), FORM);
    if (kept === null) return [];
    const whole = (timer) => ["procedure", "key", "name"].every((field) => typeof timer[field] === "string") && Number.isFinite(timer.end) && Number.isFinite(timer.begun);
    return kept.filter(whole).slice(0, MOST);
  }

  function note(timers) {
    bench.writeShared(bench.key("timers"), FORM, timers.slice(-MOST));
  }

  function keep(timers) {
    note(timers);
    bench.tell();
  }

  const own = (act) => (timer) => timer.procedure === bench.data.procedure && timer.key === act.key;

  /** What is left of the time that has to pass before an act can be ticked, and when it ends; null where none is known. */
  bench.early = (act) => {
    const begun = (address) => act.wait?.begun === address;
    // A wait that a procedure lists itself is not another one's of the same id.
    const inReach = (procedure) => act.wait?.own !== true || procedure === bench.data.procedure;
    // What begins a time is ticked when it begins.
    const lasts = (timer) => own(act)(timer) && !act.act.startsWith("begin:");
    const running = all().filter((timer) => !timer.within && (lasts(timer) || (inReach(timer.procedure) && begun(timer.key.split("/")[1])))).map(({ end }) => end);
    // A wait may begin in another procedure; what begins it again begins all of it.
    const procedures = Object.entries(bench.record?.procedures ?? {}).filter(([id]) => inReach(id));
    const ticked = procedures.flatMap(([, { ticks }]) => ticks.filter((tick) => begun(tick.act)));
    const latest = Math.max(...ticked.map(({ at }) => Date.parse(at)));
    const end = Math.max(...running, latest + (act.wait?.seconds ?? 0) * 1000);
    return end > Date.now() ? { left: bench.span(end - Date.now()), time: bench.time(end) } : null;
  };

  /** When what begins a time was done, where its time was started by hand. */
  bench.begunAt = (act) => {
    const timer = act.act.startsWith("begin:") ? all().find((one) => !one.within && own(act)(one)) : undefined;
    return timer && new Date(timer.begun).toISOString();
  };

  function jumped(word, milliseconds) {
    bench.notice("clock", bench.say(word, { value: bench.span(milliseconds) }));
    const timers = all();
    if (timers.length > 0) note(timers.map((timer) => (timer.end > Date.now() - milliseconds ? { ...timer, doubt: true } : timer)));
  }

  /** How a time stands, in words. */
  function words(timer) {
    const left = timer.end - Date.now();
    const doubt = timer.doubt ? ` ${bench.say("bench-clock-doubt")}` : "";
    if (left > 0) return bench.say("bench-timer-running", { name: timer.name, left: bench.span(left), time: bench.time(timer.end) }) + doubt;
    return bench.say(timer.within ? "bench-timer-late" : "bench-timer-over", { name: timer.name, time: bench.time(timer.end) }) + doubt;
  }

  function timerLine(row, act) {
    const { timer } = act;
    const word = timer.within ? "bench-timer-within" : "bench-timer-start";
    const start = element("button", { type: "button", class: "bench-button" }, bench.say(word, { name: timer.name, value: timer.text }));
    const drop = element("button", { type: "button", class: "bench-button" }, bench.say("bench-timer-drop"));
    const state = element("p", { class: "timer-state" });
    row.querySelector(".tick-body").append(element("div", { class: "timer" }, state, start, drop));
    start.addEventListener("click", () => {
      if (!bench.allowed()) return;
      const begun = Date.now();
      keep([...all().filter((one) => !own(act)(one)), { procedure: bench.data.procedure, key: act.key, name: timer.name, begun, end: begun + timer.seconds * 1000, within: timer.within, doubt: false }]);
    });
    drop.addEventListener("click", () => keep(all().filter((one) => !own(act)(one))));
    return () => {
      const running = all().find(own(act));
      start.hidden = running !== undefined;
      drop.hidden = running === undefined;
      said(state, running ? words(running) : "");
    };
  }

  /** The time that ends first, over the bar. */
  function soonest() {
    const timers = all().sort((a, b) => a.end - b.end);
    const { timers: button } = bench.bar;
    button.hidden = timers.length === 0;
    if (timers.length === 0) return;
    const next = timers.find(({ end }) => end > Date.now()) ?? timers.at(-1);
    said(button, bench.say("bench-timer-soonest", { value: words(next) }));
    button.onclick = () => {
      const row = [...bench.root.querySelectorAll("[data-act]")].find((one) => one.dataset.act === next.key);
      if (row && next.procedure === bench.data.procedure) globalThis.location.hash = `#${row.closest("section").getAttribute("aria-labelledby")}`;
    };
  }

  function said(element, text) {
    if (element.textContent !== text) element.textContent = text;
  }
})((globalThis.leaf ??= {}));
