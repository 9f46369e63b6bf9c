// Deviations: what was done otherwise, and why, noted at the step. They go into the record and never change the manual.
(function (leaf) {
  "use strict";

  const { bench, element } = leaf;
  if (!bench) return;

  bench.part(() => {
    for (const section of bench.root.querySelectorAll(".sheet-step[data-step]")) step(section);
  });

  const noted = (id) => (bench.record?.deviations ?? []).filter((one) => one.procedure === bench.data.procedure && one.step === id);
  /** Whether something was done otherwise in a step, with its reason. */
  bench.deviates = (id) => noted(id).length > 0;

  function step(section) {
    const id = section.dataset.step;
    const number = section.querySelector(".step-count").textContent;
    const list = element("div", { class: "deviations" });
    const note = element("button", { type: "button", class: "bench-button" }, bench.say("bench-deviation"));
    note.addEventListener("click", () => bench.allowed() && ask(id, number));
    section.append(element("div", { class: "bench-step-foot" }, list, note));
    const show = () => {
      const own = noted(id);
      list.replaceChildren(...own.map((one) => told(one)));
    };
    bench.onChange(show);
    show();
  }

  function told(one) {
    const name = one.of ?? bench.say("bench-deviation-of-step");
    const value = one.because === undefined ? one.what : `${one.what} – ${one.because}`;
    const remove = element("button", { type: "button", class: "bench-button" }, bench.say("bench-deviation-remove"));
    remove.addEventListener("click", () => {
      const text = JSON.stringify(one);
      bench.change((own, record) => (record.deviations = record.deviations.filter((other) => JSON.stringify(other) !== text)));
    });
    return element("p", { class: "deviation" }, bench.say("bench-deviation-told", { name, value, by: one.by ?? "–", time: bench.time(one.at) }), " ", remove);
  }

  function ask(step, number) {
    // What an act is about is its thing: what stands behind the verb, without stage and count.
    const things = new Map(bench.data.acts.filter((act) => act.step === step).map((act) => [act.act.split(":")[1]?.split("@").pop().split(/[*/,]/)[0], act.name]));
    const of = element("select", {}, element("option", { value: "" }, bench.say("bench-deviation-of-step")), ...[...things].filter(([id]) => id).map(([id, name]) => element("option", { value: id }, name)));
    const what = element("textarea", { rows: "3", maxlength: "1000" });
    const because = element("textarea", { rows: "2", maxlength: "1000" });
    const state = element("p", { role: "alert" });
    const field = (key, input) => element("label", { class: "dialog-field" }, element("span", {}, bench.say(key)), input);
    const keep = element("button", { type: "button", class: "bench-button bench-main" }, bench.say("bench-keep"));
    const dialog = bench.dialog(bench.say("bench-deviation-title", { step: number }), [
      field("bench-deviation-of", of), field("bench-deviation-what", what), field("bench-deviation-because", because), state, keep,
    ], bench.say("bench-cancel"));
    keep.addEventListener("click", () => {
      const texts = [what, because].map((input) => input.value.trim());
      if (texts.includes("")) {
        state.textContent = bench.say("bench-deviation-need");
        return;
      }
      bench.change((own, record, now) => {
        record.deviations.push({ procedure: bench.data.procedure, step, ...(of.value ? { of: of.value } : {}), what: texts[0], because: texts[1], by: bench.settings.who, at: now });
      });
      dialog.close();
    });
    dialog.showModal();
  }
})((globalThis.leaf ??= {}));
