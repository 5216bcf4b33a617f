/* Searching the handout. The index lies in search/*.js as calls of
   handoutSearch (see builder/search), loaded by script elements, so that all
   this works from a disk: the index and the titles when the page is opened,
   passages with the hits they belong to. Texts of the bank become text nodes
   and nothing else. */
(() => {
  "use strict";
  const get = id => document.getElementById("search-" + id);
  const box = get("box"), list = get("hits"), status = get("status"), more = get("more");
  if (!box) return;

  /* Words: the same folding as builder/search/fold.go. */
  const RUN = /[\p{L}\p{N}\p{M}]+/gu, ODD = /[^\p{L}\p{N}\p{M}]/gu, ASCII = /^[ -~]*$/;
  const scripts = "Han|Hiragana|Katakana|Thai|Lao|Khmer|Myanmar".replace(/(\w+)\|?/g, "\\p{sc=$1}") + "\u30fc";
  const PARTS = RegExp("[" + scripts + "]+|[^" + scripts + "]+", "gu"), SPACED = RegExp("^[^" + scripts + "]", "u");
  const MARKS = /[\u0300-\u036f\u0591-\u05bd\u05bf\u05c1\u05c2\u05c4\u05c5\u05c7\u0640\u064b-\u065f\u0670]/g;
  const VARIANTS = {
    ß: "ss", æ: "e", œ: "e", ø: "o", ł: "l", đ: "d", ð: "d", þ: "th", ı: "i", ς: "σ", ae: "e", oe: "e",
    ى: "ي", ی: "ي", ک: "ك", ة: "ه", ٱ: "ا", ך: "כ", ם: "מ", ן: "נ", ף: "פ", ץ: "צ"
  };
  const VARIANT = RegExp(Object.keys(VARIANTS).join("|"), "g");

  function fold(run) {
    run = run.toLowerCase();
    if (!ASCII.test(run)) run = run.normalize("NFKD").toLowerCase().replace(MARKS, "").replace(ODD, "").normalize("NFC");
    return run.replace(VARIANT, v => VARIANTS[v]);
  }
  function stem(word) {
    if (word.length > 32) word = Array.from(word).slice(0, 32).join("");
    return /^[ -~]{2,}[^sui]s$/.test(word) ? word.slice(0, -1) : word;
  }
  /* The index words of a run of letters: [word, from, to] each. */
  function cut(run) {
    const folded = fold(run), same = folded.length === run.length, out = [];
    let from = 0;
    const add = (word, size) => out.push(same ? [word, from, from + size] : [word, 0, run.length]);
    for (const part of folded.match(PARTS) || []) {
      const letters = Array.from(part), whole = SPACED.test(part) || letters.length < 2;
      if (whole) add(stem(part), part.length);
      letters.forEach((letter, i) => {
        const pair = letter + letters[i + 1];
        if (!whole && letters[i + 1]) add(pair, pair.length);
        from += letter.length;
      });
    }
    return out;
  }
  /* once is a function that keeps what it said of each text. */
  const once = (of, kept = new Map()) => text => {
    if (!kept.has(text)) kept.set(text, of(text));
    return kept.get(text);
  };
  const cutOnce = once(cut), runs = once(text => text.match(RUN) || []);
  /* The index words of a text. */
  const words = once(text => {
    const out = [];
    text.replace(RUN, (run, at) => {
      for (const [word, from, to] of cutOnce(run)) out.push([word, at + from, at + to]);
    });
    return out;
  });

  /* Numbers and lists: see builder/search/code.go. */
  const SYMBOLS = "bcdfghjklmnpqtvwxz!#$%&()*+,;<=>?[]^_{|}~-", STOP = 32, GO = 10, SIGNS = SYMBOLS.slice(18);
  const VALUE = {};
  Array.from(SYMBOLS, (c, i) => { VALUE[c.charCodeAt(0)] = i; });
  const numbers = (text, at) => () => {
    let lead = 0, v;
    while ((v = VALUE[text.charCodeAt(at++)]) >= STOP) lead = lead * GO + v - STOP + 1;
    return lead * STOP + v;
  };

  let index, titles;
  const lexicon = [], place = new Map(), size = [], names = [], postings = [], texts = [];
  const receive = {
    words(data) {
      index = data;
      let word = "", next = numbers(data.sizes, 0);
      data.words.replace(/([^\p{L}\p{N}\p{M}])([\p{L}\p{N}\p{M}]*)/gu, (all, sign, rest) => {
        word = word.slice(0, SIGNS.indexOf(sign)) + rest;
        place.set(word, lexicon.length);
        lexicon.push(word);
      });
      for (let i = 0; i < lexicon.length + data.terms; i++) size.push(next());
      next = numbers(data.names, 0);
      for (let i = 0; i < data.terms; i++) {
        for (let n = next(); n > 0; n--) names.push({ term: lexicon.length + i, words: Array.from({ length: next() }, next) });
      }
    },
    found(n, text) {
      const end = n + 1 < index.found.length ? index.found[n + 1] : size.length;
      for (let id = index.found[n], at = 0; id < end; id++) {
        postings[id] = [text, at];
        for (let left = size[id]; left > 0;) if (VALUE[text.charCodeAt(at++)] < STOP) left--;
      }
    },
    titles(data) { titles = data; },
    text(n, entries) { entries.forEach((e, i) => { texts[index.texts[n] + i] = e; }); }
  };
  window.handoutSearch = (kind, ...data) => receive[kind](...data);

  const loading = {};
  const load = file => loading[file] = loading[file] || new Promise((done, fail) => {
    const s = document.createElement("script");
    s.src = "search/" + file + ".js";
    s.onload = done;
    s.onerror = fail;
    document.head.append(s);
  });
  const loadText = doc => {
    let n = index.texts.length - 1;
    while (index.texts[n] > doc) n--;
    return load("text-" + n);
  };
  const failed = () => say("failed", "");
  const ready = Promise.all([load("titles"), load("words").then(() => Promise.all(index.found.map((id, n) => load("found-" + n))))]);
  ready.catch(failed);

  /* Which letters a word has, a bit for each. */
  function lettersOf(word) {
    let bits = 0;
    for (let i = 0; i < word.length; i++) bits |= 1 << word.charCodeAt(i);
    return bits;
  }

  /* How many letters must be added, left out, changed or swapped with their
     neighbour to make b of a (optimal string alignment), or more than limit.
     With begun, to make the beginning of b that is nearest. Each sort of letter
     that b lacks takes a change, which is soon seen. */
  function distance(a, b, limit, begun) {
    if (begun) b = b.slice(0, a.length + limit);
    if (Math.abs(a.length - b.length) > limit) return 9;
    for (let bits = lettersOf(a) & ~lettersOf(b), n = 0; bits; bits &= bits - 1) if (++n > limit) return 9;
    let two, one = [], row = Array.from({ length: b.length + 1 }, (x, j) => j), least;
    for (let i = 1; i <= a.length; i++) {
      [two, one, row] = [one, row, [i]];
      least = i;
      for (let j = 1; j <= b.length; j++) {
        let d = Math.min(one[j] + 1, row[j - 1] + 1, one[j - 1] + (a[i - 1] !== b[j - 1]));
        if (d && i > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) d = Math.min(d, two[j - 2] + 1);
        row[j] = d;
        if (d < least) least = d;
      }
      if (least > limit) return 9;
    }
    return begun ? least : row[b.length];
  }

  /* The words of the index that a word of the query may mean: Map of place to
     how likely. The last word may still be in the writing. */
  function meant(word, last) {
    const out = new Map(), exact = place.get(word);
    if (exact !== undefined) out.set(exact, 1);
    if (exact !== undefined && !last) return out;
    if (word.length > 1 || !SPACED.test(word)) {
      const near = lexicon.filter(w => w !== word && w.startsWith(word)).sort((a, b) => a.length - b.length);
      near.slice(0, 48).forEach(w => out.set(place.get(w), 0.4 + 0.5 * word.length / w.length));
    }
    const limit = word.length < 4 ? 0 : word.length < 8 ? 1 : 2;
    for (const begun of last ? [false, true] : [false]) {
      if (limit && !out.size) lexicon.forEach((w, i) => {
        const d = distance(word, w, limit, begun);
        const sure = (begun ? 0.5 : 0.8) / (1 + d);
        if (d <= limit) out.set(i, sure);
      });
    }
    return out;
  }

  /* The words of a query, each with what it may mean. A word that only exists
     joined to its neighbour, such as hb 007, is joined; one that only exists in
     two parts is parted. */
  function parse(query) {
    const typed = words(query).map(t => t[0]), out = [], open = query === query.trimEnd();
    const known = word => size[place.get(word)];
    const add = may => { if (may.size) out.push({ may, worth: 0 }); return may.size; };
    for (let i = 0; i < typed.length; i++) {
      let word = typed[i];
      if (place.has(word + typed[i + 1]) && !(known(word) && known(typed[i + 1]))) word += typed[++i];
      if (add(meant(word, open && i + 1 >= typed.length))) continue;
      for (let at = 2; at < word.length - 1; at++) {
        if (known(word.slice(0, at)) && known(word.slice(at))) {
          add(meant(word.slice(0, at)));
          add(meant(word.slice(at)));
          break;
        }
      }
    }
    return out;
  }

  /* The terms that a query names, wholly or in part: a part counts for as much
     of the name as it is. */
  function named(query) {
    const out = [];
    for (const name of names) for (let at = 0; at < query.length; at++) for (let from = 0; from < name.words.length; from++) {
      let n = 0, sure = 1, w;
      while (at + n < query.length && (w = query[at + n].may.get(name.words[from + n]))) {
        sure = Math.min(sure, w);
        n++;
      }
      if (n === name.words.length || n > 1 || n && sure === 1 && size[name.words[from]]) {
        sure *= n / name.words.length;
        out.push({ term: name.term, at, end: at + n, sure, whole: n === name.words.length });
      }
    }
    return out;
  }

  /* Ranks documents: for every word of the query the best that speaks for a
     document, summed, and less where words of the query are missing. What a word
     is worth is its inverse document frequency; levels are those of weight.go.
     The own page of a term that is wholly named is worth the most. */
  function rank(query, terms) {
    const total = new Float64Array(index.docs), told = new Float64Array(index.docs), out = [];
    let all = 0;
    query.forEach((q, i) => {
      const best = new Float64Array(index.docs);
      const take = (sure, id, whole) => {
        const next = numbers(...postings[id]), worth = sure * Math.log(1 + (index.docs - size[id] + 0.5) / (size[id] + 0.5));
        if (size[id]) q.worth = Math.max(q.worth, worth);
        for (let left = size[id], doc = -1; left > 0; left--) {
          const code = next(), title = (code & 3) === 3;
          const v = title && whole ? sure * Math.log(1 + index.docs) : worth * [0.4, 0.6, 0.8, 1][code & 3];
          doc += (code >> 2) + 1;
          best[doc] = Math.max(best[doc], v) + 0.05 * Math.min(best[doc], v);
        }
      };
      q.may.forEach((sure, id) => take(sure, id));
      for (const t of terms) if (t.at <= i && i < t.end) take(t.sure, t.term, t.whole);
      all += q.worth;
      best.forEach((b, doc) => { if (b) { total[doc] += b; told[doc] += q.worth; } });
    });
    told.forEach((sum, doc) => {
      const part = sum / all;
      if (sum) out.push({ doc, score: total[doc] * part * part });
    });
    return out.sort((a, b) => b.score - a.score || a.doc - b.doc).map(h => h.doc);
  }

  /* What to mark, by its first word: the words that the query may mean, and all
     names of the terms that it names, each with the words of the query answered
     by it. A number joined to letters may stand apart in a text. */
  function marking(query, terms) {
    const out = new Map();
    const add = (words, at, end) => {
      if (!out.has(words[0])) out.set(words[0], []);
      out.get(words[0]).push({ words, at, end });
    };
    query.forEach((q, i) => q.may.forEach((sure, id) => {
      if (!size[id]) return;
      add([lexicon[id]], i, i + 1);
      add(lexicon[id].match(/\d+|\D+/g), i, i + 1);
    }));
    for (const name of names) for (const t of terms) if (t.term === name.term) add(name.words.map(id => lexicon[id]), t.at, t.end);
    return out;
  }
  /* Where a text has what the query means: the places to mark, and how much of
     the query they answer. */
  function marks(text, { query, marking, met }) {
    const parts = runs(text).some(met) ? words(text) : [], at = [], seen = [];
    parts.forEach(([word, from], k) => {
      let end = 0;
      for (const m of marking.get(word) || []) {
        if (!m.words.every((w, n) => parts[k + n] && parts[k + n][0] === w)) continue;
        end = Math.max(end, parts[k + m.words.length - 1][2]);
        for (let i = m.at; i < m.end; i++) seen[i] = query[i].worth;
      }
      const before = at[at.length - 1];
      if (end && before && before[1] >= from) before[1] = Math.max(before[1], end);
      else if (end) at.push([from, end]);
    });
    return { text, at, sum: seen.reduce((a, b) => a + b, 0) };
  }

  /* Writes a text with its marks, cut to what stands round the first. */
  function write(into, { text, at }, limit) {
    let from = 0, to = text.length;
    if (to > limit) {
      if (at.length) from = text.lastIndexOf(" ", Math.max(0, at[0][0] - 66)) + 1;
      to = text.indexOf(" ", Math.max(from + limit, at.length && at[0][1]));
      if (to < 0) to = text.length;
    }
    into.textContent = from ? "… " : "";
    for (const [begin, end] of at) {
      if (begin < from || end > to) continue;
      const mark = document.createElement("mark");
      mark.textContent = text.slice(begin, end);
      into.append(text.slice(from, begin), mark);
      from = end;
    }
    into.append(text.slice(from, to) + (to < text.length ? " …" : ""));
  }

  /* A hit with its title, and then with the passage that answers most. The hit
     leads to the passage where that answers more than the title. */
  function hit([title, kind, path], mine) {
    const item = get("hit").content.firstElementChild.cloneNode(true), link = item.querySelector("a");
    link.href = path;
    write(link, marks(title, mine), 1e4);
    write(item.querySelector(".Hit-kind"), marks(kind, mine), 1e4);
    return item;
  }
  function fill(item, doc, mine) {
    const passage = item.querySelector(".Hit-passage"), [title, kind, path] = titles[doc];
    let best = { text: "", at: [], sum: -1 }, anchor;
    for (const [where, ...passages] of texts[doc]) for (const text of passages) if (best.sum < mine.all) {
      const m = marks(text, mine);
      if (m.sum <= best.sum) continue;
      best = m;
      anchor = where;
    }
    if (anchor && best.sum > marks(title, mine).sum && !path.includes("#")) item.querySelector("a").href = path + "#" + anchor;
    if (best.sum > 0 || item.querySelector("mark")) write(passage, best, 200);
    else passage.textContent = status.dataset.covered;
  }

  const BATCH = 10;
  let now, later;
  const say = (key, n) => { status.textContent = status.dataset[key].replace("{n}", n); };

  async function show(from) {
    const mine = now, n = mine.hits.length, page = mine.hits.slice(from, from + BATCH), items = page.map(doc => hit(titles[doc], mine));
    if (!from) list.textContent = "";
    list.append(...items);
    list.hidden = !n;
    more.hidden = n <= from + BATCH;
    if (from) items[0].querySelector("a").focus();
    else say(n ? "found" : "none", n);
    if (!page.every(doc => texts[doc])) {
      list.setAttribute("aria-busy", true);
      await Promise.all(page.map(loadText));
      if (mine !== now) return;
    }
    page.forEach((doc, i) => fill(items[i], doc, mine));
    list.removeAttribute("aria-busy");
    list.dataset.for = mine.text;
  }

  /* Keeps the query in the address, once the writing rests. */
  function keep() {
    const text = box.value.trim() && "?q=" + encodeURIComponent(box.value);
    try { history.replaceState(null, "", text || location.pathname); } catch (e) {
      /* the address stays as it is */
    }
  }

  function search() {
    const text = box.value.trim() && box.value, mine = now = { text, hits: [] };
    clearTimeout(later);
    later = setTimeout(keep, 400);
    if (text) ready.then(() => {
      if (mine !== now) return;
      const query = mine.query = parse(text), terms = named(query);
      mine.hits = rank(query, terms);
      mine.all = query.reduce((sum, q) => sum + q.worth, 0);
      mine.marking = marking(query, terms);
      mine.met = once(run => cutOnce(run).some(part => mine.marking.has(part[0])));
      return show(0);
    }).catch(failed);
    else {
      list.textContent = status.textContent = list.dataset.for = "";
      list.hidden = more.hidden = true;
    }
  }

  /* Arrows go through the hits, and from the first back to the box. */
  function step(to) {
    const links = list.querySelectorAll("a");
    if (to < 0) box.focus();
    else if (links.length) links[Math.min(to, links.length - 1)].focus();
  }
  document.addEventListener("keydown", e => {
    const at = Array.from(list.querySelectorAll("a")).indexOf(e.target);
    if (e.target !== box && at < 0 || e.ctrlKey || e.metaKey || e.altKey || e.isComposing) return;
    if (e.key === "ArrowDown") step(at + 1);
    else if (e.key === "ArrowUp" && at >= 0) step(at - 1);
    else if (e.key === "Escape") {
      box.value = "";
      box.focus();
      search();
    } else return;
    e.preventDefault();
  });
  box.addEventListener("input", search);
  box.addEventListener("change", keep);
  box.form.addEventListener("submit", e => {
    e.preventDefault();
    step(0);
  });
  more.addEventListener("click", () => show(list.children.length).catch(failed));

  box.value = new URLSearchParams(location.search).get("q") || box.value;
  search();
})();
