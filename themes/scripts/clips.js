/* Films that follow the times of a case: clips beside it, or a copy of the
   recording that the reader opens from the device. Nothing leaves the page. */
(() => {
  "use strict";
  const clips = Array.from(document.querySelectorAll(".js-clip")), own = document.querySelector(".js-own");
  let film = null;

  /* at gives the film that shows a second of the recording, or null. */
  function at(second) {
    return film || clips.find(c => second >= +c.dataset.from && second <= +c.dataset.to) || null;
  }

  function seek(second) {
    var shown = at(second);
    if (!shown) return;
    for (var d = shown.parentElement; d; d = d.parentElement) if (d.tagName === "DETAILS") d.open = true;
    var to = second - (+shown.dataset.from || 0);
    if (shown.readyState > 0) shown.currentTime = to;
    else {
      shown.addEventListener("loadedmetadata", () => { shown.currentTime = to; }, { once: true });
      shown.preload = "metadata";
      shown.load();
    }
    shown.scrollIntoView({ block: "nearest" });
  }

  function second(id) {
    var m = /^#?t-(\d+)(-\d+)?$/.exec(id || "");
    return m ? +m[1] : null;
  }

  /* Times in the timeline that a film shows become buttons. */
  function arm() {
    document.querySelectorAll(".Entry").forEach(row => {
      var s = second(row.id), cell = row.querySelector(".Entry-time");
      if (s === null || !at(s) || cell.querySelector(".Seek")) return;
      var b = document.createElement("button");
      b.type = "button";
      b.className = "Seek";
      b.append(cell.firstChild);
      b.addEventListener("click", () => seek(s));
      cell.prepend(b);
    });
  }

  /* A time on the strip, in the overview or in the story moves the film on the
     way to its row. */
  document.addEventListener("click", e => {
    var a = e.target.closest("a"), s = a && second(a.getAttribute("href"));
    if (s !== null && a) seek(s);
  });

  if (own) {
    own.querySelector("input").addEventListener("change", e => {
      var file = e.target.files[0];
      if (!file) return;
      if (!film) {
        var figure = document.createElement("figure");
        figure.className = "Clip Clip--own";
        film = document.createElement("video");
        film.className = "Clip-film";
        film.controls = true;
        film.setAttribute("playsinline", "");
        film.setAttribute("aria-labelledby", "page-own");
        figure.append(film);
        own.closest("section").after(figure);
      }
      if (film.src) URL.revokeObjectURL(film.src);
      film.src = URL.createObjectURL(file);
      arm();
    });
  }
  arm();
})();
