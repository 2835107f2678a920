"use strict";
// Draws every plot of the page from the figures beside it. Lines differ by their
// dashes, not by colour alone, and are drawn anew for paper and for a dark screen.
(() => {
  const dashes = [[], [6, 4], [2, 3], [8, 3, 2, 3]];
  let charts = [];

  const colour = (name) =>
    getComputedStyle(document.documentElement).getPropertyValue(name).trim();

  // Vertical lines with words, where something happens.
  const markLines = {
    id: "markLines",
    afterDatasetsDraw(chart, _args, options) {
      const { ctx, chartArea: area, scales } = chart;
      ctx.save();
      ctx.font = "12px system-ui, sans-serif";
      ctx.strokeStyle = ctx.fillStyle = colour("--ink");
      ctx.setLineDash([3, 3]);
      let lineOfWords = 0;
      for (const mark of options.marks) {
        const x = scales.x.getPixelForValue(mark.x);
        if (!(x >= area.left - 1 && x <= area.right + 1)) continue;
        ctx.beginPath();
        ctx.moveTo(x, area.top);
        ctx.lineTo(x, area.bottom);
        ctx.stroke();
        const toLeft = x > (area.left + area.right) / 2;
        ctx.textAlign = toLeft ? "right" : "left";
        ctx.fillText(mark.words, x + (toLeft ? -4 : 4), area.top + 12 + 14 * (lineOfWords++ % 3));
      }
      ctx.restore();
    },
  };

  const dataset = (line, i) => {
    const own = colour(`--line-${(i % dashes.length) + 1}`);
    return {
      label: line.name,
      data: line.points.map(([x, y]) => ({ x, y })),
      stepped: line.steps ? "before" : false,
      showLine: !line.dots,
      borderColor: own,
      backgroundColor: own,
      borderDash: dashes[i % dashes.length],
      borderWidth: 2,
      pointRadius: line.dots ? 5 : 0,
      pointStyle: line.dots ? "triangle" : "line",
      pointBorderColor: own,
      pointBackgroundColor: own,
      pointHitRadius: 12,
    };
  };

  const axis = (words, rest) => ({
    type: "linear",
    title: { display: true, text: words, color: colour("--ink") },
    grid: { color: colour("--faint"), borderColor: colour("--faint"), ...rest.grid },
    ...rest.scale,
    ticks: { color: colour("--ink"), maxRotation: 0, ...rest.ticks },
  });

  const draw = (figure) => {
    const plot = JSON.parse(figure.querySelector("script").textContent);
    const named = plot.labels.length > 0;
    const atLabel = (value) => (Number.isInteger(value) ? plot.labels[value] : "");
    const most = plot.small ? 4 : 8;
    const evenly = (scale) => {
      const step = Math.ceil(plot.labels.length / most);
      const ticks = plot.labels.map((_, value) => ({ value }));
      scale.ticks = ticks.filter(({ value }) => value % step === 0);
    };
    return new Chart(figure.querySelector("canvas"), {
      type: "line",
      data: { datasets: plot.lines.map(dataset) },
      plugins: [markLines],
      options: {
        animation: false,
        maintainAspectRatio: false,
        parsing: false,
        interaction: { mode: "nearest", axis: "x", intersect: false },
        scales: {
          x: axis(plot.x, {
            scale: named ? { bounds: "data", afterBuildTicks: evenly } : { bounds: "ticks" },
            grid: { display: false },
            ticks: { maxTicksLimit: most, ...(named && { callback: atLabel, autoSkip: false }) },
          }),
          y: axis(plot.y, {
            scale: { beginAtZero: plot.from_zero },
            ticks: { maxTicksLimit: 6 },
          }),
        },
        plugins: {
          markLines: { marks: plot.marks },
          legend: {
            display: plot.lines.length > 1 && !plot.small,
            labels: { usePointStyle: true, boxWidth: 36, color: colour("--ink") },
          },
          tooltip: {
            callbacks: {
              title: (items) =>
                named ? atLabel(items[0].parsed.x) : `${plot.x}: ${items[0].label}`,
            },
          },
        },
      },
    });
  };

  const drawAll = () => {
    charts.forEach((chart) => chart.destroy());
    charts = [...document.querySelectorAll("figure")].map(draw);
  };
  window.haymowDrawPlots = drawAll;
  drawAll();
  matchMedia("(prefers-color-scheme: dark)").addEventListener("change", drawAll);
  matchMedia("print").addEventListener("change", drawAll);
  // A canvas keeps its pixels: on paper it must fit the page.
  addEventListener("beforeprint", () => charts.forEach((chart) => chart.resize(640, 260)));
  addEventListener("afterprint", drawAll);
})();
