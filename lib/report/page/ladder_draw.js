// The ladder as a drawing: on the left the true scale of volts, from it a leader to each point's
// line, then the parts between the lines.

function draw_flight(flight, circuit_words, scale, sizes, title) {
  const width = sizes.ruler + sizes.fan + sizes.labels + flight.width;
  const svg = d3.create("svg").attr("class", "ladder").attr("role", "img")
    .attr("viewBox", `0 0 ${Math.ceil(width)} ${Math.ceil(flight.height)}`)
    .attr("width", Math.ceil(width)).attr("height", Math.ceil(flight.height));
  const ids = [fresh_id("ladder"), fresh_id("ladder")];
  svg.attr("aria-labelledby", ids[0]).attr("aria-describedby", ids[1]);
  svg.append("title").attr("id", ids[0]).text(title);
  svg.append("desc").attr("id", ids[1]).text("Every point of the circuit is a line at the height " +
    "of its volts, every part stands between its points. The table below says the same.");
  const true_y = d3.scaleLinear().domain(scale)
    .range([flight.rows[0].y, flight.rows[flight.rows.length - 1].y]);
  draw_ruler(svg, scale, true_y, sizes);
  draw_rows(svg, flight, true_y, circuit_words, sizes, width);
  draw_parts(svg, flight, sizes);
  return svg.node();
}

// The true scale: a straight ruler of volts.
function draw_ruler(svg, scale, true_y, sizes) {
  const x = sizes.ruler;
  svg_line(svg, "ruler", x, true_y(scale[0]), x, true_y(scale[1]));
  let free_from = -Infinity;
  for (const mark of true_y.ticks(6).sort((one, other) => other - one)) {
    svg_line(svg, "ruler", x - 4, true_y(mark), x, true_y(mark));
    if (true_y(mark) < free_from) continue;
    svg_text(svg, x - 6, true_y(mark) + 4, "end", fixed(mark, mark % 1 === 0 ? 0 : 1))
      .attr("class", "tick");
    free_from = true_y(mark) + sizes.line;
  }
}

function draw_rows(svg, flight, true_y, words, sizes, width) {
  const left = sizes.ruler + sizes.fan + sizes.labels;
  flight.rows.forEach((row, index) => {
    const legs = flight.parts.filter((part) => part.rows.includes(index)).map((part) => left + part.x);
    const reach = d3.extent(legs);
    const group = svg.append("g").attr("class", "row " + words.kind_of_node(row.node))
      .attr("data-node", words.node_name(row.node)).attr("data-volts", row.volts);
    group.append("path").attr("class", "fan").attr("d",
      `M${sizes.ruler},${true_y(row.volts)}L${sizes.ruler + sizes.fan - 3},${row.y}`);
    svg_line(group, "reach", left - 2, row.y, reach[0], row.y);
    svg_line(group, "wire", reach[0], row.y, reach[1], row.y);
    const label = svg_text(group, sizes.ruler + sizes.fan, row.y + 4, "start", "")
      .attr("class", "label");
    label.append("tspan").attr("class", "name").text(words.node_name(row.node));
    label.append("tspan").text(" " + words.volts(row.volts));
  });
}

function draw_parts(svg, flight, sizes) {
  const left = sizes.ruler + sizes.fan + sizes.labels;
  for (const part of flight.parts) {
    const x = left + part.x;
    const group = svg.append("g").attr("data-part", part.part.name)
      .attr("class", "part " + part.part.kind + (part.is_off ? " off" : ""));
    draw_body(group, part, x, flight.rows, sizes);
    draw_legs(group, part, x, flight.rows, sizes);
    part.lines.forEach((words, index) => {
      svg_text(group, x + 0.5 * sizes.bar + 3, part.line_at[index], "start", words)
        .attr("class", index === 0 ? "label name" : "label");
    });
  }
}

function draw_body(group, part, x, rows, sizes) {
  const top = rows[part.from].y;
  const bottom = rows[part.to].y;
  const half = 0.5 * (part.part.leads.length > 2 ? sizes.bar : 0.55 * sizes.bar);
  const tail = 4;
  group.append("rect").attr("class", "body").attr("x", x - half).attr("y", top + tail)
    .attr("width", 2 * half).attr("height", Math.max(1, bottom - top - 2 * tail));
  svg_line(group, "tail", x, top, x, top + tail);
  svg_line(group, "tail", x, bottom - tail, x, bottom);
  if (part.part.kind === "diode") {
    const cathode = part.leads.findIndex((lead) => lead.lead === "cathode");
    const y = rows[part.rows[cathode]].y + (part.rows[cathode] === part.to ? -tail : tail);
    svg_line(group, "cathode", x - 0.5 * sizes.bar, y, x + 0.5 * sizes.bar, y);
  }
  if (part.travel !== undefined) draw_travel(group, part, x, top, bottom, sizes);
}

// The wiper on its way: a notch in the track, as far from the first-named end as the trimmer is.
function draw_travel(group, part, x, top, bottom, sizes) {
  const a_is_on_top = part.rows[0] <= part.rows[part.rows.length - 1];
  const share = a_is_on_top ? part.travel : 1 - part.travel;
  const y = top + 5 + share * (bottom - top - 10);
  const half = 0.5 * sizes.bar;
  group.append("path").attr("class", "wiper")
    .attr("d", `M${x - half},${y - 4}L${x + half},${y}L${x - half},${y + 4}Z`);
}

// A joint on each of the part's lines, and beside it the letters of the legs that meet there.
function draw_legs(group, part, x, rows, sizes) {
  for (const row of new Set(part.rows)) {
    group.append("circle").attr("class", "joint").attr("cx", x).attr("cy", rows[row].y).attr("r", 2.6);
    const letters = part.leads.filter((_, k) => part.rows[k] === row)
      .map((lead) => leg_letter(part.part, lead.lead)).join("");
    if (letters === "") continue;
    const y = rows[row].y + (row === part.from ? 0.78 * sizes.line : -3);
    svg_text(group, x - 0.5 * sizes.bar - 2, y, "end", letters).attr("class", "leg");
  }
}
