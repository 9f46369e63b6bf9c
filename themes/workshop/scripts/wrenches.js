// Torque wrenches: which of one's own to take for a torque, and what to set with an adapter on it.
(function (leaf) {
  "use strict";

  /** Share of full scale a wrench can be trusted from (common practice; ISO 6789 calibrates from there). */
  const USABLE_FROM = 0.2;
  const HAIR = 1e-9;

  const sound = ({ low, high }) => Number.isFinite(low) && Number.isFinite(high) && low >= 0 && high > low;

  /** Whether a wrench, its scale in N·m, can be trusted at a torque. */
  function fits(wrench, torque) {
    if (!sound(wrench) || !(torque > 0)) return false;
    const from = Math.max(wrench.low, USABLE_FROM * wrench.high);
    return torque <= wrench.high * (1 + HAIR) && torque >= from * (1 - HAIR);
  }

  /** By how much an adapter lengthens a wrench, as a factor: (L + E·cos θ)/L. */
  function lengthening(length, adapter) {
    if (!(length > 0) || !(adapter.length >= 0) || !Number.isFinite(adapter.angle)) return null;
    const cosine = Math.cos((adapter.angle * Math.PI) / 180);
    const offset = Math.abs(cosine) < 1e-12 ? 0 : adapter.length * cosine;
    return length + offset > 0 ? (length + offset) / length : null;
  }

  /** What to set so that the joint gets a torque: T·L/(L + E·cos θ). */
  function setting(torque, length, adapter) {
    const factor = lengthening(length, adapter);
    return factor !== null && torque > 0 ? torque / factor : null;
  }

  /** The nearest value of its scale. */
  function nearest(wrench, torque) {
    return wrench.step > 0 ? Math.round(torque / wrench.step) * wrench.step : torque;
  }

  function shows(wrench, torque) {
    return Math.abs(nearest(wrench, torque) - torque) <= torque * 0.005;
  }

  /** Where it is most accurate: 25 to 75 % of full scale. */
  function readsBest(wrench, torque) {
    return 0.25 * wrench.high <= torque && torque <= 0.75 * wrench.high;
  }

  /** Of several wrenches that can be trusted: first one whose scale shows the torque, then the most accurate, then the
      smallest. `ends` are the least and greatest torque it must read. Gives its index, or -1. */
  function best(wrenches, torque, ends = [torque]) {
    const found = wrenches.map((wrench, at) => ({ wrench, at })).filter(({ wrench }) => ends.every((end) => fits(wrench, end)));
    const rank = ({ wrench }) => [shows(wrench, torque) ? 0 : 1, readsBest(wrench, torque) ? 0 : 1, wrench.high];
    found.sort((a, b) => {
      const [left, right] = [rank(a), rank(b)];
      return left[0] - right[0] || left[1] - right[1] || left[2] - right[2] || a.at - b.at;
    });
    return found[0]?.at ?? -1;
  }

  leaf.wrench = { fits, setting, nearest, best };
})((globalThis.leaf ??= {}));
