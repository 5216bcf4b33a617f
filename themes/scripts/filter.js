/* Filters above the list of cases. The page lists what can be chosen; a case
   says in data-in what it has. What is chosen stands in the address, behind #,
   so that a page can be kept and passed on. */
(() => {
  "use strict";
  const form = document.querySelector(".js-filter");
  if (!form) return;
  const selects = Array.from(form.querySelectorAll("select")), status = form.querySelector("output");
  const clear = form.querySelector("button");
  const cases = Array.from(document.querySelectorAll("[data-in]"), line => ({ line, has: new Set(line.dataset.in.split(" ")) }));
  for (const s of selects) for (const o of s.options) o.label_ = o.textContent;
  const chosen = s => s.selectedOptions[0].dataset.k;

  function apply() {
    const keys = selects.map(chosen);
    const fits = (c, but) => keys.every((k, i) => i === but || !k || c.has.has(k));
    let shown = 0;
    for (const c of cases) {
      c.line.hidden = !fits(c);
      if (!c.line.hidden) shown++;
    }
    /* What each choice would leave, with the other choices as they are. */
    selects.forEach((s, i) => {
      const left = cases.filter(c => fits(c, i));
      for (const o of s.options) {
        const k = o.dataset.k, n = left.filter(c => !k || c.has.has(k)).length;
        o.textContent = o.label_ + (k ? " (" + n + ")" : "");
        o.disabled = !n && !o.selected;
      }
    });
    clear.hidden = !keys.some(Boolean);
    status.textContent = status.dataset.text.replace("{n}", shown).replace("{m}", cases.length);
  }
  function keep() {
    const said = selects.filter(s => s.value).map(s => s.name + "=" + encodeURIComponent(s.value)).join("&");
    try { history.replaceState(null, "", said ? "#" + said : location.pathname + location.search); } catch (e) {
      /* not kept */
    }
    apply();
  }
  function read() {
    const said = new URLSearchParams(location.hash.slice(1));
    for (const s of selects) {
      s.value = said.get(s.name) || "";
      if (s.selectedIndex < 0) s.selectedIndex = 0;
    }
    apply();
  }
  form.addEventListener("change", keep);
  form.addEventListener("submit", e => e.preventDefault());
  clear.addEventListener("click", () => {
    for (const s of selects) s.selectedIndex = 0;
    keep();
    selects[0].focus();
  });
  window.addEventListener("hashchange", read);
  form.hidden = false;
  read();
})();
