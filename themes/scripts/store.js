/* What a reader chose, kept on this device and nowhere else. A browser may
   refuse to keep anything, or give each file a store of its own: then what was
   chosen lasts as long as the page, and the link to the progress page carries
   it there in its fragment, which no browser sends.

   A key names the bank, the case and the moment: caseleaf/<bank>/<case>/<moment>.
   A value is a small object:
     c  id of the option chosen        s  how sure, 0 to 3
     o  1 once the answer was opened   m  1 when the first sign was missed, 0 when not */
(function () {
  "use strict";
  var memory = {};
  var shelf = null;
  try {
    shelf = window.localStorage;
    shelf.setItem("caseleaf", "");
    shelf.removeItem("caseleaf");
  } catch (e) {
    shelf = null;
  }

  function name(bank, rest) { return "caseleaf/" + bank + "/" + (rest || ""); }

  window.caseleafStore = {
    /* kept says whether choices outlast the page. */
    kept: function () { return shelf !== null; },

    /* sayer gives a function that fills {1} to {4} of the phrase of a key. */
    sayer: function (words) {
      return function (key) {
        var args = arguments;
        return words[key].replace(/\{(\d)\}/g, function (_, n) { return args[n]; });
      };
    },

    put: function (bank, rest, value) {
      var text = JSON.stringify(value);
      memory[name(bank, rest)] = text;
      try { if (shelf) shelf.setItem(name(bank, rest), text); } catch (e) { shelf = null; }
    },

    /* all gives what is kept below a bank, or below one case of it, by case/moment. */
    all: function (bank, below) {
      var start = name(bank, below), cut = name(bank).length, out = {};
      function take(key, text) {
        if (key.indexOf(start) !== 0) return;
        try {
          var value = JSON.parse(text);
          if (value && typeof value === "object") out[key.slice(cut)] = value;
        } catch (e) { /* not ours */ }
      }
      try {
        for (var i = 0; shelf && i < shelf.length; i++) take(shelf.key(i), shelf.getItem(shelf.key(i)));
      } catch (e) { shelf = null; }
      Object.keys(memory).forEach(function (key) { take(key, memory[key]); });
      return out;
    },

    wipe: function (bank, below) {
      Object.keys(this.all(bank, below)).forEach(function (rest) {
        delete memory[name(bank, rest)];
        try { if (shelf) shelf.removeItem(name(bank, rest)); } catch (e) { shelf = null; }
      });
    }
  };
})();
