// What is reckoned at the bench: formulas of measures and shims, arcs. The same formulas as the program's own.
(function (leaf) {
  "use strict";

  const LONGEST = 400;
  const DEEPEST = 32;
  /** Shims are measured to a micrometre: a nanometre is no difference. */
  const HAIR = 1e-6;

  /** A formula as a tree, or nothing where it is none: sums of products of numbers, ids and brackets. */
  function parse(text) {
    if (typeof text !== "string" || text.length > LONGEST) return null;
    const tokens = text.match(/[()]|[a-z][a-z0-9-]*|-?(?:\d+\.?\d*|\.\d+)|[-+×÷*/]|\S/g) ?? [];
    let [at, depth] = [0, 0];
    const sum = () => chain(product, ["+", "-"]);
    const product = () => chain(operand, ["×", "÷", "*", "/"]);
    function chain(part, signs) {
      let left = part();
      while (left && signs.includes(tokens[at])) {
        const sign = tokens[at++];
        const right = part();
        left = right && { sign, left, right };
      }
      return left;
    }
    function operand() {
      const token = tokens[at++];
      if (token === "(") {
        if (++depth > DEEPEST) return null;
        const inside = sum();
        depth -= 1;
        return tokens[at++] === ")" ? inside : null;
      }
      if (/^[a-z]/.test(token ?? "")) return { name: token };
      return /^-?[\d.]/.test(token ?? "") && Number.isFinite(Number(token)) ? { number: Number(token) } : null;
    }
    const tree = sum();
    return tree && at === tokens.length ? tree : null;
  }

  /** The ids in it, each once. */
  function names(tree) {
    if (!tree) return [];
    if (tree.name) return [tree.name];
    return tree.sign ? [...new Set([...names(tree.left), ...names(tree.right)])] : [];
  }

  /** Constant and slope over one unknown; nothing where a value is missing or there is no one answer. */
  function line(tree, values, unknown) {
    if (!tree) return null;
    if (tree.number !== undefined) return { constant: tree.number, slope: 0 };
    if (tree.name && tree.name === unknown) return { constant: 0, slope: 1 };
    if (tree.name) return Number.isFinite(values[tree.name]) ? { constant: values[tree.name], slope: 0 } : null;
    const [a, b] = [line(tree.left, values, unknown), line(tree.right, values, unknown)];
    if (!a || !b) return null;
    switch (tree.sign) {
      case "+": return { constant: a.constant + b.constant, slope: a.slope + b.slope };
      case "-": return { constant: a.constant - b.constant, slope: a.slope - b.slope };
      case "×": case "*":
        if (a.slope !== 0 && b.slope !== 0) return null;
        return { constant: a.constant * b.constant, slope: a.slope * b.constant + a.constant * b.slope };
      default:
        if (b.slope !== 0 || b.constant === 0) return null;
        return { constant: a.constant / b.constant, slope: a.slope / b.constant };
    }
  }

  /** A formula's value, or nothing. */
  function evaluate(tree, values) {
    const found = line(tree, values);
    return found && Number.isFinite(found.constant) ? found.constant : null;
  }

  /** What an id must be so that the formula comes to a result, or nothing. */
  function solve(tree, unknown, result, values) {
    const found = names(tree).includes(unknown) ? line(tree, values, unknown) : null;
    if (!found || found.slope === 0) return null;
    const value = (result - found.constant) / found.slope;
    return Number.isFinite(value) ? value : null;
  }

  /** A thickness, what it makes of the target, and whether that is accepted; without a band, by what lies nearest. */
  function offered(tree, exact, values, series, accept, size) {
    const gives = solve(tree, "target", size, values);
    const near = Math.abs(size - exact) <= series.step / 2 + HAIR;
    const accepted = accept && gives !== null ? (accept.low ?? -Infinity) - HAIR <= gives && gives <= (accept.high ?? Infinity) + HAIR : near;
    return { size, gives, accepted };
  }

  /** What a reading asks for, and the neighbours the series has: `{exact, below, above, best}`, lengths in mm. */
  function shim(formula, values, series, accept) {
    const tree = parse(formula);
    const exact = evaluate(tree, values);
    if (exact === null || !(series.from > 0) || !(series.step > 0) || !(series.to >= series.from)) return null;
    const last = Math.floor((series.to - series.from + HAIR) / series.step);
    const at = (steps) => Math.round((series.from + steps * series.step) * 1e6) / 1e6;
    const offer = (size) => offered(tree, exact, values, series, accept, size);
    const steps = Math.floor((exact - series.from + HAIR) / series.step);
    const below = steps >= 0 ? offer(at(Math.min(steps, last))) : null;
    const met = below !== null && Math.abs(below.size - exact) < HAIR;
    const next = Math.max(steps + 1, 0);
    const above = !met && next <= last ? offer(at(next)) : null;
    const off = ({ size }) => Math.abs(size - exact);
    const best = [below, above].filter((one) => one?.accepted).reduce((thin, thick) => (thin === null || off(thick) + HAIR < off(thin) ? thick : thin), null);
    return { exact, below, above, best };
  }

  /** A shim that was fitted beside what the readings ask for: what `shim` gives, and `fitted`. */
  function fitted(formula, values, series, accept, size) {
    const choice = shim(formula, values, series, accept);
    return choice && { ...choice, fitted: offered(parse(formula), choice.exact, values, series, accept, size) };
  }

  /** Everything a hole less a part can come to, mm: `{low, high}`. */
  function clearance(hole, part) {
    const ends = [hole?.low, hole?.high, part?.low, part?.high];
    if (!ends.every(Number.isFinite) || hole.low <= 0 || part.low <= 0 || hole.low > hole.high || part.low > part.high) return null;
    return { low: hole.low - part.high, high: hole.high - part.low };
  }

  /** Angle of an arc on a diameter, degrees: 360·s/(π·D). */
  function degrees(arc, diameter) {
    const found = diameter > 0 ? (360 * arc) / (Math.PI * diameter) : NaN;
    return Number.isFinite(found) ? found : null;
  }

  /** Arc of an angle on a diameter, mm: π·D·θ/360. */
  function arc(angle, diameter) {
    const found = diameter > 0 ? (Math.PI * diameter * angle) / 360 : NaN;
    return Number.isFinite(found) ? found : null;
  }

  /** Backlash at the teeth of a reading at a dial on another radius, mm. */
  function atTeeth(reading, gear, dial) {
    const found = gear > 0 && dial > 0 ? (reading * gear) / dial : NaN;
    return Number.isFinite(found) ? found : null;
  }

  leaf.reckon = { parse, names, evaluate, solve, shim, fitted, clearance, degrees, arc, atTeeth };
})((globalThis.leaf ??= {}));
