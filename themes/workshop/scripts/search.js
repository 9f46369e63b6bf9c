// The search's window: one field, the results below it as they are typed for. The field is a combobox with a list of
// options after the ARIA Authoring Practices; each option is a link, so it opens as links do.
(function (leaf) {
  "use strict";
  const MOST = 30;
  let box, index, root, say;

  const make = () => {
    index = leaf.readIndex(leaf.index);
    const names = ["field", "hint", "close", "found", "nothing", "first", "meant"];
    say = Object.fromEntries(names.map((name, at) => [name, leaf.index.say[at]]));
    const field = leaf.element("input", {
      id: "search.field", type: "text", role: "combobox", "aria-controls": "search.list", "aria-expanded": "false", "aria-autocomplete": "list",
      "aria-describedby": "search.hint", autocomplete: "off", autocapitalize: "off", spellcheck: "false", enterkeyhint: "go",
    });
    const close = leaf.element("button", { type: "button" }, say.close);
    const status = leaf.element("p", { role: "status", class: "search-status" });
    const list = leaf.element("div", { id: "search.list", role: "listbox", "aria-label": say.found, class: "search-list" });
    const window = leaf.element(
      "dialog",
      { class: "search", "aria-labelledby": "search.label" },
      leaf.element(
        "div",
        { class: "search-head" },
        leaf.element("label", { id: "search.label", for: "search.field" }, say.field),
        leaf.element("div", { class: "search-row" }, field, close),
        leaf.element("p", { id: "search.hint", class: "search-hint" }, say.hint),
        status,
      ),
      list,
    );
    close.addEventListener("click", () => window.close());
    window.addEventListener("click", (event) => event.target === window && window.close());
    list.addEventListener("click", (event) => event.target.closest("a") && window.close());
    field.addEventListener("input", () => show(field.value));
    field.addEventListener("keydown", keys);
    document.body.append(window);
    return { window, field, status, list };
  };

  const active = () => box.list.querySelector('[aria-selected="true"]');
  const choose = (option) => {
    active()?.setAttribute("aria-selected", "false");
    option?.setAttribute("aria-selected", "true");
    if (option) box.field.setAttribute("aria-activedescendant", option.id);
    else box.field.removeAttribute("aria-activedescendant");
    option?.scrollIntoView({ block: "nearest" });
  };

  const keys = (event) => {
    const options = [...box.list.children];
    const at = options.indexOf(active());
    if (event.isComposing) return;
    if (event.key === "ArrowDown") choose(options[at + 1] ?? options[0]);
    else if (event.key === "ArrowUp") choose(options[at - 1] ?? options.at(-1));
    else if (event.key === "Enter") (active() ?? options[0])?.click();
    else return;
    event.preventDefault();
  };

  const option = (entry, at) =>
    leaf.element(
      "a",
      { id: `search.${at + 1}`, role: "option", "aria-selected": "false", tabindex: "-1", href: root + entry.href },
      leaf.element("span", { class: "search-what" }, leaf.numeralsIn(entry.name)),
      ...(entry.value ? [" ", leaf.element("b", {}, entry.not ? entry.value : leaf.numerals(entry.value))] : []),
      " ",
      leaf.element("small", {}, [entry.kind, ...entry.where].join(" · ")),
    );

  const show = (query) => {
    const here = new URL(root, location.href);
    const machine = decodeURIComponent(location.pathname.slice(here.pathname.length).split("/")[0]);
    const { found, meant } = leaf.find(index, query, machine);
    const typed = query.trim() !== "";
    box.list.replaceChildren(...found.slice(0, MOST).map(option));
    box.field.setAttribute("aria-expanded", String(found.length > 0));
    choose(null);
    const said = meant.map(([wrong, right]) => say.meant.replace("%1", () => wrong).replace("%2", () => right));
    if (typed) said.push(found.length ? `${say.found}: ${found.length}.` : say.nothing);
    if (found.length > MOST) said.push(say.first);
    box.status.textContent = said.join(" ");
  };

  /** Opens the window; `from` is the way from this page to the manual's first folder. */
  leaf.search = (from) => {
    root = from;
    box ??= make();
    if (!box.window.open) box.window.showModal();
    box.field.focus();
    box.field.select();
  };
})((globalThis.leaf ??= {}));
