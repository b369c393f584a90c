// Curves over one axis: black lines, each named at its end.

// plot: {id, heading, x, x_words, x_figure, lines: [{name, unit, values}]}. One strip a line, each
// with a scale of its own: its first and last figure stand at its ends. Time runs by its root, so
// that the first minute has room and the last hour too.
function strips(plot) {
  if (plot.lines.length === 0) return null;
  const size = { width: 640, strip: 58, left: 150, right: 86, top: 8, foot: 44 };
  size.height = size.top + size.strip * plot.lines.length + size.foot;
  const svg = named_svg(plot, size, strips_in_words(plot));
  const x = d3.scalePow().exponent(0.4).domain(d3.extent(plot.x))
    .range([size.left, size.width - size.right]);
  x_axis(svg, plot, size, x, [0, 60, 300, 900, 1800, 3600, 7200].filter((at) => at <= x.domain()[1]));
  plot.lines.forEach((line, index) => draw_strip(svg, plot, line, size.top + index * size.strip, x, size));
  return make("figure", {}, svg.node(), make("figcaption", {}, plot.heading));
}

function strips_in_words(plot) {
  return plot.heading + ". " + plot.lines.map((line) =>
    `${line.name}: ${figure(line.values[0], line.unit)} to ${figure(last_of(line.values), line.unit)}`)
    .join("; ") + ".";
}

function last_of(list) {
  return list[list.length - 1];
}

function named_svg(plot, size, words) {
  const title = fresh_id(plot.id);
  const svg = d3.create("svg").attr("viewBox", `0 0 ${size.width} ${size.height}`)
    .attr("class", "curves").attr("role", "img").attr("aria-labelledby", title);
  svg.append("title").attr("id", title).text(words);
  return svg;
}

function svg_text(svg, x, y, anchor, words) {
  return svg.append("text").attr("x", x).attr("y", y).attr("text-anchor", anchor).text(words);
}

function svg_line(svg, kind, x1, y1, x2, y2) {
  return svg.append("line").attr("class", kind).attr("x1", x1).attr("y1", y1)
    .attr("x2", x2).attr("y2", y2);
}

function x_axis(svg, plot, size, x, marks) {
  const base = size.height - size.foot + 4;
  const [left, right] = x.range();
  svg_line(svg, "axis", left, base, right, base);
  let free_from = -Infinity;
  for (const mark of marks) {
    svg_line(svg, "axis", x(mark), base, x(mark), base + 5);
    if (x(mark) < free_from) continue;
    svg_text(svg, x(mark), base + 19, "middle", plot.x_figure(mark));
    free_from = x(mark) + 52;
  }
  svg_text(svg, 0.5 * (left + right), base + 37, "middle", plot.x_words);
}

function draw_strip(svg, plot, line, top, x, size) {
  const [left, right] = x.range();
  const y = d3.scaleLinear().domain(d3.extent(line.values)).range([top + size.strip - 14, top + 10]);
  svg_line(svg, "faint", left, top + size.strip - 2, right, top + size.strip - 2);
  const path = d3.line().x((_, k) => x(plot.x[k])).y((value) => y(value));
  svg.append("path").attr("class", "curve").attr("d", path(line.values));
  const middle = top + 0.5 * size.strip;
  svg_text(svg, 0, middle - 4, "start", line.name).attr("class", "name");
  svg_text(svg, left - 8, y(line.values[0]) + 5, "end", figure(line.values[0], line.unit));
  svg_text(svg, right + 8, y(last_of(line.values)) + 5, "start",
    figure(last_of(line.values), line.unit));
}

// plot as above with y_words and y_figure, each line with its own x: all on one scale, named at the
// right, moved apart where they end close together.
function curves(plot) {
  if (plot.lines.length === 0) return null;
  const size = { width: 640, height: 320, left: 74, right: 110, top: 14, foot: 44 };
  const svg = named_svg(plot, size, strips_in_words(plot));
  const x = d3.scaleLinear().domain(d3.extent(plot.lines.flatMap((line) => d3.extent(line.x))))
    .range([size.left, size.width - size.right]);
  const y = d3.scaleLinear().domain(d3.extent(plot.lines.flatMap((line) => d3.extent(line.values))))
    .nice(5).range([size.height - size.foot, size.top]);
  x_axis(svg, plot, size, x, x.ticks(5));
  for (const mark of y.ticks(5)) {
    svg_line(svg, "faint", size.left, y(mark), size.width - size.right, y(mark));
    svg_text(svg, size.left - 6, y(mark) + 4, "end", plot.y_figure(mark));
  }
  const ends = spread_ends(plot.lines.map((line) => ({ line, y: y(last_of(line.values)) })), 16,
    size.top + 6, size.height - size.foot);
  ends.forEach((end, index) => draw_curve(svg, end, index, x, y, size));
  return make("figure", {}, svg.node(), make("figcaption", {}, plot.heading));
}

const dashes = ["", "7 4", "2 3", "12 4 2 4", "5 2", "1 5"];

function draw_curve(svg, end, index, x, y, size) {
  const line = end.line;
  const path = d3.line().x((_, k) => x(line.x[k])).y((value) => y(value));
  svg.append("path").attr("class", "curve").attr("d", path(line.values))
    .attr("stroke-dasharray", dashes[index % dashes.length])
    .attr("stroke-width", index < dashes.length ? 1.8 : 1);
  const right = size.width - size.right;
  svg_line(svg, "leader", right, end.y, right + 12, end.at);
  svg_text(svg, right + 16, end.at + 4, "start", line.name);
}

// Labels at their heights, moved apart by at least `gap`, in the order of the heights.
function spread_ends(ends, gap, top, bottom) {
  const sorted = ends.slice().sort((one, other) => one.y - other.y);
  let above = -Infinity;
  for (const end of sorted) {
    end.at = Math.max(end.y, above + gap, top);
    above = end.at;
  }
  let below = bottom + gap;
  for (const end of sorted.slice().reverse()) {
    end.at = Math.min(end.at, below - gap);
    below = end.at;
  }
  return sorted;
}
