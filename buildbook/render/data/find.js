// Finds past work in the index of a book (search.js): the same steps, in the same order, as `buildbook find` takes
// (buildbook/find: tokens.py, query.py, passage.py). Only looks up, multiplies and adds whole numbers, so that both give
// the same jobs in the same order. Knows nothing of the page. Wants `buildbookIndex`, gives `buildbookFind`.

"use strict";

const buildbookFind = ((index) => {
  const { ranking, language } = index;
  const idle = new Set(language.idle);
  const several = new Map(Object.entries(language.several));
  const letters = new Map(Object.entries(language.letters));
  const fractions = Object.entries(language.fractions);
  const pattern = new RegExp(language.pattern.replaceAll("(?P<", "(?<").replaceAll("[^\\W_]", "[\\p{L}\\p{N}]"), "gu");
  const quoted = /(^|[^0-9¼½¾⅛⅜⅝⅞⅓⅔])["“„”]([^"“„”]+)["“”]/gu;

  // ---- unpacking -------------------------------------------------------------------------------

  const digit = new Int16Array(128);
  [...language.signs].forEach((sign, place) => { digit[sign.charCodeAt(0)] = place; });
  const base = language.signs.length / 2;

  function numbers(text) {
    const out = [];
    let number = 0;
    for (let i = 0; i < text.length; i++) {
      const value = digit[text.charCodeAt(i)];
      if (value < base) { number = number * base + value; continue; }
      out.push(number * base + value - base);
      number = 0;
    }
    return out;
  }

  function places(text) {
    let last = -1;
    return numbers(text).map((gap) => (last += gap + 1));
  }

  function unpackTerms(text) {
    let before = "";
    return text === "" ? [] : text.split(" ").map((packed) => {
      const shared = digit[packed.charCodeAt(0)] - base;
      before = before.slice(0, shared) + packed.slice(1).replaceAll("\t", " ");
      return before;
    });
  }

  const terms = unpackTerms(index.terms);
  const rarity = numbers(index.rarity);
  const postings = index.postings.split(" ");
  index.terms = index.rarity = index.postings = ""; // unpacked; what packed them need not stay
  const facets = index.facets.map((facet) => ({
    ...facet, values: facet.values.map(([id, label, jobs]) => ({ id, label, jobs: Uint32Array.from(places(jobs)) })),
  }));
  index.facets = [];

  // ---- words -----------------------------------------------------------------------------------

  function fold(word) {
    const bare = word.normalize("NFKD").toLowerCase().replace(/\p{M}/gu, "");
    const plain = Array.from(bare, (letter) => letters.get(letter) ?? letter).join("");
    return plain.replaceAll("ae", "a").replaceAll("oe", "o").replaceAll("ue", "u");
  }

  function singular(folded) {
    if (several.has(folded)) return several.get(folded);
    const length = Array.from(folded).length;
    if (length < 4 || !folded.endsWith("s") || /(?:ss|us|is)$/.test(folded)) return folded;
    if (folded.endsWith("ies") && length > 4) return folded.slice(0, -3) + "y";
    return /(?:sses|xes|ches|shes)$/.test(folded) ? folded.slice(0, -2) : folded.slice(0, -1);
  }

  function canonical(number) {
    for (const [glyph, written] of fractions) number = number.replaceAll(glyph, " " + written);
    return number.replaceAll(",", ".").replaceAll("⁄", "/").replace(/[ \t\n\u00a0\u2009\u202f]+/g, " ").trim();
  }

  function value(number) {
    const [, whole, above, below] = /^([0-9.]*) ?(?:([0-9]+)\/([0-9]+))?$/.exec(
      number.includes("/") && !number.includes(" ") ? " " + number : number);
    return (whole ? Number(whole) : 0) + (Number(below) ? Number(above) / Number(below) : 0);
  }

  const tenths = (number, unit) => Math.floor(number * language.tenths[unit] + 0.5);

  function token(match) {
    const { word, mixed, feet, inches, number, unit, bare } = match.groups;
    const start = match.index, end = start + match[0].length;
    const made = (term, typed, length = 0) => ({ term, typed, start, end, tenths: length });
    if (word ?? mixed) {
      const typed = fold(match[0].replace(/['’]/g, ""));
      return made(singular(typed), typed);
    }
    if (feet !== undefined) {
      const rest = canonical(inches), term = `${feet}ft${rest}in`;
      return made(term, term, tenths(Number(feet) * 12 + value(rest), "in"));
    }
    if (number !== undefined) {
      const plain = canonical(number), of = language.units[unit.toLowerCase()];
      return made(plain + of, plain + of, tenths(value(plain), of));
    }
    return made(canonical(bare), canonical(bare));
  }

  const tokens = (text) => Array.from(text.matchAll(pattern), token);

  function joined(text, found) {
    const out = [];
    for (let i = 0; i + 1 < found.length; i++) {
      const a = found[i], b = found[i + 1], typed = a.typed + b.typed;
      if (text.slice(a.end, b.start) === "-" && /^\p{L}+$/u.test(a.typed) && /^\p{L}+$/u.test(b.typed)) {
        out.push({ term: singular(typed), typed, start: a.start, end: b.end, tenths: 0 });
      }
    }
    return out;
  }

  function parse(text) {
    text = text.normalize("NFC");
    const phrases = Array.from(text.matchAll(quoted), (match) => tokens(match[2]).map((one) => one.term));
    const words = tokens(text.replace(quoted, "$1 "));
    const telling = words.filter((word) => !idle.has(word.term));
    const once = new Map(phrases.filter((phrase) => phrase.length).map((phrase) => [phrase.join("\n"), phrase]));
    return { words: [...new Map(telling.map((word) => [word.typed, word])).values()], phrases: [...once.values()] };
  }

  // ---- what words mean -------------------------------------------------------------------------

  const lexicon = index.lexicon, links = lexicon.links;
  const same = new Map(Object.entries(lexicon.same));
  const names = new Set(lexicon.names.split(" "));
  const parts = new Set([...lexicon.parts.split(" "), ...names]);
  const calls = new Map(Object.entries(lexicon.called).map(([key, words]) => [key, words.split(" ")]));

  // Whether a text is made of known parts, with what joins them.
  function isCompound(text, deep = lexicon.deepest) {
    if (parts.has(text)) return true;
    if (deep <= 1) return false;
    for (let at = 2; at < text.length; at++) {
      if (parts.has(text.slice(0, at)) && links.some((link) => restIs(text.slice(at), link, deep))) return true;
    }
    return false;
  }

  const restIs = (rest, link, deep) => rest.startsWith(link) &&
    (rest === link || (rest.length > link.length && isCompound(rest.slice(link.length), deep - 1)));

  const goesOn = (rest) => !rest || links.some((link) => restIs(rest, link, lexicon.deepest));

  const isJoined = (before) => links.some((link) =>
    before.endsWith(link) && before.length > link.length && isCompound(before.slice(0, before.length - link.length)));

  function hasPart(compound, word) {
    if (word.length < lexicon.shortest && !parts.has(word)) return false;
    for (let at = compound.indexOf(word, 2); at > 0; at = compound.indexOf(word, at + 1)) {
      if (isJoined(compound.slice(0, at)) && goesOn(compound.slice(at + word.length))) return true;
    }
    return false;
  }

  function withoutLink(before) {
    for (const link of links) {
      const bare = before.endsWith(link) ? before.slice(0, before.length - link.length) : "";
      if (parts.has(bare)) return bare;
      if (bare && (link === "" || link === "en") && parts.has(bare + "e")) return bare + "e";
    }
    return "";
  }

  function compoundParts(text) {
    for (let at = text.length - 2; at > 2; at--) {
      const after = text.slice(at), first = parts.has(after) && withoutLink(text.slice(0, at));
      if (first) return [first, after].map((word) => ({ term: word, typed: word, start: 0, end: 0, tenths: 0 }));
    }
    return [];
  }

  // ---- asking ----------------------------------------------------------------------------------

  function firstFrom(term) {
    let low = 0, high = terms.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (terms[middle] < term) low = middle + 1; else high = middle;
    }
    return low;
  }

  // Rows of the distance between two words, used again and again: for each question thousands of words are compared.
  const rows = [0, 1, 2].map(() => new Uint8Array(256));

  function withinSlips(one, other, most) {
    if (Math.abs(one.length - other.length) > most || Math.max(one.length, other.length) >= rows[0].length) return false;
    let [before, last, row] = rows, least = 0;
    for (let j = 0; j <= other.length; j++) last[j] = j;
    for (let i = 1; i <= one.length; i++) {
      let leastHere = row[0] = i;
      for (let j = 1; j <= other.length; j++) {
        let cost = Math.min(last[j] + 1, row[j - 1] + 1, last[j - 1] + (one[i - 1] === other[j - 1] ? 0 : 1));
        if (i > 1 && j > 1 && one[i - 1] === other[j - 2] && one[i - 2] === other[j - 1]) cost = Math.min(cost, before[j - 2] + 1);
        row[j] = cost;
        if (cost < leastHere) leastHere = cost;
      }
      if (leastHere > most && least > most) return false;
      least = leastHere;
      [before, last, row] = [last, row, before];
    }
    return last[other.length] <= most;
  }

  function turned(word) {
    const ways = new Set();
    for (let i = 0; i + 1 < word.length; i++) ways.add(word.slice(0, i) + word[i + 1] + word[i] + word.slice(i + 2));
    ways.delete(word);
    return [...ways].map((way) => [way, firstFrom(way)]).filter(([way, place]) => terms[place] === way).map(([, place]) => place);
  }

  // As the index has it and as it was typed: the s of "chets" is none of several.
  const slips = (word) => [...new Set([word.term, word.typed])].flatMap(slipsOf);

  function slipsOf(word) {
    if (word.length < ranking.turned_from || /[0-9]/.test(word)) return [];
    if (word.length < ranking.one_slip_from) return turned(word);
    const most = word.length < ranking.two_slips_from ? 1 : 2;
    const found = [];
    terms.forEach((term, place) => { if (withinSlips(word, term, most)) found.push(place); });
    return found;
  }

  function near(side, wanted) {
    const left = wanted * ranking.size_within_pct - Math.abs(side - wanted) * 100;
    return left < 0 ? 0 : 1 + Math.floor((ranking.size_points * left) / (wanted * ranking.size_within_pct));
  }

  // Points by the place of the job, 0 where it has none of the terms. A word counts as rare only as its most frequent term
  // does, else rare longer words would come before it.
  function asked(factors) {
    let rare = Infinity, count = 0;
    for (const place of factors.keys()) rare = Math.min(rare, rarity[place]);
    const points = new Int32Array(index.keys.length);
    for (const [place, factor] of factors) {
      const text = postings[place];
      let job = -1, number = 0;
      for (let i = 0; i < text.length; i++) { // as numbers() does, without a list of them
        const value = digit[text.charCodeAt(i)];
        if (value < base) { number = number * base + value; continue; }
        number = number * base + value - base;
        job += Math.floor(number / ranking.levels) + 1;
        const some = rare * ((number % ranking.levels) + 1) * factor;
        if (!points[job]) count++;
        if (some > points[job]) points[job] = some;
        number = 0;
      }
    }
    return { points, count, terms: new Set([...factors.keys()].map((place) => terms[place])), tenths: 0 };
  }

  function withSizes(each, { tenths, term: own }) {
    if (tenths) index.sides.forEach((sides, job) => {
      for (const side of sides) each.points[job] = Math.max(each.points[job], near(side, tenths));
    });
    return { ...each, tenths, own };
  }

  function beginning(typed) {
    const found = [];
    for (let place = firstFrom(typed); terms[place]?.startsWith(typed); place++) found.push(place);
    return found;
  }

  function within(word) {
    const found = [];
    if (/^\p{L}+$/u.test(word)) terms.forEach((term, place) => { if (term.includes(word) && hasPart(term, word)) found.push(place); });
    return found;
  }

  // Terms that a word means, with how much each counts.
  function meant(word) {
    const factors = new Map(), others = same.get(word.term) ?? [], isName = names.has(word.term);
    for (const other of others) {
      for (const place of within(other)) factors.set(place, ranking.typo);
      if (other.length >= ranking.one_slip_from) for (const place of beginning(other)) factors.set(place, ranking.typo);
    }
    for (const other of others) {
      const place = firstFrom(other);
      if (terms[place] === other) factors.set(place, ranking.same);
    }
    for (const place of beginning(word.typed)) {
      const own = !isName || goesOn(terms[place].slice(word.typed.length)) ? ranking.prefix : ranking.typo;
      factors.set(place, Math.max(factors.get(place) ?? 0, own));
    }
    for (const place of within(word.term)) factors.set(place, terms[place].endsWith(word.term) ? ranking.kind : ranking.prefix);
    const exact = firstFrom(word.term);
    if (terms[exact] === word.term) factors.set(exact, ranking.exact);
    return factors;
  }

  // The jobs that have all parts of a compound, by the least that one of them gives.
  function askedTogether(every) {
    const points = every[0].points.map((some, job) => Math.min(some, ...every.slice(1).map((each) => each.points[job])));
    return { points, count: points.filter((some) => some).length, terms: new Set(every.flatMap((each) => [...each.terms])), tenths: 0 };
  }

  function askWord(word) {
    const factors = meant(word), isName = names.has(word.term);
    if (!factors.size && !isName && !word.tenths) {
      const apart = compoundParts(word.term);
      const together = apart.length ? askedTogether(apart.map((part) => asked(meant(part)))) : { count: 0 };
      if (together.count) return { ...together, own: word.term };
    }
    const written = asked(factors), stands = terms[firstFrom(word.term)] === word.term;
    if (isName || stands || written.count >= ranking.few) return withSizes(written, word);
    for (const place of slips(word)) if (!factors.has(place)) factors.set(place, ranking.typo);
    return withSizes(asked(factors), word);
  }

  function askExactly(term) {
    const place = firstFrom(term);
    return asked(new Map(terms[place] === term ? [[place, ranking.exact]] : []));
  }

  function ask(query) {
    const inPhrases = new Set(query.phrases.flat().filter((term) => !idle.has(term)));
    return [...query.words.map(askWord), ...[...inPhrases].map(askExactly)];
  }

  // The jobs that have every word; where none has, those that have the most words of a longer question: `lacking` says how
  // many they do not have.
  function rank(all, query) {
    const counts = new Uint16Array(index.keys.length);
    for (const { points } of all) for (let place = 0; place < counts.length; place++) if (points[place]) counts[place]++;
    let most = all.length;
    if (!counts.includes(most) && !query.phrases.length && all.length >= ranking.most_of) {
      const best = counts.reduce((one, other) => Math.max(one, other), 0);
      if (best * 100 >= all.length * ranking.most_pct) most = best;
    }
    const hits = [];
    for (let place = 0; place < counts.length; place++) {
      if (counts[place] !== most) continue;
      let score = 0;
      for (const { points } of all) score += points[place];
      hits.push({ place, score, lacking: all.length - most });
    }
    return hits.sort((a, b) => b.score - a.score || a.place - b.place);
  }

  // ---- phrases and passages --------------------------------------------------------------------

  function phrasePlaces(found, phrase) {
    const out = [];
    for (let at = 0; at + phrase.length <= found.length; at++) if (phrase.every((term, i) => found[at + i].term === term)) out.push(at);
    return out;
  }

  const hasPhrases = (passages, phrases) => {
    const texts = passages.map(([, , text]) => tokens(text));
    return phrases.every((phrase) => texts.some((found) => phrasePlaces(found, phrase).length));
  };

  const inOrder = (a, b) => a[1].start - b[1].start || a[1].end - b[1].end || a[0] - b[0];

  function matches(field, text, query, all) {
    const found = tokens(text), every = [...found, ...joined(text, found)], out = [];
    query.words.forEach((_, number) => every.forEach((one) => {
      const each = all[number];
      const close = field === "size" && each.tenths && one.tenths && near(one.tenths, each.tenths);
      if (each.terms.has(one.term) || close) out.push([number, one]);
    }));
    query.phrases.forEach((phrase, i) => phrasePlaces(found, phrase).forEach((at) =>
      found.slice(at, at + phrase.length).forEach((one) => out.push([query.words.length + i, one]))));
    return out.sort(inOrder);
  }

  function densest(found, starts, words) {
    const at = found.map(([number, one]) => [number, starts.indexOf(one.start)]);
    const counts = at.map(([, from]) => new Set(at.filter(([, p]) => from <= p && p < from + words).map(([n]) => n)).size);
    return at[counts.indexOf(Math.max(...counts))][1];
  }

  // The words of a question that a passage answers by what it is called: one that cuts a joint as if they stood in it.
  function byNames([field, , , , called], query, every) {
    const names = new Set((called ?? "").split(" ").flatMap((key) => calls.get(key) ?? []));
    const out = new Map();
    query.words.forEach((_, number) => {
      for (const term of names) if (every[number].terms.has(term)) { out.set(number, field === "cut" ? ranking.itself : ranking.called); break; }
    });
    return out;
  }

  function cut([field, where, text, at = ""], found, answers, query, every) {
    const all = tokens(text), { words, before } = ranking;
    let first = 0, last = all.length - 1;
    if (all.length > words) {
      const anchor = found.length ? densest(found, all.map((one) => one.start), words - before) : 0;
      first = Math.max(0, Math.min(anchor - before, all.length - words));
      last = first + words - 1;
    }
    const begin = first === 0 ? 0 : all[first].start, end = last === all.length - 1 ? text.length : all[last].end;
    const inside = found.filter(([, one]) => one.start >= begin && one.end <= end);
    for (const [number, one] of inside) {
      const itself = number >= query.words.length || one.term === every[number].own;
      answers.set(number, Math.max(answers.get(number) ?? 0, itself ? ranking.itself : ranking.other));
    }
    return { field, where, text, at, begin, end, found: inside, answers };
  }

  function shown({ field, where, text, at, begin, end, found }) {
    const ahead = begin ? "…" : "", shift = ahead.length - begin, marks = [];
    for (const [, one] of found) {
      if (!marks.length || one.start + shift >= marks.at(-1)[1]) marks.push([one.start + shift, one.end + shift]);
    }
    return { field, where, text: ahead + text.slice(begin, end) + (end < text.length ? "…" : ""), marks, at };
  }

  function why(passages, query, all) {
    const cuts = passages.map((passage) => [passage, matches(passage[0], passage[2], query, all), byNames(passage, query, all)])
      .filter(([, found, called]) => found.length || called.size)
      .map(([passage, found, called]) => cut(passage, found, called, query, all));
    const left = new Set(cuts.flatMap(({ answers }) => [...answers.keys()])), out = [];
    while (left.size && out.length < ranking.most) {
      let best = null, most = [-1, 0, 0];
      for (const one of cuts) {
        const strengths = [...one.answers].filter(([number]) => left.has(number)).map(([, strength]) => strength);
        const weight = [strengths.length, strengths.reduce((a, b) => a + b, 0), ranking.order[one.field] ?? 0];
        const differs = weight.findIndex((figure, i) => figure !== most[i]);
        if (differs >= 0 && weight[differs] > most[differs]) { best = one; most = weight; }
      }
      out.push(shown(best));
      for (const number of best.answers.keys()) left.delete(number);
    }
    return out;
  }

  return { ask, facets, hasPhrases, joined, keys: index.keys, parse, rank, tokens, why };
})(buildbookIndex);
