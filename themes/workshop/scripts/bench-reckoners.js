// Reckoners where they are needed, filled with the step's own numbers, the formula in sight.
(function (leaf) {
  "use strict";

  const { bench, element } = leaf;
  if (!bench) return;

  bench.part(() => {
    for (const row of bench.root.querySelectorAll(".tick[data-act]")) {
      const act = bench.acts.get(row.dataset.act);
      const body = row.querySelector(".tick-body");
      if (act?.measure?.shim) body.append(shim(act));
      if (act?.measure?.formula) body.append(formula(act));
      if (act?.torque?.stages.length > 0) body.append(adapter(act));
      if (act?.align?.diameter) body.append(arc(act));
    }
  });

  const millimetre = () => bench.units.find("mm");

  /** A reckoner that opens where it stands; `work` says what comes of its fields, one line each. */
  function reckoner(title, fields, work) {
    const result = element("div", { class: "reckoned", "aria-live": "polite" });
    const labels = fields.map(({ label, input }) => element("label", { class: "reckon-field" }, element("span", {}, label), input));
    const box = element("details", { class: "reckoner" }, element("summary", {}, title), ...labels, result, element("p", { class: "reckon-caution" }, bench.say("bench-reckon-caution")));
    const show = () => {
      if (box.open) result.replaceChildren(...work().map((line) => element("p", {}, line)));
    };
    for (const { input } of fields) input.addEventListener("input", show);
    box.addEventListener("toggle", show);
    bench.onChange(() => {
      for (const { refill } of fields) refill?.();
      show();
    });
    return box;
  }

  /** A field for a value in a unit; `value` gives its base value, or null. Filled from `fill` until somebody writes. */
  function field(label, unit, fill, decimals) {
    const input = element("input", { type: "text", inputmode: "decimal", autocomplete: "off", maxlength: "40" });
    let own = false;
    input.addEventListener("input", () => (own = true));
    const refill = () => {
      if (own) return;
      const value = fill();
      input.value = value === null || value === undefined ? "" : bench.units.show(value, bench.units.find(unit), decimals).replaceAll("\u00a0", " ").replace("−", "-");
    };
    refill();
    const value = () => {
      const read = bench.units.read(input.value, unit);
      return read.fault ? null : bench.units.toBase(read.value, read.unit);
    };
    return { label, input, value, refill };
  }

  const missing = (fields) => fields.filter((one) => one.value() === null).map((one) => one.label);

  /** A formula with its values in place of the names. */
  function filled(text, show) {
    return text.split(/([()\s])/).map((word) => (/^[a-z]/.test(word) ? show(word) : word)).join("").replaceAll(" - ", " − ");
  }

  function shim(act) {
    const { measure } = act;
    const { shim: asked } = measure;
    const unit = bench.units.find(asked.unit);
    const decimals = unit.symbol === "mm" ? 2 : 4;
    const inUnit = (value, more = 0) => bench.units.show(value, unit, decimals + more);
    const inputs = bench.shimInputs(act);
    const labels = Object.fromEntries(inputs.map(({ name, label }) => [name, label]));
    const fields = inputs.map(({ name, label, fill }) => ({ name, ...field(label, asked.unit, fill, decimals) }));
    return reckoner(bench.say("bench-reckon-shim"), fields, () => {
      const open = missing(fields);
      if (open.length > 0) return [bench.say("bench-reckon-missing", { name: open.join(", ") })];
      const values = Object.fromEntries(fields.map((one) => [one.name, one.value()]));
      const choice = leaf.reckon.shim(asked.formula, values, asked, asked.accept);
      if (choice === null) return [bench.say("bench-reckon-impossible")];
      const lines = [bench.say("bench-reckon-wants", { formula: filled(asked.formula, (name) => `${labels[name] ?? name} ${inUnit(values[name])}`), value: inUnit(choice.exact) })];
      if (measure.count > 1) lines.push(bench.say("bench-reckon-median"));
      for (const offer of [choice.below, choice.above].filter(Boolean)) {
        if (offer.gives === null) continue;
        lines.push(bench.say(offer.accepted ? "bench-reckon-offer" : "bench-reckon-offer-off", { size: inUnit(offer.size), gives: inUnit(offer.gives) }));
      }
      lines.push(choice.best
        ? bench.say("bench-reckon-take", { size: inUnit(choice.best.size) })
        : bench.say("bench-reckon-none", { low: inUnit(asked.from), high: inUnit(asked.to) }));
      return lines;
    });
  }

  /** What the formula of a measure's shim is filled with: `{name, label, fill}`, where `fill` gives the base value, or nothing. */
  bench.shimInputs = (act) => {
    const { shim: asked } = act.measure;
    const known = {
      reading: [bench.say("bench-reckon-reading"), () => leaf.quantity.median(bench.readingsOf(act))],
      old: [bench.say("bench-reckon-old"), () => {
        const trial = bench.trialShim(act);
        return trial === undefined ? asked.old : trial;
      }],
      target: [bench.say("bench-reckon-target"), () => asked.target],
    };
    for (const [id, name] of asked.names) known[id] = [name, () => middleOf(id)];
    return leaf.reckon.names(leaf.reckon.parse(asked.formula)).map((name) => {
      const [label, fill] = known[name] ?? [name, () => null];
      return { name, label, fill };
    });
  };

  /** The middle one of all readings of a measure in this procedure. */
  function middleOf(id) {
    return leaf.quantity.median(readingsOf(id));
  }

  function readingsOf(id) {
    return bench.data.acts.filter((act) => act.measure?.id === id).flatMap((act) => bench.readingsOf(act));
  }

  /** What a formula over other measures comes to; of a hole and a part, over all their readings. */
  function formula(act) {
    const { measure } = act;
    const [text, named] = measure.formula;
    const labels = Object.fromEntries(named);
    const tree = leaf.reckon.parse(text);
    const unit = bench.units.find(measure.unit);
    const decimals = unit.symbol === "mm" ? 3 : 4;
    const inUnit = (value) => bench.units.show(value, unit, decimals);
    const fields = leaf.reckon.names(tree).map((name) => ({ name, ...field(labels[name] ?? name, measure.unit, () => middleOf(name), decimals) }));
    return reckoner(bench.say("bench-reckon-formula", { name: act.name }), fields, () => {
      const open = missing(fields);
      if (open.length > 0) return [bench.say("bench-reckon-missing", { name: open.join(", ") })];
      const values = Object.fromEntries(fields.map((one) => [one.name, one.value()]));
      const value = leaf.reckon.evaluate(tree, values);
      if (value === null) return [bench.say("bench-reckon-impossible")];
      const verdict = leaf.quantity.judge(value, measure.spec, measure.limit);
      const lines = [bench.say("bench-reckon-result", { formula: filled(text, (name) => `${labels[name] ?? name} ${inUnit(values[name])}`), value: inUnit(value) })];
      lines.push(bench.say(`bench-${verdict}`, { spec: measure.spec?.text ?? "", limit: measure.limit?.text ?? "" }));
      const all = tree.sign === "-" && tree.left.name && tree.right.name ? [readingsOf(tree.left.name), readingsOf(tree.right.name)] : [[], []];
      const band = (readings) => ({ low: Math.min(...readings), high: Math.max(...readings) });
      const span = all.every((readings) => readings.length > 0) && all.some((readings) => readings.length > 1) ? leaf.reckon.clearance(band(all[0]), band(all[1])) : null;
      if (span) lines.push(`${inUnit(span.low)} – ${inUnit(span.high)}`);
      return lines;
    });
  }

  function adapter(act) {
    const { stages, adapter: given } = act.torque;
    const last = stages.at(-1);
    const middle = last.nominal ?? ((last.low ?? last.high) + (last.high ?? last.low)) / 2;
    const torque = field(bench.say("bench-reckon-torque"), last.unit, () => middle, 1);
    const length = field(bench.say("bench-reckon-wrench-length"), "mm", () => bench.wrenchFor?.(act)?.length ?? null, 0);
    const offset = field(bench.say("bench-reckon-adapter-length"), "mm", () => given?.[0] ?? null, 0);
    const angle = field(bench.say("bench-reckon-angle"), "°", () => given?.[1] ?? 0, 0);
    const fields = [torque, length, offset, angle];
    return reckoner(bench.say("bench-reckon-adapter"), fields, () => {
      const open = missing(fields);
      if (open.length > 0) return [bench.say("bench-reckon-missing", { name: open.join(", ") })];
      const set = leaf.wrench.setting(torque.value(), length.value(), { length: offset.value(), angle: angle.value() });
      if (set === null) return [bench.say("bench-reckon-impossible")];
      const unit = bench.units.find(last.unit);
      return [bench.say("bench-reckon-set", { value: bench.units.show(set, unit, 1), formula: bench.settingFormula(torque.value(), length.value(), [offset.value(), angle.value()], unit) })];
    });
  }

  /** `T × L ÷ (L + E × cos θ)` with its numbers. */
  bench.settingFormula = (torque, length, [offset, angle], unit) => {
    const mm = (value) => bench.units.show(value, millimetre(), 0);
    return `T × L ÷ (L + E × cos θ) = ${bench.units.show(torque, unit, 1)} × ${mm(length)} ÷ (${mm(length)} + ${mm(offset)} × cos ${leaf.numerals(angle)}°)`;
  };

  function arc(act) {
    const { align } = act;
    const diameter = field(bench.say("bench-reckon-diameter"), "mm", () => align.diameter, 1);
    const along = field(bench.say("bench-reckon-arc-length"), "mm", () => align.arc ?? leaf.reckon.arc(align.degrees, align.diameter), 2);
    const angle = field(bench.say("bench-reckon-degrees"), "°", () => align.degrees ?? leaf.reckon.degrees(align.arc, align.diameter), 2);
    let from = along;
    along.input.addEventListener("input", () => (from = along));
    angle.input.addEventListener("input", () => (from = angle));
    return reckoner(bench.say("bench-reckon-arc"), [diameter, along, angle], () => {
      const open = missing([diameter, from]);
      if (open.length > 0) return [bench.say("bench-reckon-missing", { name: open.join(", ") })];
      const found = from === along ? leaf.reckon.degrees(along.value(), diameter.value()) : leaf.reckon.arc(angle.value(), diameter.value());
      if (found === null) return [bench.say("bench-reckon-impossible")];
      const [D, s, t] = [diameter, along, angle].map((one) => one.input.value.trim());
      return [from === along
        ? bench.say("bench-reckon-result", { formula: `θ = 360° × s ÷ (π × D) = 360° × ${s} ÷ (π × ${D})`, value: leaf.quantity.shown(found, "°", 2) })
        : bench.say("bench-reckon-result", { formula: `s = π × D × θ ÷ 360° = π × ${D} × ${t} ÷ 360°`, value: leaf.quantity.shown(found, "mm", 2) })];
    });
  }
})((globalThis.leaf ??= {}));
