// This build: whose machine it is and who works; taking the record out and in; settings of this device.
(function (leaf) {
  "use strict";

  const { bench, element } = leaf;
  if (!bench) return;

  let dialogs = 0;

  /** A dialog that is gone when it is closed. */
  bench.dialog = (title, content, closing) => {
    const id = `bench.dialog.${(dialogs += 1)}`;
    const close = element("button", { type: "button", class: "bench-button" }, closing);
    const dialog = element("dialog", { class: "bench-dialog", "aria-labelledby": id }, element("h2", { id }, title), ...content, close);
    close.addEventListener("click", () => dialog.close());
    dialog.addEventListener("close", () => {
      dialog.remove();
      bench.tell();
    });
    document.body.append(dialog);
    return dialog;
  };

  bench.part(() => {
    bench.bar.status.addEventListener("click", () => bench.askBuild(""));
    const show = () => {
      const { all, open } = bench.progress();
      bench.bar.status.textContent = bench.ready
        ? bench.say("bench-status", { serial: bench.serial, by: bench.settings.who, count: all - open.length, all })
        : bench.say("bench-no-build");
      document.body.classList.toggle("print-ticks", bench.settings.printTicks);
      differences();
    };
    bench.onChange(show);
    show();
  });

  /** Where record and sheet are not of one kind, that is told. */
  function differences() {
    const { conflict, data, own } = bench;
    if (conflict) {
      const sheet = data.sheets.find(({ variant }) => Object.entries(variant).every(([axis, value]) => (conflict.variant[axis] ?? value) === value));
      const actions = [[bench.say("bench-variant-here", conflict), () => correct()]];
      if (sheet) actions.unshift([bench.say("bench-variant-open", conflict), () => globalThis.location.assign(sheet.href)]);
      bench.notice("variant", bench.say("bench-variant-other", { serial: bench.serial, ...conflict }), actions);
    } else {
      bench.withdraw("variant");
    }
    const elsewhere = bench.ready && !conflict ? bench.elsewhere(bench.serial) : null;
    if (elsewhere) bench.notice("serial", bench.say("bench-serial-other", elsewhere));
    else bench.withdraw("serial");
    const revision = own.revision !== undefined && data.revision !== null && own.revision !== data.revision;
    const print = own.fingerprint !== undefined && data.fingerprint !== undefined && own.fingerprint !== data.fingerprint;
    // A sheet of another variant has other values without any having changed.
    if (conflict) bench.withdraw("revision");
    else if (revision) bench.notice("revision", bench.say("bench-revision-other", { was: own.revision, now: data.revision }));
    else if (print) bench.notice("revision", bench.say("bench-fingerprint-other"));
    const unknown = [...own.ticks, ...own.readings].filter((one) => !data.acts.some((act) => act.step === one.step && act.act === one.act && (one.number <= act.number || act.measure)));
    if (unknown.length > 0) bench.notice("unknown", bench.say("bench-aside", { count: unknown.length }));
  }

  function correct() {
    const record = bench.fresh;
    if (record) bench.keep({ ...record, variant: { ...record.variant, ...bench.data.variant } });
  }

  bench.askBuild = (why) => {
    const serials = element("datalist", { id: "bench.serials" }, ...bench.serials().map((serial) => element("option", { value: serial })));
    const people = element("datalist", { id: "bench.people" }, ...(bench.record?.people ?? []).map((name) => element("option", { value: name })));
    const serial = element("input", { type: "text", maxlength: "60", autocomplete: "off", list: "bench.serials", value: bench.serial });
    const who = element("input", { type: "text", maxlength: "60", autocomplete: "off", autocapitalize: "words", list: "bench.people", value: bench.settings.who });
    const state = element("p", { role: "status", class: "warned" }, why);
    const keep = element("button", { type: "button", class: "bench-button bench-main" }, bench.say("bench-keep"));
    const field = (key, input) => element("label", { class: "dialog-field" }, element("span", {}, bench.say(key)), input);
    const dialog = bench.dialog(bench.say("bench-build-title"), [
      element("p", {}, bench.say("bench-build-about")), state, field("bench-serial", serial), field("bench-who", who), serials, people, keep,
      finishing(), carrying(), settings(), bench.wrenchList(),
    ], bench.say("bench-close"));
    let warned = "";
    keep.addEventListener("click", () => {
      const [of, by] = [serial, who].map((input) => input.value.trim());
      if (of === "" || by === "") {
        state.textContent = bench.say("bench-need-who");
        return;
      }
      // Told before anything is kept; who presses again has looked, and the sheet goes on saying it.
      const elsewhere = bench.elsewhere(of);
      if (elsewhere && warned !== of) {
        warned = of;
        state.textContent = bench.say("bench-serial-other", elsewhere);
        return;
      }
      for (const key of ["revision", "unknown", "variant", "serial"]) bench.withdraw(key);
      bench.begin(of, by);
      dialog.close();
    });
    dialog.showModal();
  };

  // ---- finishing ----

  function finishing() {
    const button = element("button", { type: "button", class: "bench-button" });
    const state = element("p", { role: "status" });
    const show = () => {
      const { finished } = bench.own;
      button.textContent = bench.say(finished ? "bench-unfinish" : "bench-finish");
      state.textContent = finished ? bench.say("bench-finished", { time: bench.time(finished) }) : "";
    };
    button.addEventListener("click", () => {
      if (!bench.ready || bench.conflict) return;
      // A line may stay open where the record says why.
      const told = (row) => (bench.record?.deviations ?? []).some((one) => one.procedure === bench.data.procedure && one.step === row.closest("[data-step]").dataset.step);
      const open = bench.progress().open.filter((row) => !told(row));
      if (!bench.own.finished && open.length > 0) {
        state.textContent = bench.say("bench-unfinished", { count: open.length });
        return;
      }
      bench.change((own, record, now) => (own.finished = own.finished ? null : now));
      show();
    });
    show();
    return element("section", { class: "dialog-part" }, button, state);
  }

  // ---- out and in ----

  function carrying() {
    const out = element("button", { type: "button", class: "bench-button", disabled: bench.record === null }, bench.say("bench-export"));
    out.addEventListener("click", () => save(bench.record));
    const file = element("input", { type: "file", accept: ".json,application/json", class: "hidden", id: "bench.import" });
    const label = element("label", { for: "bench.import", class: "bench-button" }, bench.say("bench-import"));
    const state = element("p", { role: "status", class: "import-state" });
    file.addEventListener("change", async () => {
      const [chosen] = file.files;
      if (!chosen) return;
      // What is larger is not even read.
      state.textContent = chosen.size > leaf.record.LARGEST ? bench.say("bench-import-large") : take(await chosen.text());
      file.value = "";
      out.disabled = bench.record === null;
    });
    return element("section", { class: "dialog-part" }, element("p", {}, bench.say("bench-export-about")), element("div", { class: "bench-buttons" }, out, file, label), state);
  }

  function save(record) {
    if (!record) return;
    const name = `${record.machine}-${record.serial}`.replace(/[^A-Za-z0-9-]+/g, "-");
    const address = URL.createObjectURL(new Blob([`${JSON.stringify(record, null, 1)}\n`], { type: "application/json" }));
    const link = element("a", { href: address, download: `build-${name}.json` });
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(address), 60_000);
  }

  /** Takes a record in; what it says is told in one text. */
  function take(text) {
    const { record, left, fault, place, value } = leaf.record.read(text);
    if (fault) return bench.say(fault, { place, value });
    const known = bench.recordOf(record.machine, record.serial);
    const { record: both, added } = leaf.record.merge(known ?? { ...record, procedures: {}, deviations: [], open: [] }, record);
    if (!bench.keep(both)) return bench.say("bench-import-full");
    const words = [];
    if (record.machine === bench.data.machine) {
      words.push(bench.say("bench-imported", { count: added, serial: record.serial }));
      if (bench.serial !== record.serial) bench.begin(record.serial, bench.settings.who);
    } else {
      words.push(bench.say("bench-imported-other", { machine: record.machine, serial: record.serial }));
    }
    if (record.manual !== bench.data.manual) words.push(bench.say("bench-import-manual", { title: record.manual }));
    if (left > 0) words.push(bench.say("bench-import-left", { count: left }));
    return words.join(" ");
  }

  // ---- settings ----

  function settings() {
    const tick = (key, word) => {
      const box = element("input", { type: "checkbox", checked: bench.settings[key] });
      box.addEventListener("change", () => bench.set({ [key]: box.checked }));
      return element("label", { class: "dialog-check" }, box, element("span", {}, bench.say(word)));
    };
    const units = element("select", {}, ...["printed", "metric", "customary"].map((value) =>
      element("option", { value, selected: bench.settings.units === value }, bench.say(`bench-units-${value}`))));
    units.addEventListener("change", () => bench.set({ units: units.value }));
    const awake = element("p", {}, bench.awakeWords());
    bench.onAwake = () => (awake.textContent = bench.awakeWords());
    return element("section", { class: "dialog-part" }, element("h3", {}, bench.say("bench-settings")),
      tick("oneStep", "bench-one"), tick("tap", "bench-tap"), tick("awake", "bench-awake"), awake, tick("printTicks", "bench-print-ticks"),
      element("label", { class: "dialog-field" }, element("span", {}, bench.say("bench-units")), units));
  }
})((globalThis.leaf ??= {}));
