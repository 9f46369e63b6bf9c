// “My wrenches”: kept on this device; each torque tells which to take and what to set. And the unit that is shown first.
(function (leaf) {
  "use strict";

  const { bench, element } = leaf;
  if (!bench) return;

  const KEY = "leaf.wrenches";
  const MOST = 40;
  const FORM = leaf.writings.list(JSON.stringify);
  const unitsOfTorque = () => bench.data.units.filter(({ kind }) => kind === "torque").map(({ symbol }) => symbol);

  /** Those kept: scale in its own unit. */
  bench.wrenches = () => {
    const kept = bench.readShared(KEY, FORM) ?? [];
    const whole = (one) => typeof one.name === "string" && Number.isFinite(one.low) && Number.isFinite(one.high) && one.low < one.high && bench.units.find(String(one.unit))?.kind === "torque";
    return kept.filter(whole).slice(0, MOST);
  };

  /** In N·m. */
  function inNewtonMetres(one) {
    const unit = bench.units.find(one.unit);
    const base = (value) => bench.units.toBase(value, unit);
    return { name: one.name, low: base(one.low), high: base(one.high), step: one.step > 0 ? base(one.step) : null, length: one.length > 0 ? one.length : null, unit };
  }

  bench.part(() => {
    for (const row of bench.root.querySelectorAll(".tick[data-act]")) {
      const act = bench.acts.get(row.dataset.act);
      if (act?.torque?.stages.length > 0) row.querySelector(".tick-line").after(adviceFor(act));
    }
    unitsShown();
  });

  /** What a stage asks of a wrench: its middle and its ends, N·m. */
  function asked({ low, high, nominal }) {
    const ends = [low, high].filter((end) => end !== null);
    return { middle: nominal ?? ends.reduce((sum, end) => sum + end, 0) / ends.length, ends: [...new Set(ends)] };
  }

  /** What is set on a wrench for torques; nothing where its length is wanted and not known. */
  function set(wrench, torque, adapter) {
    if (!adapter) return torque;
    return wrench.length === null ? null : leaf.wrench.setting(torque, wrench.length, { length: adapter[0], angle: adapter[1] });
  }

  function choose(stage, adapter) {
    const { middle, ends } = asked(stage);
    const wrenches = bench.wrenches().map(inNewtonMetres);
    // Each is asked for what is set on it, which the adapter makes another value for each length.
    const usable = wrenches.filter((wrench) => ends.every((end) => leaf.wrench.fits(wrench, set(wrench, end, adapter) ?? NaN)));
    const ranked = usable.map((wrench) => ({ wrench, set: set(wrench, middle, adapter) }));
    ranked.sort((a, b) => (leaf.wrench.best([a.wrench, b.wrench], a.set) === 0 ? -1 : 1));
    return { middle, wrenches, best: ranked[0] ?? null };
  }

  /** The wrench for the last stage of an act, or nothing. */
  bench.wrenchFor = (act) => choose(act.torque.stages.at(-1), act.torque.adapter).best?.wrench ?? null;

  function adviceFor(act) {
    const box = element("div", { class: "wrench-advice" });
    const show = () => {
      const lines = bench.wrenches().length === 0 ? [] : act.torque.stages.map((stage) => advice(stage, act.torque.adapter));
      box.replaceChildren(...lines.flat());
    };
    bench.onChange(show);
    show();
    return box;
  }

  function advice(stage, adapter) {
    const { middle, wrenches, best } = choose(stage, adapter);
    const unknown = adapter ? wrenches.filter((wrench) => wrench.length === null) : [];
    const lines = unknown.map((wrench) => element("p", {}, bench.say("bench-wrench-length-missing", { wrench: wrench.name })));
    if (best === null) return [...lines, element("p", { class: "warned" }, bench.say("bench-wrench-none", { value: stage.text }))];
    const { wrench } = best;
    const value = leaf.quantity.shown(bench.units.fromBase(leaf.wrench.nearest(wrench, best.set), wrench.unit), wrench.unit.symbol, decimals(wrench));
    const word = adapter ? "bench-wrench-set-adapter" : "bench-wrench-set";
    const formula = adapter ? bench.settingFormula(middle, wrench.length, adapter, wrench.unit) : "";
    return [...lines, element("p", {}, bench.say(word, { wrench: wrench.name, value, formula }))];
  }

  /** As many decimals as the scale's step has; one where it is not known. */
  function decimals(wrench) {
    const step = wrench.step === null ? 0.1 : bench.units.fromBase(wrench.step, wrench.unit);
    return [0, 1, 2].find((places) => Math.abs(step * 10 ** places - Math.round(step * 10 ** places)) < 1e-6) ?? 2;
  }

  // ---- the list ----

  bench.wrenchList = () => {
    const list = element("ul", { class: "wrench-list" });
    const fields = {
      name: element("input", { type: "text", maxlength: "60", autocomplete: "off" }),
      low: element("input", { type: "text", inputmode: "decimal", maxlength: "12", autocomplete: "off" }),
      high: element("input", { type: "text", inputmode: "decimal", maxlength: "12", autocomplete: "off" }),
      unit: element("select", {}, ...unitsOfTorque().map((symbol) => element("option", { value: symbol }, symbol))),
      step: element("input", { type: "text", inputmode: "decimal", maxlength: "12", autocomplete: "off" }),
      length: element("input", { type: "text", inputmode: "decimal", maxlength: "12", autocomplete: "off" }),
    };
    const labels = Object.entries(fields).map(([key, input]) => element("label", { class: "dialog-field" }, element("span", {}, bench.say(`bench-wrench-${key}`)), input));
    const add = element("button", { type: "button", class: "bench-button" }, bench.say("bench-wrench-add"));
    const state = element("p", { role: "status" });
    const number = (input) => {
      const read = leaf.quantity.number(input.value);
      return read.fault ? null : read.value;
    };
    add.addEventListener("click", () => {
      const [low, high] = [number(fields.low), number(fields.high)];
      const name = fields.name.value.trim();
      const bad = name === "" || low === null || high === null || low < 0 || low >= high || [fields.step, fields.length].some((input) => input.value.trim() !== "" && !(number(input) > 0));
      state.textContent = bad ? bench.say("bench-wrench-bad") : "";
      if (bad) return;
      bench.writeShared(KEY, FORM, [...bench.wrenches(), { name, low, high, unit: fields.unit.value, step: number(fields.step), length: number(fields.length) }].slice(-MOST));
      for (const input of [fields.name, fields.low, fields.high, fields.step, fields.length]) input.value = "";
      bench.tell();
    });
    const show = () => {
      list.replaceChildren(...bench.wrenches().map((one) => {
        const words = bench.say("bench-wrench-range", { wrench: one.name, low: one.low, high: one.high, unit: one.unit });
        const remove = element("button", { type: "button", class: "bench-button" }, bench.say("bench-wrench-remove", { name: one.name }));
        remove.addEventListener("click", () => {
          // By what it is: the list may have changed since it was shown.
          const kept = bench.wrenches();
          const at = kept.findIndex((other) => JSON.stringify(other) === JSON.stringify(one));
          bench.writeShared(KEY, FORM, kept.filter((_, index) => index !== at));
          bench.tell();
        });
        return element("li", {}, words, " ", remove);
      }));
    };
    bench.onChange(show);
    show();
    return element("section", { class: "dialog-part" }, element("h3", {}, bench.say("bench-wrenches")), element("p", {}, bench.say("bench-wrenches-about")), list, ...labels, add, state);
  };

  // ---- the unit shown first ----

  function unitsShown() {
    const pairs = [...bench.root.querySelectorAll(".tick-values .line, .grid tbody th")]
      .map((line) => ({ main: line.querySelector(".figure"), other: line.querySelector(".other") }))
      .filter(({ main, other }) => main && other)
      .map(({ main, other }) => ({ main, other, printed: [main.textContent, other.textContent] }));
    const show = (wanted) => {
      for (const { main, other, printed: [first, second] } of pairs) {
        const inside = second.slice(1, -1);
        const swap = bench.units.system(inside) === wanted && bench.units.system(first) !== wanted;
        main.textContent = swap ? inside : first;
        other.textContent = swap ? (first.includes("(") ? `[${first}]` : `(${first})`) : second;
      }
    };
    bench.onChange(() => show(bench.settings.units));
    show(bench.settings.units);
    // Paper shows what was published, whatever this screen is set to.
    globalThis.addEventListener("beforeprint", () => show("printed"));
    globalThis.addEventListener("afterprint", () => show(bench.settings.units));
  }
})((globalThis.leaf ??= {}));
