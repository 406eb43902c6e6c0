// Reloads an open page when the book was bound again. One of the open pages asks and tells the others: a browser opens
// no more than six connections to a host, and pages that each ask would take them all.
(() => {
  "use strict";
  const WAIT_MS = 1000;
  const { edition: seen, token = "" } = document.currentScript.dataset;
  const others = new BroadcastChannel("bound");

  const ask = async (known) => {
    const answer = await fetch(`/-/bound?seen=${known}`, { cache: "no-store" });
    if (!answer.ok) throw new Error(answer.statusText);
    return answer.text();
  };
  const compare = (now) => { if (now !== seen) location.reload(); };

  const watch = async () => {
    for (;;) {
      try {
        const now = await ask(seen);
        if (now !== seen) {
          others.postMessage(now);
          location.reload();
          return;
        }
      } catch {
        await new Promise((wake) => { setTimeout(wake, WAIT_MS); });
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

  others.onmessage = (event) => compare(event.data);
  ask("").then(compare, () => {}); // bound between the sending of this page and now
  if (navigator.locks) navigator.locks.request("bound", watch);
  else watch();
})();
