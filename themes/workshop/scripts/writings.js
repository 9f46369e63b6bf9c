// What several pages of one device write to one thing at the same time: nothing that either of them noted gets lost.
//
// A page may write before it has heard what another page wrote a moment ago, and then writes over it. So beside a thing
// lies which writings made it, and which of them noted each entry. Two states of a thing are joined by that alone: an
// entry that only one has was taken off by the other where the other knows the writing that noted it, and is new to the
// other where it does not. No clock is asked, and no state from before is needed.
(function (leaf) {
  "use strict";

  /** So many writings are told apart. Who lags behind by more takes what lies there. */
  const MOST = 40;
  /** A writing's name: one more than the highest number it was made behind, and what no other writing has. */
  const TOKEN = /^\d{1,9}\.\w{0,30}$/;
  /** Stands for the time before anything was written. */
  const NOTHING = "0.";

  const text = (value) => JSON.stringify(value);

  /** A name for what was written without one: the same on every page that finds it. */
  function nameOf(value) {
    const written = text(value);
    let sum = 0;
    for (let at = 0; at < written.length; at += 1) sum = (Math.imul(sum, 31) + written.charCodeAt(at)) | 0;
    return `0.${written.length}x${sum >>> 0}`;
  }

  const numberOf = (token) => Number.parseInt(token, 10);
  const newestFirst = (a, b) => numberOf(b) - numberOf(a) || (a < b ? 1 : -1);

  /** The newest of these writings, in an order that is the same on every page: so all forget the same ones first. */
  const trailOf = (tokens) => [...new Set(tokens)].sort(newestFirst).slice(0, MOST);

  /** A thing with its writings, as it is stored. In a list they are its last entry. */
  function packed(value, writings) {
    return Array.isArray(value) ? [...value, { writings }] : { ...value, writings };
  }

  /** Likewise taken apart: `[value, writings]`. */
  function unpacked(stored) {
    if (stored === null || typeof stored !== "object") return [stored, undefined];
    if (Array.isArray(stored)) {
      const { writings } = stored.at(-1) ?? {};
      return writings === undefined ? [stored, undefined] : [stored.slice(0, -1), writings];
    }
    const { writings, ...value } = stored;
    return [value, writings];
  }

  /** Writings that anybody may have written; nothing where they are not in order. */
  function checked(writings) {
    const { trail, noted } = writings ?? {};
    const isToken = (one) => typeof one === "string" && TOKEN.test(one);
    if (!Array.isArray(trail) || trail.length === 0 || trail.length > MOST || !trail.every(isToken)) return undefined;
    if (noted === null || typeof noted !== "object") return undefined;
    return { trail: trailOf(trail), noted: among(trail, new Map(Object.entries(noted))) };
  }

  /** Only what a writing of the trail has noted: all else is known to everybody. */
  function among(trail, noted) {
    const known = new Set(trail);
    return new Map([...noted].filter(([, token]) => known.has(token)));
  }

  /** Writings of one state that the other does not know. What is older than all of a full trail was only forgotten there. */
  function unknown(one, other) {
    const isForgotten = (token) => other.trail.length === MOST && newestFirst(token, other.trail.at(-1)) > 0;
    return new Set(one.trail.filter((token) => !other.trail.includes(token) && !isForgotten(token)));
  }

  /** Two states of a thing as one that knows what both know. */
  function join(form, mine, theirs) {
    // Nothing is shared: who has seen what cannot be told.
    if (!theirs.trail.some((token) => mine.trail.includes(token))) return theirs;
    const [ours, others] = [unknown(mine, theirs), unknown(theirs, mine)];
    if (ours.size === 0) return theirs;
    if (others.size === 0) return mine;
    const own = form.entries(mine.value);
    const entries = new Map();
    const noted = new Map();
    const keep = (key, value, token) => {
      entries.set(key, value);
      if (token !== undefined) noted.set(key, token);
    };
    for (const [key, value] of form.entries(theirs.value)) {
      const [token, ownToken] = [theirs.noted.get(key), mine.noted.get(key)];
      if (!own.has(key)) {
        if (others.has(token)) keep(key, value, token);
      } else if (!ours.has(ownToken)) keep(key, value, token);
      else if (!others.has(token)) keep(key, own.get(key), ownToken);
      else if (text(value) === text(own.get(key))) keep(key, value, token > ownToken ? token : ownToken);
      else if (form.choose(key, value, own.get(key)) === value) keep(key, value, token);
      else keep(key, own.get(key), ownToken);
      own.delete(key);
    }
    for (const [key, value] of own) {
      if (ours.has(mine.noted.get(key))) keep(key, value, mine.noted.get(key));
    }
    const trail = trailOf([...mine.trail, ...theirs.trail]);
    const value = form.value(entries);
    // Together they may be more than such a thing may hold.
    return value === undefined ? theirs : { value, trail, noted: among(trail, noted) };
  }

  /** Whether two states hold the same, in whatever order. */
  function alike(form, one, other) {
    if (one === other) return true;
    const [left, right] = [form.entries(one.value), form.entries(other.value)];
    return left.size === right.size && [...left].every(([key, value]) => right.has(key) && text(right.get(key)) === text(value));
  }

  /**
   * What a page knows of one thing that other pages write to as well. `form` takes it apart: `read(value)` gives it when
   * it is in order, `entries(value)` its parts by key, `value(entries)` puts them together, `choose(key, a, b)` decides
   * between two that were noted at once, `stirs(key)` names what is noted anew where an entry is taken off.
   */
  class Shared {
    constructor(form, token) {
      this.form = form;
      this.token = token;
      this.forget();
    }

    forget() {
      this.known = { value: null, trail: [NOTHING], noted: new Map() };
      this.lacks = false;
    }

    get value() {
      return this.known.value;
    }

    /** What is to be stored so that others know all that is known here. */
    get stored() {
      return packed(this.known.value, { trail: this.known.trail, noted: Object.fromEntries(this.known.noted) });
    }

    /** Takes in what somebody stored. False where it can't be read; `lacks` tells whether something known here is not in it. */
    see(stored) {
      if (stored === null) {
        this.forget();
        return true;
      }
      const [found, writings] = unpacked(stored);
      const value = this.form.read(found);
      if (value === undefined) return false;
      const theirs = { value, ...(checked(writings) ?? { trail: [nameOf(value)], noted: new Map() }) };
      this.known = this.known.value === null ? theirs : join(this.form, this.known, theirs);
      this.lacks = !alike(this.form, this.known, theirs);
      return true;
    }

    /** Notes what the thing is from now on, made from what is known here, and gives what is to be stored. */
    note(value) {
      const before = this.known.value === null ? new Map() : this.form.entries(this.known.value);
      const after = this.form.entries(value);
      const token = `${numberOf(this.known.trail[0]) + 1}.${this.token()}`;
      const noted = new Map(this.known.noted);
      for (const [key, one] of after) {
        if (!before.has(key) || text(before.get(key)) !== text(one)) noted.set(key, token);
        before.delete(key);
      }
      for (const key of before.keys()) {
        noted.delete(key);
        const stirred = this.form.stirs?.(key);
        if (after.has(stirred)) noted.set(stirred, token);
      }
      const trail = trailOf([token, ...this.known.trail]);
      this.known = { value, trail, noted: among(trail, noted) };
      this.lacks = false;
      return this.stored;
    }
  }

  /** The later of two by the time they carry; where that does not tell, the same one on every page. */
  function later(a, b) {
    const [first, second] = [a, b].map((one) => Date.parse(one?.at ?? one));
    if (first !== second && !Number.isNaN(first) && !Number.isNaN(second)) return first > second ? a : b;
    return text(a) > text(b) ? a : b;
  }

  /** The form of a list whose entries are known by a key. */
  const list = (key) => ({
    read: (value) => (Array.isArray(value) ? value.filter((one) => one !== null && typeof one === "object") : undefined),
    entries: (value) => new Map(value.map((one) => [key(one), one])),
    value: (entries) => [...entries.values()],
    choose: (_, a, b) => later(a, b),
  });

  /** The form of a plain map. */
  const map = {
    read: (value) => (value !== null && typeof value === "object" && !Array.isArray(value) ? value : undefined),
    entries: (value) => new Map(Object.entries(value)),
    value: (entries) => Object.fromEntries(entries),
    choose: (_, a, b) => later(a, b),
  };

  /** What no other writing has. Random values are there without a secure connection, too. */
  const token = () => [...globalThis.crypto.getRandomValues(new Uint32Array(2))].map((part) => part.toString(36)).join("");

  leaf.writings = { Shared, later, list, map, token };
})((globalThis.leaf ??= {}));
