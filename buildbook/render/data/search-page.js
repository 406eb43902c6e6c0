// The page of past work: asks buildbookFind as the maker types, narrows down by facets, shows the jobs that were found and
// why, and keeps all that in the address. Without this script the page is the whole list by year, as it stands.
//
// What the page must have, by id: find-form (hidden), find (the field), narrow (facets go there), found (hidden; the answer:
// a heading, `taken`, a list, `more`), years (the whole list, of .job with data-job), find-said (read out).

"use strict";

(() => {
  const { words } = buildbookIndex;
  const { ask, facets, hasPhrases, keys, parse, rank, why } = buildbookFind;
  const SHOWN = 20; // jobs at a time
  const SETTLES_MS = 400; // after the last key, before the address and what is read out follow
  const PAUSE_MS = 120; // of typing, before the words of the jobs are asked for, lest they are for every letter
  const AT_ONCE = 40; // jobs whose words are loaded together
  const KEPT = 60; // jobs whose words are kept
  const WIDE = matchMedia("(min-width: 52rem)");
  const $ = (id) => document.getElementById(id);
  const field = $("find"), narrow = $("narrow"), found = $("found"), years = $("years"), said = $("find-said");
  const heading = found.querySelector("h2"), list = found.querySelector("ol"), taken = $("taken"), more = $("more");
  const title = document.title;
  const entries = new Map([...years.querySelectorAll(".job")].map((item) => [item.dataset.job, item]));
  const fill = (text, values) => text.replace(/\{(\w+)\}/g, (_, name) => values[name]);
  const pause = () => new Promise((done) => { setTimeout(done, PAUSE_MS); });
  const plural = new Intl.PluralRules(document.documentElement.lang || "en");
  const jobs = (count) => fill(words.count[plural.select(count)] || words.count.more, { count });

  function make(tag, facts = {}, ...inside) {
    const element = Object.assign(document.createElement(tag), facts);
    element.append(...inside);
    return element;
  }

  // ---- the words of a job, loaded when they are wanted --------------------------------------------

  const kept = new Map(), waiting = new Map();

  window.buildbookWords = (key, passages) => {
    kept.set(key, passages);
    if (kept.size > KEPT) kept.delete(kept.keys().next().value);
    waiting.get(key)?.(passages);
  };

  function wordsOf(key) {
    if (kept.has(key)) return Promise.resolve(kept.get(key));
    return new Promise((done) => {
      const script = make("script", { src: `jobs/${encodeURIComponent(key)}/words.js` });
      const end = (passages) => { waiting.delete(key); script.remove(); done(passages); };
      const others = waiting.get(key);
      waiting.set(key, (passages) => { others?.(passages); end(passages); });
      script.onerror = () => waiting.get(key)?.([]);
      document.head.append(script);
    });
  }

  // ---- what is asked, and the address that says it ------------------------------------------------

  const chosen = new Map(facets.map((facet) => [facet.name, new Set()]));
  const nothing = () => !field.value.trim() && facets.every((facet) => !chosen.get(facet.name).size);

  function address() {
    if (nothing()) return "#all";
    const state = new URLSearchParams();
    if (field.value.trim()) state.append("find", field.value.trim());
    for (const [name, ids] of chosen) for (const id of ids) state.append(name, id);
    return `#${state}`;
  }

  let settling = 0, begun = false; // begun: the address already has an entry for what is being typed

  function settle(anew) {
    clearTimeout(settling);
    settling = 0;
    if (address() === (location.hash || "#all")) return;
    if (anew) location.hash = address(); else location.replace(address());
  }

  function settleSoon() {
    clearTimeout(settling);
    settling = setTimeout(() => { settle(!begun); begun = true; }, SETTLES_MS);
  }

  const settleNow = () => { if (settling) settle(!begun); begun = false; };

  // Follows the address, unless it only says what is asked already, or leads to a place on the page.
  function readAddress() {
    if (settling || address() === (location.hash || "#all")) return;
    if (location.hash && location.hash !== "#all" && !location.hash.includes("=")) return;
    const state = new URLSearchParams(location.hash === "#all" ? "" : location.hash.slice(1));
    if (field.value.trim() !== (state.get("find") ?? "")) field.value = state.get("find") ?? "";
    for (const [name, ids] of chosen) {
      ids.clear();
      for (const id of state.getAll(name)) ids.add(id);
    }
    answer();
  }

  // ---- facets -------------------------------------------------------------------------------------

  const FIRST = 6; // values of a facet that show at once
  const boxes = new Map(); // facet -> value -> its checkbox, item and count

  function buildFacets() {
    for (const facet of facets) {
      const rows = new Map(), items = make("ul");
      for (const { id, label } of facet.values) {
        const box = make("input", { type: "checkbox" }), count = make("span", { className: "number" });
        const item = make("li", {}, make("label", {}, box, make("span", { className: "value", textContent: label }), count));
        box.addEventListener("change", () => { choose(facet.name, id, box.checked); });
        rows.set(id, { box, item, count });
        items.append(item);
      }
      const rest = make("button", { type: "button", className: "rest" });
      rest.addEventListener("click", () => {
        const next = [...rows.values()].filter(({ item }) => item.hidden);
        facet.whole = true;
        showFacet(facet);
        next.find(({ item }) => !item.hidden)?.box.focus();
      });
      const summary = make("summary", { textContent: facet.label });
      facet.box = make("details", { className: "facet" }, summary, items, rest);
      facet.rest = rest;
      facet.box.open = WIDE.matches && facets.indexOf(facet) < 2;
      boxes.set(facet.name, rows);
      narrow.querySelector("div").append(facet.box);
    }
    facets.forEach(byJob);
    const fit = () => { narrow.open = WIDE.matches || facets.some((facet) => chosen.get(facet.name).size); };
    WIDE.addEventListener("change", fit);
    fit();
  }

  // The values of each job, one job after the other: those of job n are facet.of[facet.from[n]] up to facet.from[n + 1].
  function byJob(facet) {
    facet.from = new Uint32Array(keys.length + 1);
    for (const { jobs: places } of facet.values) for (const place of places) facet.from[place + 1]++;
    for (let place = 0; place < keys.length; place++) facet.from[place + 1] += facet.from[place];
    const next = facet.from.slice();
    facet.of = new Uint16Array(facet.from[keys.length]);
    facet.values.forEach(({ jobs: places }, i) => { for (const place of places) facet.of[next[place]++] = i; });
    facet.counts = new Int32Array(facet.values.length);
  }

  const has = ({ from, of }, place, picked) => {
    for (let at = from[place]; at < from[place + 1]; at++) if (picked.has(of[at])) return true;
    return false;
  };

  const tally = ({ from, of, counts }, place) => { for (let at = from[place]; at < from[place + 1]; at++) counts[of[at]]++; };

  function choose(name, id, yes) {
    if (yes) chosen.get(name).add(id); else chosen.get(name).delete(id);
    answer();
    settle(true);
  }

  // A job counts for a value when it has the value and answers all but, maybe, this very facet.
  function narrowed(hits) {
    const picked = facets.map((facet) => new Set(facet.values.flatMap(({ id }, i) => (chosen.get(facet.name).has(id) ? [i] : []))));
    const unknown = facets.some((facet, f) => chosen.get(facet.name).size > picked[f].size && !picked[f].size);
    const left = [];
    for (const facet of facets) facet.counts.fill(0);
    for (const hit of hits) {
      let fails = -1, failed = unknown ? 2 : 0;
      for (let f = 0; f < facets.length && failed < 2; f++) {
        if (picked[f].size && !has(facets[f], hit.place, picked[f])) { fails = f; failed++; }
      }
      if (!failed) left.push(hit);
      if (failed === 1) tally(facets[fails], hit.place);
      if (!failed) for (const facet of facets) tally(facet, hit.place);
    }
    facets.forEach(showFacet);
    return left;
  }

  // The values with the most jobs, in their usual order, so that nothing moves under the hand.
  function showFacet(facet) {
    const on = chosen.get(facet.name), rows = boxes.get(facet.name);
    const held = facet.values.map((_, i) => i).filter((i) => facet.counts[i]);
    const first = new Set([...held].sort((a, b) => facet.counts[b] - facet.counts[a] || a - b).slice(0, facet.whole ? undefined : FIRST));
    facet.values.forEach(({ id }, i) => {
      const { box, item, count } = rows.get(id);
      const off = !on.has(id) && !first.has(i);
      box.checked = on.has(id);
      if (item.hidden !== off) item.hidden = off;
      if (!off && count.textContent !== String(facet.counts[i])) count.textContent = facet.counts[i];
    });
    const over = held.filter((i) => !first.has(i) && !on.has(facet.values[i].id)).length;
    facet.rest.hidden = !over;
    facet.rest.textContent = fill(words.rest, { count: over });
    facet.box.hidden = !held.length && !on.size;
    if (on.size) facet.box.open = true;
  }

  // ---- the answer ---------------------------------------------------------------------------------

  let turn = 0, last = { text: null };

  function say(text) {
    heading.textContent = text;
    clearTimeout(speaking);
    speaking = setTimeout(() => { said.textContent = text; }, SETTLES_MS);
  }
  let speaking = 0;

  // Phrases need the words of every job that has theirs; all else stands at once, before the next key.
  function answer() {
    const mine = ++turn, text = field.value.trim();
    if (last.text === text) return show();
    const query = parse(text), asked = ask(query), all = { text, query, asked, hits: rank(asked, query) };
    if (!query.phrases.length) {
      last = all;
      return show();
    }
    years.hidden = true;
    found.hidden = false;
    say(fill(words.looking, { count: all.hits.length }));
    return withPhrases(all, mine).then((hits) => {
      if (mine !== turn) return;
      last = { ...all, hits };
      show();
    });
  }

  async function withPhrases({ query, hits }, mine) {
    const left = [];
    for (let at = 0; at < hits.length && mine === turn; at += AT_ONCE) {
      const some = hits.slice(at, at + AT_ONCE);
      const told = await Promise.all(some.map((hit) => wordsOf(keys[hit.place])));
      left.push(...some.filter((_, i) => hasPhrases(told[i], query.phrases)));
    }
    return left;
  }

  function show() {
    const hits = narrowed(last.hits), all = nothing();
    found.hidden = all;
    document.title = all || !last.text ? title : `${last.text} · ${title}`;
    more.hidden = true;
    if (all) {
      clearTimeout(speaking);
      said.textContent = "";
      for (const item of [...list.children]) giveBack(item);
      years.hidden = false;
      return;
    }
    years.hidden = true;
    showTaken();
    say(!hits.length ? words.none : hits[0].lacking ? fill(words.most, { jobs: jobs(hits.length) }) : jobs(hits.length));
    const first = new Set(hits.slice(0, SHOWN).map((hit) => keys[hit.place]));
    for (const item of [...list.children]) if (!first.has(item.dataset.job)) giveBack(item);
    showMore(hits, 0);
  }

  function showTaken() {
    const marks = facets.flatMap((facet) => [...chosen.get(facet.name)].map((id) => {
      const label = facet.values.find((value) => value.id === id)?.label ?? id;
      const off = make("button", { type: "button", textContent: `${label} ×`, ariaLabel: fill(words.take_off, { value: label }) });
      off.addEventListener("click", () => { choose(facet.name, id, false); heading.focus(); });
      return make("li", {}, off);
    }));
    const clear = make("button", { type: "button", textContent: words.clear });
    clear.addEventListener("click", () => {
      field.value = "";
      for (const ids of chosen.values()) ids.clear();
      answer();
      settle(true);
      field.focus();
    });
    taken.replaceChildren(...marks, make("li", {}, clear));
  }

  function showMore(hits, from) {
    const some = hits.slice(from, from + SHOWN), left = hits.length - from - some.length;
    list.append(...some.map((hit) => itemOf(keys[hit.place])));
    more.hidden = !left;
    more.textContent = fill(words.more, { count: Math.min(SHOWN, left) });
    more.onclick = () => {
      showMore(hits, from + SHOWN);
      list.children[from + SHOWN].querySelector("h3 a").focus();
    };
  }

  // The job as the list has it, and as soon as it is near the window and its words are there, why it was found.
  function itemOf(key) {
    const item = entries.get(key) ?? unlisted(key);
    if (!places.has(item)) take(item);
    if (nearby.has(item) && last.text) explain(item); else plain(item);
    return item;
  }

  const nearby = new Set(); // items of what is found
  const explained = new WeakMap(); // item -> the turn for which it was
  const comes = new IntersectionObserver((seen) => {
    for (const { target, isIntersecting } of seen) {
      if (!isIntersecting) nearby.delete(target);
      else if (places.has(target)) {
        nearby.add(target);
        if (last.text && explained.get(target) !== turn) explain(target);
      }
    }
  }, { rootMargin: "100%" });

  function explain(item) {
    const { query, asked } = last, mine = turn, key = item.dataset.job;
    explained.set(item, mine);
    pause().then(() => (mine === turn ? wordsOf(key) : [])).then((passages) => {
      if (mine !== turn) return;
      const shown = why(passages, query, asked), titled = shown.find((passage) => passage.field === "title");
      const name = item.querySelector("h3 a");
      name.replaceChildren(...(titled ? marked(titled) : [name.textContent]));
      const said = shown.filter((passage) => passage !== titled).map((passage) => reason(key, passage));
      item.querySelector(".why-found").replaceChildren(...said);
    });
  }

  function plain(item) {
    const name = item.querySelector("h3 a");
    if (name.firstElementChild) name.textContent = name.textContent;
    item.querySelector(".why-found").replaceChildren();
  }

  // What is found is taken out of the list and given back, not copied: no element is there twice.
  const places = new Map(); // item -> what stands in its place in the list

  function take(item) {
    const place = document.createComment("");
    if (item.isConnected) item.replaceWith(place);
    places.set(item, place);
    item.append(make("ul", { className: "why-found" }));
    comes.observe(item);
  }

  function giveBack(item) {
    comes.unobserve(item);
    nearby.delete(item);
    plain(item);
    item.querySelector(".why-found").remove();
    if (places.get(item).isConnected) places.get(item).replaceWith(item); else item.remove();
    places.delete(item);
  }

  function unlisted(key) {
    const item = make("li", { className: "job" }, make("div", { className: "what" }, make("h3", {}, make("a", { textContent: key }))));
    item.dataset.job = key;
    entries.set(key, item);
    return item;
  }

  function marked({ text, marks }) {
    let at = 0;
    const out = marks.flatMap(([from, to]) => {
      const pair = [text.slice(at, from), make("mark", { textContent: text.slice(from, to) })];
      at = to;
      return pair;
    });
    return [...out, text.slice(at)];
  }

  // A day as the language writes it in figures; any other text as it is.
  function shortDay(text) {
    const [, year, month, day] = /^(\d{4})-(\d\d)-(\d\d)$/.exec(text) ?? [];
    return day ? words.short_day.replace("{day}", day).replace("{month}", month).replace("{year}", year) : text;
  }

  // What was found leads to where it stands on the page of the log.
  function reason(key, shown) {
    const name = words.field[shown.field] ?? shown.field, from = shown.where ? `${name} (${shortDay(shown.where)})` : name;
    const inside = [make("span", { className: "from", textContent: from }), " ", ...marked(shown)];
    if (!shown.at) return make("li", {}, ...inside);
    return make("li", {}, make("a", { href: `jobs/${encodeURIComponent(key)}/index.html#${shown.at}` }, ...inside));
  }

  // ---- the field ----------------------------------------------------------------------------------

  field.addEventListener("input", () => { answer(); settleSoon(); });
  field.addEventListener("blur", settleNow);
  $("find-form").addEventListener("submit", (event) => {
    event.preventDefault();
    settleNow();
    if (!found.hidden) heading.focus();
  });
  addEventListener("pagehide", settleNow);
  addEventListener("hashchange", readAddress);
  addEventListener("pageshow", readAddress); // after a browser has put back what stood in the field
  document.querySelector(".skip")?.addEventListener("click", (event) => { event.preventDefault(); $("text").focus(); });

  buildFacets();
  answer();
  readAddress();
  $("find-form").hidden = false;
  narrow.hidden = false;
  document.documentElement.dataset.ready = "find";
})();
