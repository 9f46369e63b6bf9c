// Boxes to tick: held, with the time and who; hold points to sign; boxes of a grid.
(function (leaf) {
  "use strict";

  const { bench, element } = leaf;
  if (!bench) return;

  bench.part(() => {
    for (const row of bench.root.querySelectorAll(".tick[data-act]")) tickRow(row);
    for (const row of bench.root.querySelectorAll(".mark-hold[data-act]")) signRow(row);
    for (const row of bench.root.querySelectorAll(".mark-close")) stopRow(row);
    for (const line of bench.root.querySelectorAll(".have-line")) {
      const name = line.querySelector(".have-label").textContent.trim();
      const key = `have#${line.textContent.replace(/\s+/g, " ").trim().slice(0, 200)}`;
      const state = element("span", { class: "tick-state", "aria-live": "polite" });
      line.querySelector(".have-items").append(state);
      markBox(line.querySelector(".box"), key, bench.say("bench-before-tick", { name }), state);
    }
  });

  /** The button that stands for a box on a screen; on paper the box itself does. */
  function holdButton(act, state) {
    const button = element("button", { type: "button", class: "hold" }, element("span", { class: "hold-mark", "aria-hidden": "true" }));
    return leaf.hold(button, act, () => bench.settings.tap, () => tooShort(state));
  }

  /** For how long it stands that a tap was too short. */
  const SHORT_SAID = 5000;

  function tooShort(state) {
    const word = bench.say("bench-hold-longer");
    state.textContent = word;
    // A line that says when it was done says so again.
    setTimeout(() => {
      if (state.textContent === word) bench.tell();
    }, SHORT_SAID);
  }

  /** Whether work may be noted at all; says what is missing. */
  function allowed() {
    if (!bench.ready) {
      bench.askBuild(bench.say("bench-need-build"));
      return false;
    }
    return bench.conflict === null;
  }
  bench.allowed = allowed;

  function tickRow(row) {
    const act = bench.acts.get(row.dataset.act);
    if (!act) return;
    const name = row.querySelector(".tick-words").textContent.replace(/\s+/g, " ").trim();
    const state = element("p", { class: "tick-state", "aria-live": "polite" });
    const button = holdButton(() => toggle(row, act, state), state);
    row.prepend(button);
    row.querySelector(".tick-line").after(state);
    const boxes = gridBoxes(row, act, state);
    row.emptyBoxes = () => boxes.filter((key) => !bench.marks.has(key)).length;
    const show = () => {
      const tick = tickOf(act);
      const stale = tick !== undefined && bench.isStale(tick);
      row.classList.toggle("ticked", tick !== undefined && !stale);
      row.classList.toggle("stale", stale);
      // A tick alone says too much where a reading is not there or lies outside: so does the mark, until a deviation tells why.
      const doubt = tick && !stale ? (row.doubt?.() ?? null) : null;
      row.classList.toggle("doubtful", doubt !== null && !bench.deviates(act.step));
      button.setAttribute("aria-label", bench.say(tick && !stale ? "bench-untick" : "bench-hold", { name }));
      state.textContent = stale
        ? bench.say("bench-changed", { was: tick.value ?? "–", now: act.value ?? "–" })
        : tick ? [bench.say("bench-ticked", { time: bench.time(tick.at), by: tick.by ?? "–" }), doubt].filter(Boolean).join(" · ") : "";
    };
    bench.onChange(show);
    show();
  }

  const same = (act) => (one) => one.step === act.step && one.act === act.act && one.number === act.number;
  const tickOf = (act) => bench.own.ticks.find(same(act));

  function toggle(row, act, state) {
    if (!allowed()) return;
    const empty = row.emptyBoxes();
    const tick = tickOf(act);
    const adds = tick === undefined || bench.isStale(tick);
    if (adds && empty > 0) {
      state.textContent = bench.say("bench-grid-first", { count: empty });
      return;
    }
    const answered = bench.deviates(act.step);
    const early = adds && !answered ? bench.early(act) : null;
    if (early) {
      state.textContent = bench.say("bench-early", early);
      return;
    }
    const waits = adds ? waiting(row, act) : null;
    if (waits) {
      state.textContent = waits;
      return;
    }
    const thickness = row.thickness?.();
    if (adds && row.needsThickness && !answered && thickness === undefined) {
      state.textContent = bench.say("bench-shim-need");
      return;
    }
    const refused = adds && !answered ? row.refused?.() : null;
    if (refused) {
      state.textContent = refused;
      return;
    }
    const value = act.fits ? thickness : act.value;
    bench.change((own, record, now) => {
      own.ticks = own.ticks.filter((one) => !same(act)(one));
      if (adds) own.ticks.push({ step: act.step, act: act.act, number: act.number, ...(value === undefined ? {} : { value }), at: bench.begunAt(act) ?? now, by: bench.settings.who });
      else own.finished = null;
    });
  }

  /**
   * What the first STOP line or hold point before a line waits for, in words; null where none does. A deviation says why
   * the work goes on all the same: in the line's own step, or in that of what it passes over.
   */
  function waiting(row, act) {
    if (bench.deviates(act.step)) return null;
    const follows = (mark, line) => (mark.compareDocumentPosition(line) & Node.DOCUMENT_POSITION_FOLLOWING) !== 0;
    // A record from before answers to STOP lines were kept: where work went on behind one on another device, it was answered there.
    const done = [...bench.root.querySelectorAll(".tick[data-act]")].filter((line) => {
      const other = bench.acts.get(line.dataset.act);
      return other && tickOf(other) && !bench.deviates(other.step);
    });
    for (const mark of [...bench.root.querySelectorAll(".mark-close, .mark-hold")].filter((mark) => follows(mark, row))) {
      const isPassed = bench.deviates(mark.closest("[data-step]").dataset.step) || (mark.matches(".mark-close") && done.some((line) => follows(mark, line)));
      const waits = isPassed ? null : mark.waits?.();
      if (waits) return waits;
    }
    return null;
  }

  // ---- boxes that belong to the device alone: of what must be at hand, and of grids ----

  bench.marks = {
    all: () => bench.readShared(bench.key("marks", bench.data.procedure), leaf.writings.map) ?? {},
    has: (key) => Object.hasOwn(bench.marks.all(), key),
    toggle(key, value = bench.now()) {
      const all = { ...bench.marks.all() };
      if (Object.hasOwn(all, key)) delete all[key];
      else all[key] = value;
      bench.writeShared(bench.key("marks", bench.data.procedure), leaf.writings.map, all);
      bench.tell();
    },
  };

  function markBox(box, key, name, state, place, waits = () => null) {
    const button = holdButton(() => {
      if (!allowed()) return;
      const why = bench.marks.has(key) ? null : waits();
      if (why) state.textContent = why;
      else bench.marks.toggle(key);
    }, state);
    if (place !== undefined) button.append(element("span", { class: "hold-place", "aria-hidden": "true" }, place));
    box.before(button);
    const show = () => {
      const marked = bench.marks.has(key);
      button.classList.toggle("marked", marked);
      box.classList.toggle("marked", marked);
      if (state.matches("span")) state.textContent = "";
      button.setAttribute("aria-label", name);
      button.setAttribute("aria-pressed", String(marked));
    };
    bench.onChange(show);
    show();
  }

  /** Buttons for the boxes of stages and positions; gives their keys. */
  function gridBoxes(row, act, state) {
    const keys = [];
    const line = row.querySelector(".tick-number").textContent;
    for (const table of row.querySelectorAll(".grid")) {
      const positions = [...table.querySelectorAll("thead th")].map((cell) => cell.textContent);
      for (const [stage, rows] of [...table.tBodies].entries()) {
        const value = rows.querySelector("th")?.textContent.trim() ?? "";
        for (const [at, box] of [...rows.querySelectorAll(".small-box")].entries()) {
          // With its value in the key, a box is empty again where the value has changed.
          const key = `${act.key}#${stage + 1}.${positions[at]}.${act.value ?? ""}`;
          keys.push(key);
          markBox(box, key, bench.say("bench-box", { number: line, value, place: positions[at] }), state, positions[at], () => waiting(row, act));
        }
      }
    }
    return keys;
  }

  // ---- STOP lines: who has looked, and when, kept in the record; empty again where something else is to be looked for ----

  function stopRow(row) {
    const words = (part) => row.querySelector(part).textContent.replace(/\s+/g, " ").trim();
    const name = words("p");
    const items = [...row.querySelectorAll(".close-item")].map((item) => item.textContent).join(", ");
    const asked = `${name} ${items}`.slice(0, 200);
    const spot = before(row);
    const state = element("p", { class: "tick-state", "aria-live": "polite" });
    /** The answer in the record, while it is to the same question. */
    const seen = () => (bench.own.stops ?? []).find((one) => spot && same(spot)(one) && one.value === asked);
    row.waits = () => (seen() ? null : bench.say("bench-stop-first", { name: words("p > span") }));
    const button = holdButton(() => {
      if (!spot || !allowed()) return;
      const answered = seen();
      bench.change((own, record, now) => {
        own.stops = (own.stops ?? []).filter((one) => !same(spot)(one));
        if (!answered) own.stops.push({ step: spot.step, act: spot.act, number: spot.number, value: asked, at: now, by: bench.settings.who });
      });
    }, state);
    row.append(element("div", { class: "sign-block" }, button, element("div", { class: "sign-fields" }, element("p", {}, bench.say("bench-stop-seen")), state)));
    const show = () => {
      const answer = seen();
      button.classList.toggle("marked", answer !== undefined);
      button.setAttribute("aria-label", bench.say(answer ? "bench-untick" : "bench-hold", { name }));
      state.textContent = answer ? bench.say("bench-signed", { time: bench.time(answer.at), by: answer.by ?? "–" }) : "";
      row.querySelector(".close-seen .blank-rule").setAttribute("data-written", answer?.by ?? "");
    };
    bench.onChange(show);
    show();
  }

  /** The act that a STOP line stands before: by it the record knows the line. */
  function before(row) {
    for (let next = row.nextElementSibling; next; next = next.nextElementSibling) {
      const act = bench.acts.get(next.dataset.act);
      if (act) return act;
    }
    return undefined;
  }

  // ---- hold points ----

  function signRow(row) {
    const act = bench.acts.get(row.dataset.act);
    if (!act) return;
    for (const [at, line] of [...row.querySelectorAll(".signature")].entries()) {
      const person = act.people[at];
      if (person === undefined) continue;
      // One signature is of one person: where two sign in one line, each has an act of its own.
      const verb = act.act.split(":")[0];
      signLine(row, line, { step: act.step, act: `${verb}:${person}` }, repeats(act, verb, person));
    }
    // A machine is signed off where its work ends; only a hold point stands in the way of more.
    if (act.act.startsWith("hold:")) row.waits = () => unsigned(row);
  }

  /** That a hold point waits, and for whom; null once all have signed. */
  function unsigned(row) {
    const by = (row.signLines ?? []).filter(({ found }) => found() === undefined).map(({ role }) => role).join(", ");
    const step = row.closest("[data-step]").querySelector(".step-count").textContent;
    const name = row.querySelector(".hold-words > span").textContent.replace(/\s+/g, " ").trim();
    return by === "" ? null : bench.say("bench-hold-first", { step, name, by });
  }

  /** How many hold points of the same person stand before this one in its step. */
  function repeats(act, verb, person) {
    const all = bench.data.acts.filter((other) => other.step === act.step && other.act.startsWith(`${verb}:`) && other.people.includes(person));
    return all.findIndex((other) => other.key === act.key);
  }

  function signLine(row, line, spot, nth) {
    const role = line.querySelector(".signature-who").textContent.trim();
    const id = `bench.${bench.acts.size}.${document.querySelectorAll(".sign-block").length}`;
    const input = element("input", { type: "text", id, maxlength: "100", autocomplete: "off", autocapitalize: "words" });
    const state = element("p", { class: "tick-state", "aria-live": "polite" });
    const label = element("label", { for: id }, `${role}: ${bench.say("bench-sign-name")}`);
    const found = () => bench.own.signatures.filter((one) => one.step === spot.step && one.act === spot.act)[nth];
    const button = holdButton(() => {
      if (!allowed()) return;
      const signed = found();
      const by = input.value.trim();
      if (!signed && by === "") {
        state.textContent = bench.say("bench-sign-need");
        return;
      }
      bench.change((own, record, now) => {
        if (signed) {
          own.signatures = own.signatures.filter((one) => JSON.stringify(one) !== JSON.stringify(signed));
          own.finished = null;
        } else {
          own.signatures.push({ ...spot, by, at: now });
          if (!record.people.includes(by)) record.people.push(by);
        }
      });
    }, state);
    line.after(element("div", { class: "sign-block" }, button, element("div", { class: "sign-fields" }, label, input, state)));
    row.signLines = [...(row.signLines ?? []), { role, found }];
    const show = () => {
      const signed = found();
      button.classList.toggle("marked", signed !== undefined);
      button.setAttribute("aria-label", bench.say(signed ? "bench-untick" : "bench-sign", { name: role }));
      input.disabled = signed !== undefined;
      if (signed) input.value = signed.by;
      const others = row.signLines.map((other) => other.found()).filter((one) => one && signed && one.by === signed.by);
      state.textContent = !signed ? "" : others.length > 1
        ? bench.say("bench-sign-twice", { by: signed.by })
        : bench.say("bench-signed", { time: bench.time(signed.at), by: signed.by });
      row.classList.toggle("ticked", row.signLines.every((other) => other.found() !== undefined));
    };
    bench.onChange(show);
    show();
  }

  /** Lines of the sheet, and those that are not done: not ticked, or ticked with what would not be ticked any more. */
  bench.progress = () => {
    const rows = [...bench.root.querySelectorAll("[data-act].tick, [data-act].mark-hold")];
    return { all: rows.length, open: rows.filter((row) => !row.classList.contains("ticked") || (row.refused?.() ?? null) !== null) };
  };
})((globalThis.leaf ??= {}));
