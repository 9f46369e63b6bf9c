// Clocks that jump, and times that run out. A device's clock is not believed silently.
(function (leaf) {
  "use strict";

  /** Less than this, in ms, is how clocks are set right all the time. */
  const JUMP = 60_000;

  /** Watches one clock against another: `look` gives how far the first jumped since the last look, in ms, or 0. */
  class Watch {
    constructor(now, steady, seen) {
      this.now = now;
      this.steady = steady;
      this.last = { now: now(), steady: steady() };
      /** Back before what this device had seen when it was last used, in ms. */
      this.wentBack = Number.isFinite(seen) && seen - this.last.now > JUMP ? seen - this.last.now : 0;
    }

    look() {
      const current = { now: this.now(), steady: this.steady() };
      const jump = current.now - this.last.now - (current.steady - this.last.steady);
      this.last = current;
      return Math.abs(jump) > JUMP ? jump : 0;
    }
  }

  /** A time in its largest unit and the next smaller one: `[[1, "days"], [2, "hours"]]`. */
  function parts(milliseconds) {
    const units = [["days", 86_400], ["hours", 3600], ["minutes", 60], ["seconds", 1]];
    let rest = Math.max(0, Math.ceil(milliseconds / 1000));
    const first = Math.max(0, units.findIndex(([, size]) => rest >= size));
    if (rest === 0) return [[0, "seconds"]];
    const found = units.slice(first, first + 2).map(([name, size]) => {
      const count = Math.floor(rest / size);
      rest -= count * size;
      return [count, name];
    });
    return found.filter(([count]) => count > 0);
  }

  leaf.clock = { Watch, parts, JUMP };
})((globalThis.leaf ??= {}));
