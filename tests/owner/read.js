// What a reader meets on a client's page, in order: passages (a heading and what stands below it) made of blocks, each
// with its text and its distance from the top in px. What is folded away has the place of what it is folded under.
() => {
  const HEADINGS = new Set(["H1", "H2", "H3", "H4", "H5", "H6"]);
  const UNREAD = new Set(["NAV", "SCRIPT", "STYLE", "svg", "TEMPLATE", "NOSCRIPT"]);
  const BLOCKS = "p,li,dt,dd,td,th,figcaption,caption,address,summary,h1,h2,h3,h4,h5,h6,div";
  const plain = (text) => text.replace(/\u00ad/g, "").replace(/\s+/g, " ").trim();
  const folding = (element) => {
    let found = null;
    for (let d = element.closest("details"); d; d = d.parentElement && d.parentElement.closest("details")) {
      const summary = d.querySelector(":scope > summary");
      if (!d.open && !(summary && summary.contains(element))) found = d;
    }
    return found;
  };
  const top = (element) => (folding(element) || element).getBoundingClientRect().top + window.scrollY;
  const level = (element) =>
    HEADINGS.has(element.tagName) ? +element.tagName[1]
    : element.tagName === "SUMMARY" && !element.querySelector("h1,h2,h3,h4,h5,h6") ? 5 : 0;

  const passages = [];
  let chain = [];
  const start = (element) => {
    const depth = level(element);
    const heading = plain(element.textContent);
    chain = [...chain.filter(([d]) => d < depth), [depth, heading]];
    passages.push({ heading, depth, above: chain.slice(0, -1).map(([, h]) => h), top: top(element), folded: !!folding(element), blocks: [] });
  };
  const main = document.querySelector("main");
  passages.push({ heading: "", depth: 0, above: [], top: 0, folded: false, blocks: [] });
  let last = null;
  const walk = (node) => {
    if (node.nodeType === Node.TEXT_NODE) {
      if (!node.data.trim()) { if (last) last.text += " "; return; }
      const block = node.parentElement.closest(BLOCKS) || node.parentElement;
      const blocks = passages[passages.length - 1].blocks;
      if (!last || last.block !== block || !blocks.length) {
        last = { block, text: "", top: top(block) };
        blocks.push(last);
      }
      last.text += node.data;
      return;
    }
    if (node.nodeType !== Node.ELEMENT_NODE || UNREAD.has(node.tagName) || node.tagName === "HEAD") return;
    if (node.tagName === "BR" && last) last.text += " ";
    if (level(node)) { start(node); last = null; return; }
    node.childNodes.forEach(walk);
  };
  walk(main);

  const shown = (element) => element.getClientRects().length > 0 && !folding(element);
  const inText = (link) => {
    const block = link.closest(BLOCKS);
    return link.tagName === "A" && block && plain(block.textContent) !== plain(link.textContent);
  };
  const small = [...document.querySelectorAll("a[href],button,summary,input,select")].filter(shown)
    .filter((element) => {
      const box = element.getBoundingClientRect();
      return box.width > 1 && (box.width < 44 || box.height < 44) && !inText(element);
    });
  const lead = main.querySelector("header img, header svg");
  const title = main.querySelector("h1");
  const bottom = (element) => element ? element.getBoundingClientRect().bottom + window.scrollY : null;
  const end = (element) => element ? element.getBoundingClientRect().top + window.scrollY : null;
  return {
    passages: passages.map((passage) => ({
      ...passage,
      blocks: passage.blocks.map(({ text, top }) => ({ text: plain(text), top })).filter((block) => block.text),
    })),
    contents: [...document.querySelectorAll("main nav a")].map((link) => plain(link.textContent)),
    contents_top: end(main.querySelector("nav")),
    height: document.documentElement.scrollHeight,
    small: small.map((element) => plain(element.textContent)),
    lead_top: end(lead),
    title_bottom: bottom(title),
    headings: [...main.querySelectorAll("h2")].map((h) => plain(h.textContent)),
    telephone: !!document.querySelector("a[href^='tel:']"),
  };
}
