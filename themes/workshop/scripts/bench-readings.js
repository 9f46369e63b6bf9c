// Readings: written in either unit, judged against spec and limit where they stand.
(function (leaf) {
  "use strict";

  const { bench, element } = leaf;
  if (!bench) return;

  bench.part(() => {
    for (const row of bench.root.querySelectorAll(".tick[data-act]")) {
      const act = bench.acts.get(row.dataset.act);
      if (act && slots(act).length > 0) readings(row, act);
    }
  });

  /** What is read at an act, a field each: a measurement so many times, or each value that a test shows. */
  function slots({ measure, reads }) {
    if (!measure) return reads ?? [];
    return Array.from({ length: measure.count }, (_, at) => ({ ...measure, name: measure.places?.[at] ?? (measure.count > 1 ? bench.say("bench-reading", { number: at + 1 }) : bench.say("bench-reading-one")) }));
  }

  /** Readings of an act that the record has, in order: `[text, …]`, with nothing where none is. */
  function written(act) {
    const all = slots(act);
    const first = (act.number - 1) * all.length;
    const own = bench.own.readings.filter((one) => one.step === act.step && one.act === act.act);
    return all.map((_, at) => own.find(({ number }) => number === first + at + 1)?.value);
  }

  /** Readings of an act in the base unit of their kind. */
  bench.readingsOf = (act) =>
    written(act).flatMap((text) => {
      const read = text === undefined ? { fault: "" } : bench.units.read(text, act.measure.unit);
      return read.fault === undefined ? [bench.units.toBase(read.value, read.unit)] : [];
    });

  /** The names of an act's readings by what they came to: `{missing, bad, outside, worn, off}`. */
  function standing(act) {
    const kinds = { missing: [], bad: [], outside: [], worn: [], off: [] };
    const texts = written(act);
    for (const [at, slot] of slots(act).entries()) {
      const kind = texts[at] === undefined ? "missing" : KIND[judged(slot, bench.units.read(texts[at], slot.unit)).verdict];
      kinds[kind]?.push(slot.name);
    }
    return kinds;
  }

  /** What is told beside a tick, by verdict. What has worn within its limit goes on. */
  const KIND = { "outside-limit": "outside", "outside-spec-only": "outside", "outside-spec": "worn", "no-band": "off", bad: "bad" };

  /** A reading held against its spec and limit, in the base unit of its kind; at the teeth where it is read on a lever. */
  function judged(slot, { fault, value, unit }) {
    if (fault) return { verdict: "bad", teeth: null };
    const base = bench.units.toBase(value, unit);
    const teeth = slot.lever ? leaf.reckon.atTeeth(base, ...slot.lever) : null;
    return { verdict: leaf.quantity.judge(teeth ?? base, slot.spec, slot.limit), teeth };
  }

  /** What stands beside the tick of a line with readings, and what keeps it from being ticked; a shim is chosen from any reading. */
  function answering(row, act) {
    const say = (key, names) => bench.say(`bench-reading-${key}`, { name: names.join(", ") });
    row.doubt = () => {
      const { missing, ...others } = standing(act);
      const none = missing.length === slots(act).length;
      const told = Object.entries(others).flatMap(([kind, names]) => (names.length > 0 ? [say(kind, names)] : []));
      if (missing.length > 0) told.push(none ? bench.say("bench-reading-none") : say("missing", missing));
      return told.length > 0 ? told.join("; ") : null;
    };
    row.refused = () => {
      const { outside } = standing(act);
      return outside.length > 0 && !act.measure?.shim ? say("first", outside) : null;
    };
  }

  function readings(row, act) {
    answering(row, act);
    const block = element("div", { class: "readings" });
    const blanks = row.querySelectorAll(".blank:not(.blank-wide) .blank-rule");
    const others = act.measure?.others ?? [];
    const chosen = element("select", {}, ...[act.measure?.unit ?? "", ...others].map((symbol) => element("option", { value: symbol }, symbol)));
    if (others.length > 0) block.append(element("label", { class: "reading-unit" }, bench.say("bench-reading-unit"), " ", chosen));
    // The values of a test are of several kinds, each in the unit it is expected in.
    const unitOf = (slot) => (act.measure ? chosen.value : slot.unit);
    for (const [at, slot] of slots(act).entries()) block.append(reading(act, at, slot, unitOf, chosen, blanks[at]));
    const body = row.querySelector(".tick-body");
    (body.querySelector(".blanks") ?? body.lastElementChild).after(block);
  }

  function reading(act, at, slot, unitOf, chosen, blank) {
    const said = element("output", { class: "judgement" });
    const input = element("input", { type: "text", inputmode: "decimal", autocomplete: "off", maxlength: "40", "aria-label": `${slot.name}: ${act.name}` });
    const shown = element("span", { class: "reading-shown" }, slot.unit);
    chosen.addEventListener("change", () => show());

    /** Something stands in the field that is not kept: a fault, or nobody knows yet whose machine this is. */
    let waits = null;
    let typed = null;

    const take = () => {
      const text = input.value.trim();
      typed = text;
      const read = text === "" ? null : bench.units.read(text, unitOf(slot));
      waits = read?.fault ? "fault" : null;
      input.toggleAttribute("aria-invalid", false);
      if (waits) {
        input.setAttribute("aria-invalid", "true");
        tell(said, "bad", bench.say(read.fault, { unit: read.unit ?? "" }));
      } else if (bench.allowed()) {
        keep(act, at, read === null ? null : `${read.digits}${read.unit.symbol === "°" ? "" : " "}${read.unit.symbol}`);
      } else {
        waits = "build";
      }
    };
    input.addEventListener("change", take);

    const show = () => {
      if (waits === "build" && bench.ready && bench.conflict === null) queueMicrotask(take);
      if (waits) return;
      const text = written(act)[at];
      shown.textContent = text === undefined ? unitOf(slot) : "";
      if (document.activeElement !== input) input.value = leaf.numerals(text ?? "");
      blank?.setAttribute("data-written", leaf.numerals(text ?? ""));
      if (text === undefined) {
        tell(said, "", "");
        return;
      }
      const read = bench.units.read(text, slot.unit);
      if (read.fault) tell(said, "bad", bench.say(read.fault, { unit: read.unit ?? "" }));
      else verdict(said, slot, read, typed === null || [text, read.digits].map(leaf.numerals).includes(typed) ? null : text);
    };
    bench.onChange(show);
    show();
    return element("div", { class: "reading" }, element("label", { class: "reading-name" }, element("span", {}, slot.name), input), shown, said);
  }

  function tell(said, kind, ...words) {
    said.className = `judgement ${kind}`;
    said.replaceChildren(...words);
  }

  /** In words, and by the weight of the line; not by colour. */
  function verdict(said, measure, read, asRead) {
    const { digits } = read;
    const { verdict, teeth } = judged(measure, read);
    const bands = { spec: measure.spec?.text ?? "", limit: measure.limit?.text ?? "" };
    // What only chooses a shim is neither in nor out.
    const told = verdict === "no-limit" && measure.shim ? "for-shim" : verdict;
    const words = [element("strong", {}, bench.say(`bench-${told}`, bands))];
    if (teeth !== null) {
      const decimals = (digits.split(".")[1]?.length ?? 0) + 1;
      words.unshift(`${bench.say("bench-at-teeth", { value: bench.units.show(teeth, bench.units.find(measure.unit), decimals) })}: `);
    }
    if (asRead !== null) words.unshift(`${bench.say("bench-read-as", { value: asRead })}; `);
    const out = verdict.startsWith("outside");
    if (out && measure.otherwise) words.push(" ", bench.say("bench-outside-otherwise", { otherwise: measure.otherwise }));
    tell(said, out ? "out" : "in", ...words);
  }

  function keep(act, at, value) {
    const number = (act.number - 1) * slots(act).length + at + 1;
    bench.change((own, record, now) => {
      own.readings = own.readings.filter((one) => !(one.step === act.step && one.act === act.act && one.number === number));
      if (value !== null) own.readings.push({ step: act.step, act: act.act, number, value, at: now });
    });
  }
})((globalThis.leaf ??= {}));
