// Numbers and units as people at the bench write them. Decimal point and decimal comma are both understood.
(function (leaf) {
  "use strict";

  const LONGEST = 40;
  const CUSTOMARY = /lbf|\bin\b|thou|°F|psi|\boz\b/;

  /** One spelling for all that count as the same: spaces, points, hyphens and raised dots between the parts of a unit. */
  function plain(spelling) {
    return spelling.trim().replaceAll("μ", "µ").replaceAll("º", "°").replace(/[\s·⋅•*.-]+/g, "·").replace(/·$/, "");
  }

  /** A number: `{value, digits}`, or `{fault}`, a key of words. */
  function number(text) {
    const written = text.trim().replace(/^[−–]/, "-");
    if (written.length > LONGEST) return { fault: "bench-not-number" };
    if (written.includes(",") && written.includes(".")) return { fault: "bench-thousands" };
    if ((written.match(/[.,]/g) ?? []).length > 1) return { fault: "bench-thousands" };
    const digits = written.replace(",", ".");
    if (!/^[+-]?(\d+(\.\d*)?|\.\d+)$/.test(digits)) return { fault: "bench-not-number" };
    const value = Number(digits);
    return Number.isFinite(value) ? { value, digits: tidy(digits) } : { fault: "bench-not-number" };
  }

  /** Digits with a leading zero and without a point at the end. */
  function tidy(digits) {
    return digits.replace(/^\+/, "").replace(/^(-?)\./, "$10.").replace(/\.$/, "");
  }

  class Units {
    constructor(rows) {
      this.rows = rows;
      this.known = new Map(rows.flatMap((row) => [row.symbol, ...row.others].map((text) => [plain(text), row])));
    }

    find(spelling) {
      return this.known.get(plain(spelling)) ?? null;
    }

    /** A value with or without its unit: `{value, digits, unit}`, or `{fault, unit}`. Without one it is in `own`. */
    read(text, own) {
      const match = /^\s*([+\-−–]?[\d.,]+)\s*(.*?)\s*$/.exec(text);
      if (!match || text.length > LONGEST) return { fault: "bench-not-number" };
      const read = number(match[1]);
      if (read.fault) return read;
      const unit = this.find(match[2] || own);
      if (!unit) return { fault: "bench-unit-unknown", unit: match[2] };
      const wanted = this.find(own);
      if (wanted && wanted.kind !== unit.kind) return { fault: "bench-unit-other", unit: unit.symbol };
      return { ...read, unit };
    }

    /** In the base unit of its kind. */
    toBase(value, unit) {
      return (value - unit.zero) * unit.size;
    }

    fromBase(value, unit) {
      return value / unit.size + unit.zero;
    }

    /** A reckoned value in a unit, to so many decimals: `60.9 N·m`. */
    show(base, unit, decimals) {
      return shown(this.fromBase(base, unit), unit.symbol, decimals);
    }

    /** Whether a text ends with a unit of inches and pounds, or of the other kind; nothing where it has none. */
    system(text) {
      const last = text.replaceAll("\u00a0", " ").replace(/[\])]+$/, "");
      const found = this.rows.flatMap((row) => [row.symbol]).filter((symbol) => last.endsWith(symbol) || last.includes(`${symbol} (`));
      if (found.length === 0) return null;
      const unit = found.reduce((a, b) => (b.length > a.length ? b : a));
      return CUSTOMARY.test(unit) ? "customary" : "metric";
    }
  }

  /** A number to so many decimals with its unit; a degree sign touches it. */
  function shown(value, symbol, decimals) {
    const digits = (Math.round(value * 10 ** decimals) / 10 ** decimals).toFixed(decimals).replace("-", "−");
    const local = leaf.numerals?.(digits) ?? digits;
    return symbol === "°" ? `${local}°` : `${local}\u00a0${symbol}`;
  }

  /** How a value stands to a spec and a limit, all in the base unit; ends count as inside. */
  function judge(value, spec, limit) {
    const inside = (band) => !band || ((band.low ?? -Infinity) - hair(band.low) <= value && value <= (band.high ?? Infinity) + hair(band.high));
    if (limit && !inside(limit)) return "outside-limit";
    if (spec) {
      if (inside(spec)) return "inside";
      // One number without a tolerance is what to aim at, no band to fall out of.
      if (spec.low === spec.high) return limit ? "inside-limit" : "no-band";
      return limit ? "outside-spec" : "outside-spec-only";
    }
    return limit ? "inside-limit" : "no-limit";
  }

  /** A reading that meets a limit exactly may come out a hair beyond it in binary. */
  function hair(end) {
    return Math.abs(end ?? 0) * 1e-9 + 1e-12;
  }

  /** The middle one; of an even count the mean of the two in the middle. */
  function median(values) {
    if (values.length === 0) return null;
    const sorted = [...values].sort((a, b) => a - b);
    const half = Math.floor(sorted.length / 2);
    return sorted.length % 2 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
  }

  leaf.quantity = { Units, number, judge, median, shown };
})((globalThis.leaf ??= {}));
