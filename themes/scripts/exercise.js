/* A case worked through. The page is whole without it: this notes what a reader
   chose on the device, says it again beside what the case chose, opens what a
   link leads to where the browser does not, and opens all for paper. */
(() => {
  "use strict";
  const frame = document.querySelector(".js-exercise"), store = window.caseleafStore;
  if (!frame || !store) return;

  const bank = frame.dataset.bank, words = JSON.parse(frame.dataset.words), say = store.sayer(words), make = store.make;
  const below = frame.dataset.case + "/";
  const notes = store.all(bank, below), stops = document.querySelectorAll(".js-stop");

  function note(moment, change) {
    var now = notes[below + moment] || {};
    notes[below + moment] = Object.assign(now, change);
    store.put(bank, below + moment, now);
    tell();
  }

  const picked = (stop, name) => stop.querySelector('input[name="' + name + '"]:checked');
  function wordsOf(input) { return input ? input.closest("label").textContent.trim().replace(/\s+/g, " ") : ""; }

  /* own are the parts of a decision point itself: later ones stand inside it. */
  const own = (stop, what) => stop.querySelectorAll(":scope > .Ask" + what);

  /* show brings a decision point to what is noted of it. */
  function show(stop) {
    var now = notes[below + stop.dataset.moment] || {};
    var answer = stop.querySelector(".js-answer");
    own(stop, " input").forEach(input => {
      input.checked = input.value === String(input.name === stop.id ? now.c : now.s);
      input.disabled = !!now.o;
    });
    var choice = picked(stop, stop.id), sure = picked(stop, stop.id + "-sure");
    var early = !choice && !now.o;
    answer.toggleAttribute("data-early", early);
    answer.querySelector("summary").textContent = words[early ? "ex-open-early" : "ex-open"];
    var said = "";
    if (now.o && !choice) said = words["ex-early"];
    if (now.o && choice) {
      var mine = wordsOf(choice), level = sure ? wordsOf(sure) : words["ex-unsaid"];
      var theirs = stop.querySelector('input[value="' + CSS.escape(stop.dataset.chosen || "") + '"][name="' + stop.id + '"]');
      said = choice === theirs ? say("ex-same", mine, level) : say("ex-differ", mine, level, wordsOf(theirs) || "–");
    }
    answer.querySelector(".js-yours").textContent = said;
    return answer;
  }

  stops.forEach(stop => {
    var answer = show(stop);
    if ((notes[below + stop.dataset.moment] || {}).o) answer.open = true;
    own(stop, "").forEach(group => {
      group.addEventListener("change", e => {
        note(stop.dataset.moment, e.target.name === stop.id ? { c: e.target.value } : { s: +e.target.value });
        show(stop);
      });
    });
    /* A press, not a toggle: what a link opened was not the reader's answer. */
    answer.querySelector("summary").addEventListener("click", () => {
      if (!answer.open) {
        note(stop.dataset.moment, { o: 1 });
        show(stop);
      }
    });
  });

  /* A first sign, once it is shown: was it seen? */
  document.querySelectorAll(".js-sign").forEach(sign => {
    var moment = sign.dataset.moment, group;
    function ask() {
      if (group) return;
      group = make("fieldset", "", sign.querySelector(".Reveal-body"), "Ask Ask--sure");
      make("legend", words["ex-sign"], group, "Label");
      ["ex-sign-seen", "ex-sign-missed"].forEach((key, value) => {
        var label = make("label", "", group), input = make("input", "", label);
        input.type = "radio";
        input.name = moment + "-seen";
        input.checked = (notes[below + moment] || {}).m === value;
        label.append(" " + words[key]);
        input.addEventListener("change", () => { note(moment, { m: value }); });
      });
    }
    if (notes[below + moment]) { ask(); sign.open = true; }
    sign.addEventListener("toggle", ask);
  });

  /* Behind the case: to the progress page with what was noted, in a fragment
     that is never sent, and the case anew. */
  var after = document.querySelector(".js-after"), again, unkept;
  var link = after && after.querySelector(".js-progress"), bare = link && link.href;
  function tell() {
    if (!after) return;
    var any = Object.keys(notes).length > 0;
    if (location.protocol === "file:" || !store.kept()) {
      link.href = any ? bare + "#" + encodeURIComponent(JSON.stringify(notes)) : bare;
    }
    if (!any) return;
    if (!again) {
      again = make("button", words["ex-again"], after, "Button");
      again.type = "button";
      again.addEventListener("click", () => {
        store.wipe(bank, below);
        location.reload();
      });
    }
    if (!store.kept() && !unkept) unkept = make("span", words["ex-not-kept"], after);
  }
  tell();

  /* open shows what a fragment leads to, for browsers that leave it folded. */
  function open() {
    var target;
    try { target = document.getElementById(decodeURIComponent(location.hash.slice(1))); } catch (e) { return; }
    for (var d = target; d; d = d.parentElement) if (d.tagName === "DETAILS" && d !== target) d.open = true;
    if (target) target.scrollIntoView();
  }
  window.addEventListener("hashchange", open);
  if (location.hash) open();

  /* Browsers whose styles cannot reach into a closed reveal get theirs opened,
     to see everything and for paper, and closed again after. */
  if (!(window.CSS && CSS.supports && CSS.supports("selector(::details-content)"))) {
    var opened = [];
    var all = (open, kinds) => {
      if (!open) opened.splice(0).forEach(d => { d.open = false; });
      else document.querySelectorAll(kinds).forEach(d => { if (!d.open) { d.open = true; opened.push(d); } });
    };
    var whole = document.getElementById("page-whole");
    if (whole) whole.addEventListener("toggle", () => { all(whole.open, ".Answer"); });
    window.addEventListener("beforeprint", () => { all(true, "details"); });
    window.addEventListener("afterprint", () => { all(false); });
  }
})();
