// Pictures of the jobs near the window. A list of thousands would hold each of them, decoded, for as long as it stands; so
// they stand in the page as text (noscript), become elements as their job comes near, and go again as it leaves.

"use strict";

(() => {
  const MARGIN = "100%"; // one window further on each side
  const PAUSE_MS = 120; // of scrolling or typing, lest pictures are asked for that nobody looks at
  const waiting = new Map(); // item -> timer

  function put(item) {
    waiting.delete(item);
    const view = item.querySelector(".view");
    if (!view.querySelector("img")) view.insertAdjacentHTML("beforeend", view.querySelector("noscript").textContent);
  }

  const watch = new IntersectionObserver((seen) => {
    for (const { target, isIntersecting } of seen) {
      clearTimeout(waiting.get(target));
      waiting.delete(target);
      if (isIntersecting) waiting.set(target, setTimeout(put, PAUSE_MS, target)); else target.querySelector("img")?.remove();
    }
  }, { rootMargin: MARGIN });
  const items = document.querySelectorAll("#years .job:has(.view)");
  for (const item of items) watch.observe(item);
  addEventListener("beforeprint", () => { if (document.getElementById("found").hidden) items.forEach(put); });
})();
