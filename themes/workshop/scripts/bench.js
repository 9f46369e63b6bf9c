// The bench sheet on a screen: what it knows, what this device keeps of the work, and who is told when that changes.
(function (leaf) {
  "use strict";

  const data = leaf.data("bench-data");
  if (!data?.acts || !data.words) return;

  const SETTINGS = "leaf.settings";
  const DEFAULTS = { oneStep: false, tap: false, printTicks: false, awake: true, units: "printed", who: "" };
  /** What words are filled with that is a value, in the order of their catalogue. */
  const VALUES = new Set(["value", "was", "now", "spec", "limit", "low", "high", "size", "gives", "formula", "best"]);
  const ofMachine = (kind) => `leaf.${kind}:${JSON.stringify([data.manual, data.machine])}`;
  const ofBuild = (kind, machine, serial, ...more) => `leaf.${kind}:${JSON.stringify([data.manual, machine, serial, ...more])}`;

  class Bench {
    constructor() {
      this.data = data;
      this.units = new leaf.quantity.Units(data.units);
      this.acts = new Map(data.acts.map((act) => [act.key, act]));
      this.root = document.querySelector(".sheet main");
      /** What could not be kept on the device lives here while the page does. */
      this.memory = new Map();
      /** What other pages of this device write to as well, by key. */
      this.sharing = new Map();
      this.listeners = [];
      this.parts = [];
      this.notices = new Map();
      this.dismissed = new Set();
      this.settings = { ...DEFAULTS, ...this.keptSettings };
      const serial = this.read(ofMachine("current"));
      this.serial = typeof serial === "string" ? serial.slice(0, 200) : "";
    }

    say(key, values) {
      const shown = Object.entries(values ?? {}).map(([name, value]) => [name, VALUES.has(name) ? leaf.numerals(value) : value]);
      return leaf.fill(data.words[key], Object.fromEntries(shown));
    }

    /** A moment as people write it. */
    time(at) {
      const moment = new Date(at);
      const today = moment.toDateString() === new Date().toDateString();
      const style = today ? { timeStyle: "short" } : { dateStyle: "medium", timeStyle: "short" };
      return moment.toLocaleString(document.documentElement.lang || undefined, style);
    }

    /** A time as people say it: `2 h 5 min`. */
    span(milliseconds) {
      return leaf.clock.parts(milliseconds).map(([count, name]) => this.say(`bench-${name}`, { count })).join(" ");
    }

    now() {
      return new Date().toISOString();
    }

    // ---- what this device keeps ----

    read(key) {
      return this.memory.has(key) ? this.memory.get(key) : leaf.storage.read(key);
    }

    /** Keeps a value; where the device refuses, until the page is left, and says so. */
    write(key, value) {
      this.cached = undefined;
      if (leaf.storage.write(key, value)) {
        this.memory.delete(key);
        return true;
      }
      this.memory.set(key, value);
      this.notice("denied", this.say("bench-denied"));
      return false;
    }

    /** What is known of a thing that other pages write to as well. */
    shared(key, form) {
      if (!this.sharing.has(key)) this.sharing.set(key, new leaf.writings.Shared(form, leaf.writings.token));
      return this.sharing.get(key);
    }

    /** Such a thing as it is now; nothing where none was written, or where it can't be read. */
    readShared(key, form) {
      const shared = this.shared(key, form);
      return shared.see(this.read(key)) ? shared.value : null;
    }

    /** Keeps what such a thing is from now on, made from what was read last. */
    writeShared(key, form, value) {
      return this.write(key, this.shared(key, form).note(value));
    }

    /** Another page has written: what it could not know when it did is put back into what lies on the device. */
    heard(key, text) {
      this.cached = undefined;
      for (const [known, shared] of this.sharing) {
        if (key !== null && key !== known) continue;
        // What was written over by now may be seen here only. Nothing is put back where nothing lies any more.
        if (typeof text === "string") shared.see(leaf.storage.parsed(text));
        if (shared.see(this.read(known)) && shared.lacks) this.write(known, shared.stored);
      }
      this.tell();
    }

    get keptSettings() {
      const kept = this.read(SETTINGS);
      return Object.fromEntries(Object.entries(DEFAULTS).flatMap(([key, value]) => (typeof kept?.[key] === typeof value ? [[key, kept[key]]] : [])));
    }

    set(changes) {
      Object.assign(this.settings, changes);
      // Only what is changed here: another page may have set something else since this one was opened.
      this.write(SETTINGS, { ...this.settings, ...this.keptSettings, ...changes });
      this.tell();
    }

    /** Whether it is known whose machine this is and who works. */
    get ready() {
      return this.serial !== "" && this.settings.who !== "";
    }

    begin(serial, who) {
      if (serial !== this.serial) this.dismissed.clear();
      this.serial = serial;
      this.write(ofMachine("current"), serial);
      // Work stands behind it from now on: the device is asked not to clear it away when room gets short.
      globalThis.navigator.storage?.persist?.().catch(() => {});
      this.set({ who });
    }

    key(kind, ...more) {
      return ofBuild(kind, data.machine, this.serial, ...more);
    }

    /** Serial numbers of this machine that this device has records of. */
    serials() {
      const begin = `leaf.build:${JSON.stringify([data.manual, data.machine]).slice(0, -1)},`;
      const keys = [...leaf.storage.keys(begin), ...this.memory.keys()].filter((key) => key.startsWith(begin));
      return [...new Set(keys.map((key) => JSON.parse(key.slice("leaf.build:".length))[2]))];
    }

    /** The record of this machine; nothing where none was begun. */
    get record() {
      if (this.cached === undefined) {
        this.cached = this.fresh;
        // Read once for all lines that are shown together, and anew the next time.
        queueMicrotask(() => (this.cached = undefined));
      }
      return this.cached;
    }

    get fresh() {
      return this.serial === "" ? null : this.recordOf(data.machine, this.serial);
    }

    recordOf(machine, serial) {
      const key = ofBuild("build", machine, serial);
      const shared = this.shared(key, leaf.record.form(machine, serial));
      // A copy: who changes it must not change what is known.
      if (shared.see(this.read(key))) return JSON.parse(JSON.stringify(shared.value));
      if (this.write(ofBuild("aside", machine, serial, this.now()), this.read(key))) this.write(key, null);
      shared.forget();
      this.notice("aside", this.say("bench-aside-store"));
      return null;
    }

    keep(record) {
      const key = ofBuild("build", record.machine, record.serial);
      const kept = this.writeShared(key, leaf.record.form(record.machine, record.serial), record);
      this.tell();
      return kept;
    }

    /** Changes what the record says of this procedure. Read anew each time: another tab may have written meanwhile. */
    change(work) {
      if (!this.ready) return;
      const now = this.now();
      const record = this.fresh ?? leaf.record.create({ manual: data.manual, machine: data.machine, serial: this.serial, variant: data.variant, now });
      const own = Object.hasOwn(record.procedures, data.procedure)
        ? record.procedures[data.procedure]
        : { begun: now, finished: null, ticks: [], readings: [], signatures: [] };
      work(own, record, now);
      record.procedures[data.procedure] = this.dated(own);
      record.manual = data.manual;
      record.variant = { ...record.variant, ...data.variant };
      if (!record.people.includes(this.settings.who)) record.people.push(this.settings.who);
      record.open = this.openItems(record, own);
      record.saved = now;
      this.keep(record);
    }

    /** The revision is this sheet's once no line stands that was ticked with another value. */
    dated(own) {
      const stale = own.ticks.some((tick) => this.isStale(tick));
      const { revision, fingerprint, ...rest } = own;
      const was = { revision, fingerprint };
      const is = stale ? was : { revision: data.revision, fingerprint: data.fingerprint };
      return JSON.parse(JSON.stringify({ revision: is.revision ?? undefined, fingerprint: is.fingerprint ?? undefined, ...rest }));
    }

    openItems(record, own) {
      const begun = own.ticks.length > 0;
      const others = record.open.filter(({ item, procedure }) => {
        if (procedure === data.procedure) return false;
        return !(own.finished && data.finishes.some((one) => one.item === item && one.procedure === procedure));
      });
      return [...others, ...(begun ? data.leaves.map(({ item, left }) => ({ item, procedure: data.procedure, left })) : [])];
    }

    // ---- what the record says ----

    /** What the record says of this procedure; empty where nothing is. */
    get own() {
      const procedures = this.record?.procedures ?? {};
      return Object.hasOwn(procedures, data.procedure) ? procedures[data.procedure] : { finished: null, ticks: [], readings: [], signatures: [] };
    }

    actOf({ step, act, number }) {
      return this.acts.get(`${step}/${act}/${number}`);
    }

    /** What a tick of a shim holds is what was measured at the bench: no value of the manual. */
    isStale(tick) {
      const act = this.actOf(tick);
      return act !== undefined && !act.fits && (act.value ?? "") !== (tick.value ?? "");
    }

    /** The axis values in which the record and this sheet differ, or nothing. */
    get conflict() {
      const was = this.record?.variant ?? {};
      const axes = Object.keys(data.variant).filter((axis) => Object.hasOwn(was, axis) && was[axis] !== data.variant[axis]);
      if (axes.length === 0) return null;
      const words = (variant) => axes.map((axis) => `${axis} ${variant[axis]}`).join(", ");
      return { was: words(was), now: words(data.variant), variant: was };
    }

    /** What a serial number says of itself where this sheet is for other machines, or nothing. A number with letters says nothing. */
    elsewhere(serial) {
      if (!/^\d+$/.test(serial)) return null;
      const within = ({ low, high }) => (low === null || Number(serial) >= low) && (high === null || Number(serial) <= high);
      const other = (data.numbers ?? []).find((one) => within(one) && data.variant[one.axis] !== one.value);
      return other ? { serial, variant: `${other.axis} ${other.value}`, limit: other.means, now: `${other.axis} ${data.variant[other.axis]}` } : null;
    }

    // ---- who is told ----

    part(begin) {
      this.parts.push(begin);
    }

    /** Calls again whenever something kept has changed. */
    onChange(show) {
      this.listeners.push(show);
    }

    tell() {
      for (const show of this.listeners) show();
    }

    /** Something everybody at the bench must know; it stays until it was seen. */
    notice(key, text, actions = []) {
      if (this.notices.get(key)?.text === text || this.dismissed.has(key + text)) return;
      this.notices.set(key, { text, actions });
      this.showNotices?.();
    }

    /** Somebody has seen it: it is not said again. A clock may jump twice by the same time. */
    dismiss(key) {
      if (key !== "clock") this.dismissed.add(key + (this.notices.get(key)?.text ?? ""));
      this.withdraw(key);
    }

    withdraw(key) {
      if (this.notices.delete(key)) this.showNotices?.();
    }
  }

  leaf.bench = new Bench();
})((globalThis.leaf ??= {}));
