// Keeps an open page as it is in the book, and says on it what is wrong. One of the open pages asks and tells the others:
// a browser opens no more than six connections to a host, and pages that each ask would take them all.
(() => {
  "use strict";
  const WAIT_MS = 1000;
  const { edition, mark, token = "" } = document.currentScript.dataset;
  const PLACE = `bench:${location.pathname}`;
  const others = new BroadcastChannel("bound");

  const got = async (path) => {
    const answer = await fetch(`/-/${path}`, { cache: "no-store" });
    if (!answer.ok) throw new Error(answer.statusText);
    return answer;
  };
  const waited = () => new Promise((wake) => { setTimeout(wake, WAIT_MS); });

  // -- the place of the reader: what is open, what has the focus, what is typed, what stands at the top

  const named = (one) => {
    if (one.id) return `#${one.id}`;
    const summary = one.matches("details") ? one.querySelector("summary") : one;
    const words = one.name || one.getAttribute("href") || summary?.textContent.trim().slice(0, 80) || "";
    return `${one.tagName} ${words}`;
  };
  // Things of one name are told apart by their order.
  const byName = (selector) => {
    const found = new Map();
    for (const one of document.querySelectorAll(selector)) {
      let name = named(one);
      for (let next = 2; found.has(name); next += 1) name = `${named(one)} ${next}`;
      found.set(name, one);
    }
    return found;
  };
  const nameIn = (found, wanted) => [...found].find(([, one]) => one === wanted)?.[0];
  const FOCUSED = "a, button, input, select, textarea, summary, [tabindex]";
  const FIELDS = "input:not([type=hidden], [type=file], [type=password]), select, textarea";

  const keepPlace = () => {
    const active = document.activeElement;
    const top = [...document.querySelectorAll("[id]")].find((one) => one.getBoundingClientRect().bottom > 0
      && one.getBoundingClientRect().top > -innerHeight && one.getClientRects().length);
    sessionStorage.setItem(PLACE, JSON.stringify({
      x: scrollX,
      y: scrollY,
      top: top && scrollY > 0 ? [top.id, top.getBoundingClientRect().top] : null,
      folds: [...byName("details")].map(([name, one]) => [name, one.open]),
      fields: [...byName(FIELDS)].map(([name, one]) => [name, one.value, one.checked ?? false]),
      focus: nameIn(byName(FOCUSED), active) ?? "",
      picked: typeof active?.selectionStart === "number" ? [active.selectionStart, active.selectionEnd] : null,
    }));
    history.scrollRestoration = "manual";
  };

  const putBack = () => {
    const kept = JSON.parse(sessionStorage.getItem(PLACE) ?? "null");
    if (!kept) return;
    sessionStorage.removeItem(PLACE);
    const folds = byName("details");
    for (const [name, open] of kept.folds) if (folds.has(name)) folds.get(name).open = open;
    const fields = byName(FIELDS);
    const tell = () => {
      for (const [name, value, checked] of kept.fields) {
        const field = fields.get(name);
        if (!field || (field.value === value && (field.checked ?? false) === checked)) continue;
        field.value = value;
        if ("checked" in field) field.checked = checked;
        field.dispatchEvent(new Event("input", { bubbles: true }));
      }
    };
    tell();
    addEventListener("load", tell, { once: true }); // a script of the page may begin by emptying a field
    const focus = () => {
      const one = byName(FOCUSED).get(kept.focus);
      if (!one || document.activeElement === one) return;
      one.focus({ preventScroll: true });
      if (kept.picked && typeof one.selectionStart === "number") one.setSelectionRange(...kept.picked);
    };
    focus();
    addEventListener("pageshow", () => { setTimeout(focus); }, { once: true }); // a field that scripts show first
    const top = kept.top && document.getElementById(kept.top[0]);
    const y = top ? scrollY + top.getBoundingClientRect().top - kept.top[1] : kept.y;
    scrollTo({ left: kept.x, top: y, behavior: "instant" });
    history.scrollRestoration = "auto";
  };

  // -- what is wrong

  const style = Object.assign(document.createElement("link"), { rel: "stylesheet", href: "/-/bench.css" });
  const place = Object.assign(document.createElement("div"), { id: "bench-band", hidden: true });
  place.setAttribute("role", "status"); // is there before it says something, or nothing would be read out
  let said = "null";

  const say = (band) => {
    const now = JSON.stringify(band);
    if (now === said) return;
    said = now;
    place.replaceChildren();
    place.hidden = !band;
    if (!band) return;
    const element = (name, words) => Object.assign(document.createElement(name), { textContent: words });
    const list = document.createElement("ul");
    list.append(...band.lines.map((line) => element("li", line)));
    place.append(element("strong", band.label), element("p", band.head), list);
    if (band.more) place.append(element("p", band.more));
  };

  // -- what is new

  const ABOUT = `page?of=${encodeURIComponent(location.pathname)}`;

  const heed = (now) => {
    say(now.band);
    if (!now.mark || now.mark === mark) return; // it is gone for now, or as it was
    if (!document.dispatchEvent(new CustomEvent("bound", { cancelable: true, detail: now }))) return;
    keepPlace();
    location.reload();
  };
  const look = async () => { heed(await (await got(ABOUT)).json()); };

  const watch = async () => {
    let seen = edition;
    for (;;) {
      try {
        const now = await (await got(`${ABOUT}&seen=${seen}`)).json();
        if (now.edition !== seen) {
          seen = now.edition;
          others.postMessage(seen);
          heed(now);
        }
      } catch {
        await waited();
      }
    }
  };

  // What a page of a desk sends: resolves to the answer, rejects with an Error whose message is for the maker to read.
  const send = async (path, value) => {
    const answer = await fetch(`/-/${path}`, {
      method: "POST",
      headers: { "Content-Type": "application/json", "X-Bench-Token": token },
      body: JSON.stringify(value),
    });
    if (!answer.ok) throw new Error((await answer.text()).trim());
    return answer.json();
  };
  if (token) window.bench = Object.freeze({ send });

  // What a page of the book has for the bench alone.
  for (const only of document.querySelectorAll("[data-bench]")) only.hidden = false;
  for (const link of document.querySelectorAll("[data-bench-href]")) link.href = link.dataset.benchHref;

  document.head.append(style);
  document.body.prepend(place);
  putBack();
  others.onmessage = () => { look().catch(() => {}); };
  look().catch(() => {}); // bound between the sending of this page and now; or broken for long
  if (navigator.locks) navigator.locks.request("bound", watch);
  else watch();
})();
