/* What a reader chose, kept on this device and nowhere else. A browser may
   refuse to keep anything, or give each file a store of its own: then what was
   chosen lasts as long as the page, and the link to the progress page carries
   it there in its fragment, which no browser sends.

   A key names the bank, the case and the moment: caseleaf/<bank>/<case>/<moment>.
   A value is a small object:
     c  id of the option chosen        s  how sure, 0 to 3
     o  1 once the answer was opened   m  1 when the first sign was missed, 0 when not */
(() => {
  "use strict";
  const memory = {}, name = (bank, rest) => "caseleaf/" + bank + "/" + (rest || "");
  let shelf = null;
  try {
    shelf = window.localStorage;
    shelf.setItem("caseleaf", "");
    shelf.removeItem("caseleaf");
  } catch (e) {
    shelf = null;
  }
  /* shelve tries something with what the browser keeps, until it refuses. */
  function shelve(use) {
    try { if (shelf) use(); } catch (e) { shelf = null; }
  }

  const store = window.caseleafStore = {
    /* kept says whether choices outlast the page. */
    kept: () => shelf !== null,

    /* sayer gives a function that fills {1} to {4} of the phrase of a key. */
    sayer: words => (key, ...args) => words[key].replace(/\{(\d)\}/g, (_, n) => args[n - 1]),

    /* make adds an element, and a list of texts and links to it. */
    make(name, parts, into, kind) {
      const e = document.createElement(name);
      for (const part of [].concat(parts || [])) {
        if (part.to) store.make("a", part.text, e).href = part.to;
        else e.append(part);
      }
      if (kind) e.className = kind;
      into.append(e);
      return e;
    },

    put(bank, rest, value) {
      const text = JSON.stringify(value);
      memory[name(bank, rest)] = text;
      shelve(() => shelf.setItem(name(bank, rest), text));
    },

    /* all gives what is kept below a bank, or below one case of it, by case/moment. */
    all(bank, below) {
      const start = name(bank, below), cut = name(bank).length, out = {};
      function take(key, text) {
        if (!key.startsWith(start)) return;
        try {
          const value = JSON.parse(text);
          if (value && typeof value === "object") out[key.slice(cut)] = value;
        } catch (e) {
          /* not ours */
        }
      }
      shelve(() => { for (let i = 0; i < shelf.length; i++) take(shelf.key(i), shelf.getItem(shelf.key(i))); });
      for (const key in memory) take(key, memory[key]);
      return out;
    },

    wipe(bank, below) {
      for (const rest in store.all(bank, below)) {
        delete memory[name(bank, rest)];
        shelve(() => shelf.removeItem(name(bank, rest)));
      }
    }
  };
})();
