/* The progress page: what the device keeps, summed up. Every text goes in as
   text. What is written on the page is written into the text file too. */
(() => {
  "use strict";
  const frame = document.querySelector(".js-progress-page"), store = window.caseleafStore, cases = window.caseleafExercise;
  if (!frame || !store || !cases) return;

  const bank = frame.dataset.bank, words = JSON.parse(frame.dataset.words), say = store.sayer(words);
  let notes, lines;

  const make = (name, parts, into, kind) => store.make(name, parts, into || frame, kind);

  /* put is make for what goes into the text file too, with what stands before it
     there. */
  function put(name, parts, into, before = "") {
    const e = make(name, parts, into);
    lines.push(before + e.textContent);
    return e;
  }

  function head(text) {
    lines.push("");
    put("h2", text).className = "Section-head";
  }

  function button(key, into, press) {
    var b = make("button", words[key], into, "Button");
    b.type = "button";
    b.addEventListener("click", press);
    return b;
  }

  /* taken reads notes that a case's page handed over in the fragment. */
  function taken() {
    try {
      var given = JSON.parse(decodeURIComponent(location.hash.slice(1)));
      for (const rest in given) store.put(bank, rest, given[rest]);
      history.replaceState(null, "", location.pathname + location.search);
    } catch (e) {
      /* none, or not ours */
    }
  }

  /* each calls with every note that a case of this edition has a place for. */
  function each(list, use) {
    cases.forEach(c => {
      (c[list] || []).forEach(at => {
        var n = notes[c.id + "/" + at.key];
        if (n) use(c, at, n);
      });
    });
  }

  const option = (stop, id) => (stop.options.find(o => o[0] === id) || [])[1];

  const level = n => words["sure-" + n.s] || words["ex-unsaid"];

  function sums() {
    var opened = 0, worked = {}, early = 0, as = [0, 0, 0, 0, 0], other = [0, 0, 0, 0, 0];
    each("stops", (c, stop, n) => {
      if (!n.o) return;
      opened++;
      worked[c.id] = 1;
      if (!option(stop, n.c)) early++;
      else if (stop.chosen) (n.c === stop.chosen ? as : other)[n.s >= 0 ? n.s : 4]++;
    });
    const sum = list => list.reduce((a, b) => a + b);
    put("p", say("ex-sums", opened, Object.keys(worked).length, cases.length));
    if (!sum(as) && !sum(other)) return;
    put("p", say("ex-agree", sum(as), sum(other)));
    if (early) put("p", say("ex-opened", early));
    put("p", words["ex-by-sureness"]);
    var list = make("ul", "", null, "Plain");
    [3, 2, 1, 0, 4].forEach(s => {
      if (as[s] || other[s]) put("li", say("ex-level", level({ s }), as[s], other[s]), list, "- ");
    });
  }

  /* again lists the steps whose watch pages are worth another look, each with
     why. */
  function again() {
    const steps = new Map();
    function add(step, why) {
      if (!step) return;
      const [text, to] = step;
      if (!steps.has(to)) steps.set(to, { text, to, why: [] });
      steps.get(to).why.push(why);
    }
    each("stops", (c, stop, n) => {
      if (!n.o) return;
      if (option(stop, n.c) && stop.chosen && n.c !== stop.chosen) add(stop.step, say("ex-differed-at", c.id, stop.at));
      else if (!(n.s > 1)) add(stop.step, say("ex-unsure-of", c.id, stop.at));
    });
    each("signs", (c, sign, n) => {
      if (n.m === 1) add(sign.step, say("ex-missed", sign.event, c.id, sign.at));
    });
    head(words["ex-read-again"]);
    if (!steps.size) return put("p", words["ex-nothing-again"]);
    var list = make("ul", "", null, "Plain");
    steps.forEach(s => put("li", [s, ": " + s.why.join("; ")], list, "- "));
  }

  function byCase() {
    head(words["ex-by-case"]);
    cases.forEach(c => {
      var list = null;
      function open() {
        if (list) return;
        lines.push("");
        put("h3", [c.id + " ", { text: c.title, to: c.path }]);
        list = make("ul", "", null, "Plain");
      }
      (c.stops || []).forEach(stop => {
        var n = notes[c.id + "/" + stop.key];
        if (!n || !n.o) return;
        open();
        var mine = option(stop, n.c), theirs = option(stop, stop.chosen);
        var li = put("li", [{ text: stop.at, to: c.path + "#" + stop.anchor }, " " + stop.ask], list, "- ");
        put("div", mine ? say("ex-you", mine, level(n)) : words["ex-early"], li, "  ");
        put("div", !theirs ? words["ex-no-choice"] : mine === theirs ? words["ex-case-same"] : say("ex-case", theirs), li, "  ");
        if (stop.result) put("div", say("ex-result", stop.result), li, "  ");
      });
      (c.signs || []).forEach(sign => {
        var n = notes[c.id + "/" + sign.key];
        if (!n || !(n.m >= 0)) return;
        open();
        put("li", [{ text: sign.at, to: c.path + "#" + sign.key }, " " +
          say(n.m ? "ex-missed-sign" : "ex-saw", sign.event)], list, "- ");
      });
    });
  }

  function save() {
    var url = URL.createObjectURL(new Blob([lines.join("\r\n") + "\r\n"], { type: "text/plain;charset=utf-8" }));
    var a = document.createElement("a");
    a.href = url;
    a.download = words["ex-file"] + ".txt";
    a.click();
    setTimeout(() => URL.revokeObjectURL(url), 1000);
  }

  function tools() {
    var bar = make("p", "", null, "Tools");
    button("ex-print", bar, () => print());
    button("ex-save", bar, save);
    button("ex-wipe", bar, () => {
      bar.textContent = words["ex-wipe-sure"] + " ";
      button("ex-wipe-yes", bar, () => {
        store.wipe(bank);
        frame.textContent = "";
        var done = make("p", words["ex-wiped"]);
        done.tabIndex = -1;
        done.focus();
      });
      button("ex-wipe-no", bar, draw).focus();
    });
  }

  function draw() {
    frame.textContent = "";
    lines = [document.title];
    notes = store.all(bank);
    if (!store.kept()) make("p", words["ex-not-kept"], null, "Warning");
    if (!Object.keys(notes).length) return make("p", words["ex-none"]);
    put("p", words["ex-on-device"]);
    sums();
    again();
    byCase();
    tools();
  }

  taken();
  draw();
})();
