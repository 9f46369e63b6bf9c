// The build record: its form, reading one that anybody may have written, putting two together.
(function (leaf) {
  "use strict";

  const FORMAT = "benchleaf-build/1";
  const LARGEST = 1_000_000;
  const MOST = { entries: 5000, procedures: 200, people: 200, axes: 40 };
  const TEXT = 300;
  const LONG_TEXT = 2000;
  const TIME = /^\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d(\.\d{1,9})?)?(Z|[+-]\d\d:\d\d)$/;

  /** A fault in a record, with the place it was found at. */
  class Fault extends Error {
    constructor(place) {
      super(place);
      this.place = place;
    }
  }

  /** Reads values of a record one by one; what it does not know it counts. */
  class Reader {
    constructor() {
      this.left = 0;
    }

    fields(value, place, known) {
      if (value === null || typeof value !== "object" || Array.isArray(value)) throw new Fault(place);
      this.left += Object.keys(value).filter((key) => !known.includes(key)).length;
      return value;
    }

    text(value, place, longest = TEXT) {
      if (typeof value !== "string" || value.length > longest) throw new Fault(place);
      return value;
    }

    id(value, place) {
      const text = this.text(value, place);
      if (text === "" || text === "__proto__") throw new Fault(place);
      return text;
    }

    maybe(value, read) {
      return value === undefined || value === null ? undefined : read(value);
    }

    time(value, place) {
      const text = this.text(value, place, 40);
      if (!TIME.test(text) || Number.isNaN(Date.parse(text))) throw new Fault(place);
      return text;
    }

    whole(value, place, least) {
      if (!Number.isSafeInteger(value) || value < least || value > 1e9) throw new Fault(place);
      return value;
    }

    list(value, place, most, read) {
      if (value === undefined) return [];
      if (!Array.isArray(value) || value.length > most) throw new Fault(place);
      return value.map((one, at) => read(one, `${place}[${at}]`));
    }

    map(value, place, most, read) {
      if (value === undefined) return {};
      if (value === null || typeof value !== "object" || Array.isArray(value)) throw new Fault(place);
      const pairs = Object.entries(value);
      if (pairs.length > most) throw new Fault(place);
      return Object.fromEntries(pairs.map(([key, one]) => [this.id(key, place), read(one, `${place}.${key.slice(0, 40)}`)]));
    }

    tick(value, place) {
      this.fields(value, place, ["step", "act", "number", "value", "at", "by"]);
      return lean({ ...this.spot(value, place), value: this.maybe(value.value, (v) => this.text(v, `${place}.value`, LONG_TEXT)), at: this.time(value.at, `${place}.at`), by: this.maybe(value.by, (v) => this.text(v, `${place}.by`)) });
    }

    reading(value, place) {
      this.fields(value, place, ["step", "act", "number", "value", "at"]);
      return { ...this.spot(value, place), value: this.text(value.value, `${place}.value`), at: this.time(value.at, `${place}.at`) };
    }

    spot(value, place) {
      const number = this.maybe(value.number, (v) => this.whole(v, `${place}.number`, 1)) ?? 1;
      return { step: this.id(value.step, `${place}.step`), act: this.id(value.act, `${place}.act`), number };
    }

    signature(value, place) {
      this.fields(value, place, ["step", "act", "by", "at"]);
      return { step: this.id(value.step, `${place}.step`), act: this.id(value.act, `${place}.act`), by: this.id(value.by, `${place}.by`), at: this.time(value.at, `${place}.at`) };
    }

    procedure(value, place) {
      this.fields(value, place, ["revision", "fingerprint", "begun", "finished", "ticks", "readings", "signatures", "stops"]);
      return lean({
        revision: this.maybe(value.revision, (v) => this.whole(v, `${place}.revision`, 0)),
        fingerprint: this.maybe(value.fingerprint, (v) => this.text(v, `${place}.fingerprint`)),
        begun: this.maybe(value.begun, (v) => this.time(v, `${place}.begun`)),
        finished: this.maybe(value.finished, (v) => this.time(v, `${place}.finished`)) ?? null,
        ticks: this.list(value.ticks, `${place}.ticks`, MOST.entries, (v, at) => this.tick(v, at)),
        readings: this.list(value.readings, `${place}.readings`, MOST.entries, (v, at) => this.reading(v, at)),
        signatures: this.list(value.signatures, `${place}.signatures`, MOST.entries, (v, at) => this.signature(v, at)),
        // Records from before answers to STOP lines were kept have none.
        stops: this.maybe(value.stops, (v) => this.list(v, `${place}.stops`, MOST.entries, (one, at) => this.tick(one, at))),
      });
    }

    deviation(value, place) {
      this.fields(value, place, ["procedure", "step", "of", "what", "because", "by", "at"]);
      return lean({
        procedure: this.id(value.procedure, `${place}.procedure`),
        step: this.maybe(value.step, (v) => this.id(v, `${place}.step`)),
        of: this.maybe(value.of, (v) => this.text(v, `${place}.of`)),
        what: this.text(value.what, `${place}.what`, LONG_TEXT),
        because: this.maybe(value.because, (v) => this.text(v, `${place}.because`, LONG_TEXT)),
        by: this.maybe(value.by, (v) => this.text(v, `${place}.by`)),
        at: this.time(value.at, `${place}.at`),
      });
    }

    open(value, place) {
      this.fields(value, place, ["item", "procedure", "left"]);
      return { item: this.id(value.item, `${place}.item`), procedure: this.id(value.procedure, `${place}.procedure`), left: this.text(value.left, `${place}.left`) };
    }

    record(value) {
      this.fields(value, "format", ["format", "manual", "machine", "serial", "variant", "people", "begun", "saved", "procedures", "deviations", "open"]);
      return {
        format: FORMAT,
        manual: this.text(value.manual, "manual"),
        machine: this.id(value.machine, "machine"),
        serial: this.id(value.serial, "serial"),
        variant: this.map(value.variant, "variant", MOST.axes, (v, at) => this.text(v, at)),
        people: this.list(value.people, "people", MOST.people, (v, at) => this.text(v, at)),
        begun: this.time(value.begun, "begun"),
        saved: this.time(value.saved, "saved"),
        procedures: this.map(value.procedures, "procedures", MOST.procedures, (v, at) => this.procedure(v, at)),
        deviations: this.list(value.deviations, "deviations", MOST.entries, (v, at) => this.deviation(v, at)),
        open: this.list(value.open, "open", MOST.entries, (v, at) => this.open(v, at)),
      };
    }
  }

  /** Without the fields that say nothing. */
  function lean(value) {
    return Object.fromEntries(Object.entries(value).filter(([, one]) => one !== undefined));
  }

  /** A value as a record: `{record, left}`, or `{fault, place}` with a key of words. */
  function check(value) {
    if (value !== null && typeof value === "object" && typeof value.format === "string" && value.format !== FORMAT) {
      return { fault: value.format.startsWith("benchleaf-build/") ? "bench-import-newer" : "bench-import-json", value: value.format.slice(0, 40) };
    }
    if (value === null || typeof value !== "object" || value.format !== FORMAT) return { fault: "bench-import-json" };
    try {
      const reader = new Reader();
      return { record: reader.record(value), left: reader.left };
    } catch (error) {
      if (error instanceof Fault) return { fault: "bench-import-form", place: error.place };
      throw error;
    }
  }

  /** The text of a file as a record, like `check`. */
  function read(text) {
    if (text.length > LARGEST) return { fault: "bench-import-large" };
    let value;
    try {
      value = JSON.parse(text);
    } catch {
      return { fault: "bench-import-json" };
    }
    return check(value);
  }

  function create({ manual, machine, serial, variant, now }) {
    return { format: FORMAT, manual, machine, serial, variant: { ...variant }, people: [], begun: now, saved: now, procedures: {}, deviations: [], open: [] };
  }

  const spot = ({ step, act, number, by }) => JSON.stringify([step, act, number ?? by]);
  const whole = (value) => JSON.stringify(value);
  const later = (a, b) => (Date.parse(b.at) > Date.parse(a.at) ? b : a);

  /** Two lists as one: each entry once; of two about the same spot the later one. Counts what is new. */
  function joined(own, other, key, count) {
    const all = new Map(own.map((one) => [key(one), one]));
    for (const one of other) {
      const known = all.get(key(one));
      const kept = known ? (known.at && one.at ? later(known, one) : known) : one;
      if (kept !== known && whole(kept) !== whole(known)) count();
      all.set(key(one), kept);
    }
    return [...all.values()];
  }

  /** A record with all that another of the same machine has besides: `{record, added}`. */
  function merge(own, other) {
    let added = 0;
    const count = () => (added += 1);
    const procedures = { ...own.procedures };
    for (const [id, theirs] of Object.entries(other.procedures)) {
      const ours = Object.hasOwn(procedures, id) ? procedures[id] : { ...theirs, ticks: [], readings: [], signatures: [], stops: undefined };
      const stops = joined(ours.stops ?? [], theirs.stops ?? [], spot, count);
      procedures[id] = lean({
        ...ours,
        finished: ours.finished ?? theirs.finished,
        ticks: joined(ours.ticks, theirs.ticks, spot, count),
        readings: joined(ours.readings, theirs.readings, spot, count),
        signatures: joined(ours.signatures, theirs.signatures, spot, count),
        stops: stops.length > 0 ? stops : undefined,
      });
    }
    const record = {
      ...own,
      variant: { ...other.variant, ...own.variant },
      people: [...new Set([...own.people, ...other.people])],
      begun: Date.parse(other.begun) < Date.parse(own.begun) ? other.begun : own.begun,
      procedures,
      deviations: joined(own.deviations, other.deviations, whole, count),
      open: joined(own.open, other.open, ({ item, procedure }) => whole([item, procedure]), count),
    };
    return { record, added };
  }

  // ---- a record that several pages of one device write to, see `writings.js` ----

  const OF_PROCEDURE = { ticks: spot, readings: spot, stops: spot };

  /** All that a record says, entry by entry. */
  function entries(record) {
    const all = new Map();
    const set = (value, ...key) => all.set(whole(key), value);
    for (const field of ["manual", "begun", "saved"]) set(record[field], field);
    for (const [axis, value] of Object.entries(record.variant)) set(value, "variant", axis);
    for (const name of record.people) set(name, "people", name);
    for (const [id, own] of Object.entries(record.procedures)) {
      set([own.revision ?? null, own.fingerprint ?? null], "edition", id);
      set(own.begun ?? null, "begun", id);
      set(own.finished ?? null, "finished", id);
      for (const [name, key] of Object.entries(OF_PROCEDURE)) {
        for (const one of own[name] ?? []) set(one, name, id, key(one));
      }
      // One person may sign twice in a step, and is told apart by the order: whoever signs one hold point twice at once has signed it once.
      const before = new Map();
      for (const one of own.signatures) {
        const place = whole([one.step, one.act]);
        const nth = before.get(place) ?? 0;
        before.set(place, nth + 1);
        set(one, "signatures", id, place, nth);
      }
    }
    for (const one of record.deviations) set(one, "deviations", whole(one));
    for (const one of record.open) set(one, "open", one.item, one.procedure);
    return all;
  }

  /** A record out of its entries. */
  function together(all, machine, serial) {
    const record = { format: FORMAT, manual: "", machine, serial, variant: {}, people: [], begun: "", saved: "", procedures: {}, deviations: [], open: [] };
    const named = (id) => (Object.hasOwn(record.procedures, id) ? record.procedures[id] : (record.procedures[id] = { finished: null, ticks: [], readings: [], signatures: [] }));
    const place = ([key, value]) => ({ value, key: JSON.parse(key) });
    const inOrder = (a, b) => (a.key[3] ?? 0) - (b.key[3] ?? 0);
    for (const { key: [kind, id], value } of [...all].map(place).sort(inOrder)) {
      if (kind === "variant") record.variant[id] = value;
      else if (Array.isArray(record[kind])) record[kind].push(value);
      else if (id === undefined) record[kind] = value;
      else if (kind === "edition") Object.assign(named(id), lean({ revision: value[0] ?? undefined, fingerprint: value[1] ?? undefined }));
      else if (kind === "begun" || kind === "finished") named(id)[kind] = value;
      else (named(id)[kind] ??= []).push(value);
    }
    return check(record).record;
  }

  /** How the record of one machine is taken apart and put together. */
  const form = (machine, serial) => ({
    read: (value) => {
      const { record } = check(value);
      return record?.machine === machine && record.serial === serial ? record : undefined;
    },
    entries,
    value: (all) => together(all, machine, serial),
    choose: (key, a, b) => {
      const [kind] = JSON.parse(key);
      if (kind === "edition" && a[0] !== b[0]) return (a[0] ?? 0) > (b[0] ?? 0) ? a : b;
      const last = leaf.writings.later(a, b);
      return kind === "begun" ? (last === a ? b : a) : last;
    },
    // What is taken off opens its procedure again, even where another page finishes it at the same time.
    stirs: (key) => {
      const [kind, id] = JSON.parse(key);
      return kind === "ticks" || kind === "signatures" ? whole(["finished", id]) : undefined;
    },
  });

  leaf.record = { FORMAT, LARGEST, check, read, create, merge, form };
})((globalThis.leaf ??= {}));
