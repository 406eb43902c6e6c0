// The contact sheet: what is chosen stays in this page (and over a reload of it) until it is saved in photos.toml.
(() => {
  "use strict";
  const sheet = document.getElementById("sheet");
  const prints = [...sheet.querySelectorAll(".print")];
  if (!prints.length) return;
  const said = document.getElementById("said");
  const save = document.getElementById("save");
  const anew = document.getElementById("anew");
  const DRAFT = `sheet/${sheet.dataset.job}`;
  const FIELDS = ["lead", "client", "turn", "aside", "caption", "day"];
  const before = new Map(prints.map((print) => [print, Object.fromEntries(FIELDS.map((f) => [f, print.dataset[f]]))]));
  let sending = false;
  let wrong = "";

  const changes = () => prints.map((print) => {
    const was = before.get(print);
    return [print, FIELDS.filter((f) => print.dataset[f] !== was[f])];
  }).filter(([, fields]) => fields.length);

  const show = (words) => {
    const changed = changes();
    for (const print of prints) {
      for (const button of print.querySelectorAll("[aria-pressed]")) {
        button.setAttribute("aria-pressed", print.dataset[button.dataset.do]);
      }
      for (const input of print.querySelectorAll("[data-field]")) {
        if (input.value !== print.dataset[input.dataset.field]) input.value = print.dataset[input.dataset.field];
      }
    }
    save.disabled = sending || !changed.length;
    anew.hidden = !wrong;
    said.classList.toggle("wrong", Boolean(wrong));
    const { dirtyOne, dirty, clean } = sheet.dataset;
    const count = changed.length === 1 ? dirtyOne : dirty.replace("#", changed.length);
    const now = wrong || words || (changed.length ? count : clean);
    if (said.textContent !== now) said.textContent = now;
    const draft = changed.map(([print, fields]) => [print.dataset.file, Object.fromEntries(fields.map((f) => [f, print.dataset[f]]))]);
    if (draft.length) sessionStorage.setItem(DRAFT, JSON.stringify(draft));
    else sessionStorage.removeItem(DRAFT);
  };

  const choose = {
    lead(print) {
      const on = print.dataset.lead !== "true";
      for (const other of prints) other.dataset.lead = "false";
      print.dataset.lead = String(on);
      if (on) Object.assign(print.dataset, { client: "true", aside: "false" });
    },
    client(print) {
      const on = print.dataset.client !== "true";
      print.dataset.client = String(on);
      if (on) print.dataset.aside = "false";
      else print.dataset.lead = "false";
    },
    turn(print) { print.dataset.turn = String((Number(print.dataset.turn) + 90) % 360); },
    aside(print) {
      const on = print.dataset.aside !== "true";
      print.dataset.aside = String(on);
      if (on) Object.assign(print.dataset, { client: "false", lead: "false" });
    },
  };

  const sent = () => {
    const value = { seen: sheet.dataset.seen, photos: [] };
    for (const [print, fields] of changes()) {
      const one = { file: print.dataset.file };
      for (const field of fields) {
        if (field === "lead") continue;
        const text = print.dataset[field];
        one[field] = { client: text === "true", aside: text === "true", turn: Number(text), caption: text.trim(), day: text || null }[field];
      }
      if (Object.keys(one).length > 1) value.photos.push(one);
    }
    if (changes().some(([, fields]) => fields.includes("lead"))) {
      value.lead = prints.find((print) => print.dataset.lead === "true")?.dataset.file ?? "";
    }
    return value;
  };

  const store = async () => {
    if (sending || !changes().length) return;
    const value = sent();
    const kept = new Map(prints.map((print) => [print, Object.fromEntries(FIELDS.map((f) => [f, print.dataset[f]]))]));
    sending = true;
    wrong = "";
    try {
      const answer = await window.bench.send(`photos/${encodeURIComponent(sheet.dataset.job)}`, value);
      sheet.dataset.seen = answer.seen;
      for (const [print, fields] of kept) before.set(print, fields);
      sending = false;
      show(changes().length ? "" : sheet.dataset.saved);
    } catch (error) {
      wrong = error.message;
      sending = false;
      show();
    }
  };

  const go = (print) => {
    for (const other of prints) other.firstElementChild.tabIndex = -1;
    print.firstElementChild.tabIndex = 0;
    print.firstElementChild.focus();
    print.scrollIntoView({ block: "nearest" });
  };

  // Up and down by where the frames stand, so that it is right for any number of columns.
  const beside = (print, step) => {
    const here = print.getBoundingClientRect();
    const rows = prints.filter((other) => step * (other.getBoundingClientRect().top - here.top) > here.height / 4);
    const far = (other) => {
      const box = other.getBoundingClientRect();
      return Math.abs(box.top - here.top) * 4 + Math.abs(box.left - here.left);
    };
    return rows.sort((one, other) => far(one) - far(other))[0];
  };

  const KEYS = { l: "lead", c: "client", t: "turn", x: "aside" };
  document.addEventListener("keydown", (event) => {
    const typing = event.target.matches("input");
    const print = event.target.closest(".print");
    const key = event.key.length === 1 ? event.key.toLowerCase() : event.key;
    if (key === "s" && (event.ctrlKey || event.metaKey)) {
      event.preventDefault();
      store();
      return;
    }
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (typing) {
      if (key === "Escape" || (key === "Enter" && event.target.type === "text")) {
        event.preventDefault();
        go(print);
      }
      return;
    }
    if (key === "s") { store(); return; }
    if (!print) return;
    const at = prints.indexOf(print);
    const to = {
      ArrowRight: prints[at + 1], ArrowLeft: prints[at - 1], Home: prints[0], End: prints.at(-1),
      ArrowDown: key === "ArrowDown" && beside(print, 1), ArrowUp: key === "ArrowUp" && beside(print, -1),
    }[key];
    if (key.startsWith("Arrow") || key === "Home" || key === "End") {
      event.preventDefault();
      if (to) go(to);
    } else if (KEYS[key]) {
      choose[KEYS[key]](print);
      show();
    } else if (key === "e" || key === "d") {
      event.preventDefault();
      print.querySelector(`[data-field="${key === "e" ? "caption" : "day"}"]`).focus();
    } else if (key === "Escape") {
      go(print);
    }
  });
  sheet.addEventListener("click", (event) => {
    const button = event.target.closest("[data-do]");
    if (button) {
      choose[button.dataset.do](button.closest(".print"));
      show();
    } else if (event.target.closest(".pane")) {
      go(event.target.closest(".print"));
    }
  });
  sheet.addEventListener("input", (event) => {
    const { field } = event.target.dataset;
    if (!field) return;
    event.target.closest(".print").dataset[field] = event.target.value;
    show();
  });
  save.addEventListener("click", store);
  anew.addEventListener("click", () => location.reload());
  document.addEventListener("bound", (event) => { if (sending || changes().length) event.preventDefault(); });

  for (const [file, fields] of JSON.parse(sessionStorage.getItem(DRAFT) ?? "[]")) {
    const print = prints.find((one) => one.dataset.file === file);
    if (print) Object.assign(print.dataset, fields);
  }
  prints[0].firstElementChild.tabIndex = 0;
  show();
})();
