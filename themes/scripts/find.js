/* "/" goes to the search box of the page, unless somebody writes somewhere or
   has switched it off on the search page (WCAG 2.2, 2.1.4). */
(function () {
  "use strict";
  var key = "caseleaf/slash";
  var off = false;
  try { off = localStorage.getItem(key) === "off"; } catch (e) { /* not kept, then */ }

  document.addEventListener("keydown", function (e) {
    var box = document.querySelector(".js-find");
    var writing = e.target.closest && e.target.closest("input, textarea, select, [contenteditable]");
    if (off || !box || writing || e.key !== "/" || e.ctrlKey || e.metaKey || e.altKey) return;
    e.preventDefault();
    box.focus();
    box.select();
  });

  var choice = document.querySelector(".js-slash");
  if (!choice) return;
  choice.hidden = false;
  var tick = choice.querySelector("input");
  tick.checked = !off;
  tick.addEventListener("change", function () {
    off = !tick.checked;
    try { localStorage.setItem(key, off ? "off" : "on"); } catch (e) { /* until the page is left */ }
  });
})();
