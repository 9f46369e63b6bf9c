// Sets the bench up once all its parts are there; keeps the screen on.
(function (leaf) {
  "use strict";

  const { bench } = leaf;
  if (!bench) return;

  // ---- the screen ----

  let lock = null;
  const there = "wakeLock" in globalThis.navigator;

  bench.awakeWords = () => bench.say(!there ? "bench-awake-none" : lock === null ? "bench-awake-off" : "bench-awake-on");

  async function stayAwake() {
    if (!there) return;
    try {
      if (bench.settings.awake && lock === null && document.visibilityState === "visible") {
        lock = await globalThis.navigator.wakeLock.request("screen");
        lock.addEventListener("release", () => {
          lock = null;
          bench.onAwake?.();
        });
      } else if (!bench.settings.awake && lock !== null) {
        await lock.release();
      }
    } catch {
      // A battery that runs low, or a device that does not allow it: the words say that it is off.
      lock = null;
    }
    bench.onAwake?.();
  }

  document.body.classList.add("bench");
  for (const begin of bench.parts) begin();
  bench.tell();
  bench.onChange(stayAwake);
  stayAwake();
  document.addEventListener("visibilitychange", stayAwake);
  // Another tab of the same machine writes to the same record.
  globalThis.addEventListener("storage", ({ key, newValue }) => {
    if (key === null || (key.startsWith("leaf.") && key !== "leaf.seen")) bench.heard(key, newValue);
  });
  // A page that was left and is gone back to has not been told meanwhile.
  globalThis.addEventListener("pageshow", ({ persisted }) => persisted && bench.heard(null, null));
})((globalThis.leaf ??= {}));
