// A button that is held: half a second, with a fill that shows it, so that a smear of grease does nothing.
// A key, and a click that no finger made (assistive technology), act at once: they don't smear.
(function (leaf) {
  "use strict";

  const HELD = 500;

  /** Calls `act` when the button was held, and `short` when it was let go too soon. `plain` tells whether a plain tap is enough. */
  leaf.hold = function (button, act, plain = () => false, short = () => {}) {
    let timer = null;
    let byPointer = false;
    const stop = () => {
      clearTimeout(timer);
      timer = null;
      button.classList.remove("holding");
    };
    button.addEventListener("pointerdown", (event) => {
      // Some screen readers send a pointer without an extent: that is a click, not a touch.
      byPointer = event.isTrusted && (event.width > 0 || event.height > 0);
      if (!byPointer || plain() || event.button !== 0) return;
      stop();
      button.classList.add("holding");
      timer = setTimeout(() => {
        stop();
        globalThis.navigator.vibrate?.(40);
        act();
      }, HELD);
    });
    button.addEventListener("pointerup", () => {
      const early = timer !== null;
      stop();
      if (early) short();
    });
    // A finger that slides off meant something else.
    for (const end of ["pointercancel", "pointerleave"]) button.addEventListener(end, stop);
    // A long press must not open the browser's menu over the sheet.
    button.addEventListener("contextmenu", (event) => event.preventDefault());
    button.addEventListener("click", (event) => {
      const touched = byPointer && event.detail > 0;
      byPointer = false;
      if (!touched || plain()) act();
    });
    // A key that is kept down clicks again and again: once is meant.
    button.addEventListener("keydown", (event) => {
      if (event.repeat && (event.key === "Enter" || event.key === " ")) event.preventDefault();
    });
    return button;
  };
})((globalThis.leaf ??= {}));
