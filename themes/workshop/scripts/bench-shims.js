// Shims: how thick the one is that goes in, asked at its line, kept with the tick, held against what the readings ask for.
(function (leaf) {
  "use strict";

  const { bench, element } = leaf;
  if (!bench) return;

  bench.part(() => {
    for (const row of bench.root.querySelectorAll(".tick[data-act]")) {
      const act = bench.acts.get(row.dataset.act);
      if (act?.fits) shimField(row, act);
    }
  });

  /** Shims are measured to a micrometre: a nanometre is no difference. */
  const HAIR = 1e-6;

  const isTrial = (act) => act.act.startsWith("dry-fit:");
  const tickOf = (act) => bench.own.ticks.find((one) => one.step === act.step && one.act === act.act && one.number === act.number);
  const before = (act) => bench.data.acts.slice(0, bench.data.acts.indexOf(act));

  /** A thickness that the record has, mm; nothing where none is written. */
  function thickness(act) {
    const text = tickOf(act)?.value;
    const read = text === undefined ? { fault: "" } : bench.units.read(text, act.fits.unit);
    return read.fault === undefined ? bench.units.toBase(read.value, read.unit) : undefined;
  }

  /** The fields of the lines, by act. */
  const fields = new Map();

  /**
   * The shim that lay in place when a measure was read: the last that was laid in before it, ticked or only written down.
   * Undefined where nothing tells one; null where one is told that nothing can be reckoned from.
   */
  bench.trialShim = (measure) => {
    const trials = before(measure).filter((act) => act.fits?.of === measure.measure.shim.of && isTrial(act));
    const last = trials.findLast((act) => tickOf(act) || fields.get(act.key)?.written());
    const written = last && fields.get(last.key)?.written();
    if (written?.fault) return null;
    const size = written?.size ?? (last && thickness(last));
    return size !== undefined && !isInBox(last, size) && !bench.deviates(last.step) ? null : size;
  };

  /** Whether a thickness is one of the series, as far as it can be told from one that was measured: to half a step. */
  function isInBox({ fits: { series } }, size) {
    const half = (series.step ?? 0) / 2 + HAIR;
    return (series.low ?? -Infinity) - half <= size && size <= (series.high ?? Infinity) + half;
  }

  /** A thickness as the maker of a shim marks it. */
  function marked(act, size) {
    const unit = bench.units.find(act.fits.unit);
    return bench.units.show(size, unit, unit.symbol === "mm" ? 2 : 4);
  }

  const notInBox = (act, size) => bench.say("bench-shim-box", { size: marked(act, size), spec: act.fits.series.text });

  /** The act before this one whose readings choose the shim: of several the last that was read. */
  function choosing(act) {
    const all = before(act).filter((other) => other.measure?.shim?.of === act.fits.of).reverse();
    return all.find((other) => bench.readingsOf(other).length > 0) ?? all[0];
  }

  /** What the series and the readings say of a thickness: `[kind, text]`; nothing where none choose it. */
  function verdict(act, size) {
    if (!isInBox(act, size)) return ["out", notInBox(act, size)];
    const measured = choosing(act);
    if (!measured) return null;
    const { shim: asked } = measured.measure;
    const inUnit = (value) => marked(act, value);
    const inputs = bench.shimInputs(measured).map(({ name, label, fill }) => ({ name, label, value: fill() ?? null }));
    const missing = inputs.filter(({ value }) => value === null).map(({ label }) => label);
    if (missing.length > 0) return ["", bench.say("bench-shim-unread", { name: missing.join(", ") })];
    const values = Object.fromEntries(inputs.map(({ name, value }) => [name, value]));
    const choice = leaf.reckon.fitted(asked.formula, values, asked, asked.accept, size);
    if (choice === null) return ["", bench.say("bench-reckon-impossible")];
    const { fitted, best } = choice;
    const words = { value: inUnit(choice.exact), size: inUnit(size), ...(best && { best: inUnit(best.size) }) };
    if (!fitted.accepted) return ["out", bench.say(best ? "bench-shim-wrong" : "bench-shim-wrong-none", words)];
    return ["in", fitted.gives === null ? bench.say("bench-shim-right", words) : bench.say("bench-shim-gives", { ...words, gives: inUnit(fitted.gives) })];
  }

  function shimField(row, act) {
    const input = element("input", { type: "text", inputmode: "decimal", autocomplete: "off", maxlength: "40" });
    const said = element("output", { class: "judgement" });
    const unit = element("span", { class: "reading-shown" }, act.fits.unit);
    const name = element("span", {}, bench.say(isTrial(act) ? "bench-shim-trial" : "bench-shim"));
    const field = element("div", { class: "reading" }, element("label", { class: "reading-name" }, name, input), unit, said);
    row.querySelector(".tick-body").append(element("div", { class: "readings" }, field));

    /** What stands in the field: `{text, size}`, `{fault}`, or nothing. */
    const written = () => {
      const text = input.value.trim();
      const read = text === "" ? null : bench.units.read(text, act.fits.unit);
      return read && (read.fault ? read : { text: `${read.digits} ${read.unit.symbol}`, size: bench.units.toBase(read.value, read.unit) });
    };
    /** The thickness for a tick; nothing where none is written, or none that can be read. A trial may go without. */
    row.thickness = () => written()?.text;
    row.needsThickness = !isTrial(act);
    /** The words of what is wrong stand below: beside the tick it is only marked. */
    row.doubt = () => {
      const size = written()?.size;
      return size !== undefined && verdict(act, size)?.[0] === "out" ? "" : null;
    };
    /** That the thickness written is none of the series, in words. */
    row.refused = () => {
      const size = written()?.size;
      return size === undefined || isInBox(act, size) ? null : notInBox(act, size);
    };
    fields.set(act.key, { written });

    const tell = () => {
      const found = written();
      input.toggleAttribute("aria-invalid", false);
      if (found?.fault) input.setAttribute("aria-invalid", "true");
      const [kind, text] = !found ? ["", ""] : found.fault ? ["bad", bench.say(found.fault, { unit: found.unit ?? "" })] : (verdict(act, found.size) ?? ["", ""]);
      said.className = `judgement ${kind}`;
      said.textContent = text;
      unit.textContent = found?.text ? "" : act.fits.unit;
    };
    let typed = false;
    input.addEventListener("input", () => (typed = true));
    input.addEventListener("change", () => {
      const found = written();
      const tick = tickOf(act);
      // Other lines reckon with what is written here before it is ticked.
      if (!tick) return bench.tell();
      tell();
      if (found?.fault || found?.text === tick.value || !bench.allowed()) return;
      // What is ticked as fitted has a thickness: it can be put right, not taken away.
      if (!found && row.needsThickness) return show();
      typed = false;
      bench.change((own, record, now) => {
        const others = own.ticks.filter((one) => !(one.step === act.step && one.act === act.act && one.number === act.number));
        const { value, ...rest } = tick;
        own.ticks = [...others, { ...rest, ...(found ? { value: found.text } : {}), at: now, by: bench.settings.who }];
      });
    });
    const show = () => {
      const kept = tickOf(act)?.value;
      if (kept !== undefined) typed = false;
      // What was written and is not ticked yet stays.
      if (document.activeElement !== input && !typed) input.value = leaf.numerals(kept ?? "");
      tell();
    };
    bench.onChange(show);
    show();
  }
})((globalThis.leaf ??= {}));
