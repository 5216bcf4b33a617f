/* The interactive layer of figures. The page is complete without it: a drawing
   stands in every figure, and stays what is printed. Nothing from the bank is
   run or read as markup here: options are data (window.caseleafCharts), marks
   are drawn by the two functions below, tips are drawn as text. The chart
   library is loaded when a reader first asks for it, from the handout's own
   folder. */
(() => {
  "use strict";
  var data = window.caseleafCharts;
  var library = document.currentScript && document.currentScript.dataset.library;
  if (!data || !library) return;

  var open = [];
  var loading;

  /* load adds the chart library once. */
  function load() {
    if (loading) return loading;
    loading = new Promise((resolve, reject) => {
      var script = document.createElement("script");
      script.src = library;
      script.onload = () => { window.echarts ? resolve(window.echarts) : reject(); };
      script.onerror = reject;
      document.head.append(script);
    });
    return loading;
  }

  /* ink gives the page's colours and face as they are in the reader's mode. */
  function ink() {
    var style = getComputedStyle(document.documentElement);
    var get = (name) => style.getPropertyValue(name).trim();
    var body = getComputedStyle(document.body);
    return {
      text: body.color, quiet: get("--color-quiet"), rule: get("--color-rule"), edge: get("--color-edge"),
      accent: get("--color-accent"), page: get("--color-page"), marked: get("--color-marked"), face: get("--face-label")
    };
  }

  /* resolved follows var() to a colour, which a canvas-like library needs. */
  function resolved(colours) {
    var probe = document.createElement("span");
    document.body.append(probe);
    Object.keys(colours).forEach((key) => {
      if (key === "face") return;
      probe.style.color = "";
      probe.style.color = colours[key];
      colours[key] = getComputedStyle(probe).color;
    });
    probe.remove();
    return colours;
  }

  function line(x1, y1, x2, y2, colour, width) {
    return { type: "line", shape: { x1: x1, y1: y1, x2: x2, y2: y2 }, style: { stroke: colour, lineWidth: width } };
  }

  /* The marks that options ask for by name. */
  var renderers = {
    interval: (colours) => {
      return (params, api) => {
        var row = api.value(0);
        var at = api.coord([api.value(1), row]), low = api.coord([api.value(2), row]), high = api.coord([api.value(3), row]);
        var y = at[1];
        return { type: "group", children: [
          { type: "rect", shape: { x: low[0] - 6, y: y - 11, width: high[0] - low[0] + 12, height: 22 }, style: { fill: "rgba(0,0,0,0)" } },
          line(low[0], y, high[0], y, colours.accent, 2),
          line(low[0], y - 5, low[0], y + 5, colours.accent, 2),
          line(high[0], y - 5, high[0], y + 5, colours.accent, 2),
          { type: "rect", shape: { x: at[0] - 4, y: y - 4, width: 8, height: 8 }, style: { fill: colours.text } }
        ] };
      };
    },
    stretch: (colours) => {
      return (params, api) => {
        var row = api.value(0), from = api.value(1), to = api.value(2);
        var zero = api.coord([0, row]), y = zero[1];
        var left = isFinite(from) && from !== null ? api.coord([from, row])[0] : zero[0];
        var right = isFinite(to) && to !== null ? api.coord([to, row])[0] : zero[0];
        var parts = [{ type: "rect", shape: { x: left - 6, y: y - 8, width: right - left + 12, height: 16 }, style: { fill: "rgba(0,0,0,0)" } }];
        if (left < zero[0]) {
          parts.push({ type: "line", shape: { x1: left, y1: y, x2: zero[0], y2: y }, style: { stroke: colours.text, lineWidth: 2, lineDash: [4, 3] } });
          parts.push({ type: "circle", shape: { cx: left, cy: y, r: 3.5 }, style: { fill: colours.page, stroke: colours.text, lineWidth: 1.5 } });
        }
        if (right > zero[0]) {
          parts.push(line(zero[0], y, right, y, colours.accent, 3));
          parts.push(line(right, y - 5, right, y + 5, colours.accent, 2));
        }
        parts.push(line(zero[0], y - 6, zero[0], y + 6, colours.text, 2));
        return { type: "group", children: parts };
      };
    }
  };

  /* dressed is an option in the page's colours, with its marks and its tips. */
  function dressed(option, colours) {
    option = JSON.parse(JSON.stringify(option));
    var label = { color: colours.quiet, fontFamily: colours.face, fontSize: 12 };
    option.textStyle = { fontFamily: colours.face, color: colours.text };
    option.tooltip = Object.assign({}, option.tooltip, {
      renderMode: "richText", confine: true, appendToBody: false,
      backgroundColor: colours.page, borderColor: colours.text, borderWidth: 1,
      textStyle: { color: colours.text, fontFamily: colours.face, fontSize: 13 },
      formatter: (p) => p.data && typeof p.data.tip === "string" ? plain(p.data.tip) : ""
    });
    [].concat(option.xAxis || [], option.yAxis || []).forEach((axis) => {
      axis.axisLabel = Object.assign({}, axis.axisLabel, label);
      if (axis.axisLabel.interval === "0") axis.axisLabel.interval = 0;
      axis.nameTextStyle = label;
      axis.axisLine = { lineStyle: { color: colours.edge } };
      axis.axisTick = { show: false };
      axis.splitLine = { show: axis.type === "value", lineStyle: { color: colours.rule } };
      axis.splitArea = { show: false };
      if (axis.type === "category" && axis.inverse) Object.assign(axis.axisLabel, { width: Math.min(200, window.innerWidth * 0.34), overflow: "break" });
    });
    option.series.forEach((s) => {
      if (s.renderItem) {
        s.renderItem = renderers[s.renderItem] ? renderers[s.renderItem](colours) : undefined;
      } else if (s.type === "heatmap") {
        s.label = { show: true, color: colours.text, fontFamily: colours.face, formatter: (p) => String(p.value[2]) };
        s.itemStyle = { borderColor: colours.edge, borderWidth: 1 };
      } else if (s.type === "scatter") {
        s.symbolSize = 11;
        s.itemStyle = { color: colours.accent, borderColor: colours.text };
      } else {
        s.silent = true;
        s.lineStyle = Object.assign({}, s.lineStyle, { color: colours.text });
        s.itemStyle = { color: colours.text };
      }
    });
    (option.dataZoom || []).forEach((z) => {
      Object.assign(z, { height: 22, bottom: 8, showDetail: false, borderColor: colours.edge, fillerColor: colours.rule, handleStyle: { color: colours.page, borderColor: colours.accent }, textStyle: label, brushSelect: false });
    });
    if (option.visualMap) {
      option.visualMap.forEach((m) => { m.inRange = { color: [colours.page, colours.marked] }; m.calculable = false; });
    }
    return option;
  }

  /* plain takes the braces of the library's own text markup out of the way. */
  function plain(text) { return text.replace(/\{/g, "\u2774").replace(/\}/g, "\u2775"); }

  /* Chart is one figure that a reader opened. */
  function Chart(figure, entry) {
    this.figure = figure;
    this.entry = entry;
    this.stage = figure.querySelector(".js-chart-stage");
    this.said = figure.querySelector(".js-chart-said");
    this.button = figure.querySelector(".js-chart-open");
    this.body = figure.querySelector(".js-chart-body");
    this.at = null;
  }
  Chart.prototype.draw = function () {
    var colours = resolved(ink());
    if (this.chart) this.chart.dispose();
    this.stage.style.blockSize = (this.entry.rows ? 110 + 34 * this.entry.rows : 380) + "px";
    this.chart = window.echarts.init(this.stage, null, { renderer: "svg" });
    this.chart.setOption(dressed(this.entry.option, colours));
    this.at = null;
  };
  Chart.prototype.show = function () {
    this.body.hidden = false;
    this.figure.dataset.shown = "";
    this.button.setAttribute("aria-expanded", "true");
    this.button.textContent = this.button.dataset.close;
    this.draw();
    open.push(this);
  };
  Chart.prototype.hide = function () {
    this.body.hidden = true;
    delete this.figure.dataset.shown;
    this.button.setAttribute("aria-expanded", "false");
    this.button.textContent = this.button.dataset.open;
    if (this.chart) this.chart.dispose();
    delete this.chart;
    this.said.textContent = "";
    open = open.filter((c) => c !== this);
  };
  /* step goes to the next mark that has words, and says them. */
  Chart.prototype.step = function (by) {
    var marks = [];
    this.entry.option.series.forEach((s, i) => {
      (s.data || []).forEach((d, j) => { if (d && typeof d.tip === "string") marks.push([i, j, d.tip]); });
    });
    if (!marks.length || !this.chart) return;
    this.at = this.at === null ? (by > 0 ? 0 : marks.length - 1) : (this.at + by + marks.length) % marks.length;
    var m = marks[this.at];
    this.chart.dispatchAction({ type: "showTip", seriesIndex: m[0], dataIndex: m[1] });
    this.said.textContent = m[2];
  };

  /* redrawn keeps open charts at the size and in the colours of the page. */
  function resized() { open.forEach((c) => { if (c.chart) c.chart.resize(); }); }
  function redrawn() { open.forEach((c) => { c.draw(); }); }
  addEventListener("resize", resized);
  for (const mode of ["prefers-color-scheme: dark", "forced-colors: active"]) {
    matchMedia(`(${mode})`).addEventListener("change", redrawn);
  }

  document.querySelectorAll("figure[data-chart]").forEach((figure) => {
    var id = figure.dataset.chart;
    if (!Object.prototype.hasOwnProperty.call(data, id)) return;
    var c = new Chart(figure, data[id]);
    c.button.addEventListener("click", () => {
      if (c.chart) { c.hide(); return; }
      load().then(() => { if (!c.chart) c.show(); }, () => { figure.querySelector(".js-chart").hidden = true; });
    });
    c.body.addEventListener("keydown", (e) => {
      if (e.key === "ArrowRight" || e.key === "ArrowDown") { c.step(1); e.preventDefault(); }
      if (e.key === "ArrowLeft" || e.key === "ArrowUp") { c.step(-1); e.preventDefault(); }
      if (e.key === "Escape") { c.hide(); c.button.focus(); }
    });
    figure.querySelector(".js-chart").hidden = false;
  });
})();
