/* What every page does with script: its search box leads to the search page, "/"
   goes to the box, and paper gets the largest copy of each picture. */
(() => {
  "use strict";
  const key = "caseleaf/slash", box = document.querySelector(".js-find"), choice = document.querySelector(".js-slash");
  let off = false;
  try { off = localStorage.getItem(key) === "off"; } catch (e) {
    /* not kept, then */
  }

  if (box) box.form.action = box.form.dataset.find;

  /* Unless somebody writes somewhere or has switched it off on the search page
     (WCAG 2.2, 2.1.4). */
  document.addEventListener("keydown", e => {
    const writing = e.target.closest && e.target.closest("input, textarea, select");
    if (off || !box || writing || e.key !== "/" || e.ctrlKey || e.metaKey || e.altKey) return;
    e.preventDefault();
    box.focus();
    box.select();
  });

  /* A browser that prints loads what was lazy, waits for it, and
     then tells. Where one does not, the small copy is better than none. */
  for (const img of document.querySelectorAll("img[srcset]")) {
    const whole = img.cloneNode();
    whole.srcset = "";
    whole.hidden = true;
    img.after(whole);
    window.addEventListener("beforeprint", () => {
      if (!whole.naturalWidth) return;
      whole.hidden = false;
      img.replaceWith(whole);
    });
  }

  if (!choice) return;
  choice.hidden = false;
  const tick = choice.querySelector("input");
  tick.checked = !off;
  tick.addEventListener("change", () => {
    off = !tick.checked;
    try { localStorage.setItem(key, off ? "off" : "on"); } catch (e) {
      /* until the page is left */
    }
  });
})();
