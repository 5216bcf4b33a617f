// Added to every page by the preview, and to no handout: shows what the author
// has to mend, and loads the page anew when what it shows has changed.
(function () {
  "use strict";
  var me = document.currentScript, page = me.dataset.page, shown = me.dataset.shown;
  var key = "caseleaf-preview:" + page;

  function store(value) { try { sessionStorage.setItem(key, value); } catch (e) { /* not kept */ } }
  function stored() { try { var v = sessionStorage.getItem(key); sessionStorage.removeItem(key); return v; } catch (e) { return null; } }

  var was = stored();
  if (was !== null) addEventListener("load", function () { scrollTo(0, Number(was)); });

  var panel = document.createElement("section");
  panel.className = "Live";
  panel.setAttribute("aria-live", "polite");
  panel.setAttribute("aria-label", "Preview");
  document.body.prepend(panel);

  function show(messages, gone) {
    panel.textContent = "";
    var errors = messages.filter(function (m) { return m.severity === "error"; });
    if (gone) line("This page is no longer in the handout.");
    if (errors.length) line("Not up to date: the bank has " + errors.length + (errors.length === 1 ? " error." : " errors.") + " This is the last good version.");
    if (!messages.length) return;
    var box = document.createElement("details"), head = document.createElement("summary"), text = document.createElement("pre");
    box.open = errors.length > 0;
    head.textContent = errors.length ? "What to mend" : messages.length + (messages.length === 1 ? " warning" : " warnings");
    text.textContent = messages.map(function (m) { return m.text; }).join("\n");
    text.tabIndex = 0;
    box.append(head, text);
    panel.append(box);
  }
  function line(text) { var p = document.createElement("p"); p.textContent = text; panel.append(p); }

  var source = new EventSource("/-/news?page=" + encodeURIComponent(page));
  source.onmessage = function (e) {
    var n = JSON.parse(e.data);
    if (n.shown && n.shown !== shown) {
      source.close();
      store(scrollY);
      location.reload();
      return;
    }
    show(n.messages, n.gone);
  };
  source.onerror = function () {
    if (source.readyState === EventSource.CLOSED) line("The preview has stopped.");
  };
})();
