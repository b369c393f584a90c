// The voltage ladder and what turns it: which state is shown, at which travels.

function ladder_section(channels) {
  return section("ladder", "The voltage ladder",
    make("p", {}, "Height is voltage. Every point of the circuit has a line of its own, the highest " +
      "on top; the ruler on the left is the true scale, and a thin leader goes from each point’s " +
      "true height to its line, where there is room to read. A part stands between the points it " +
      "joins: a dot is a joint, a line that passes behind a part does not touch it. Amperes run the " +
      "way their arrow points."),
    each_channel(channels, (channel) => ladder_of(channel)));
}

// What moves: travels by trimmer, the state shown, and who wants to know.
function new_settings(channel) {
  return {
    travels: { ...channel.sliders.begins_at },
    state: channel.readings.cold_readings ? "warm" : "cold",
    watchers: [],
    change() {
      for (const watcher of this.watchers) watcher();
    },
  };
}

// All values at the present travels: {nodes, currents, readings}, or {why_not}.
function values_at_travels(channel, settings, state) {
  const grid = channel.sliders.grids.find((one) => one === settings.moving) || channel.sliders.grids[0];
  const points = state === "warm" ? grid.warm : grid.cold;
  const values = drawn_at(grid.axes, points, grid.trimmers.map((name) => settings.travels[name]));
  if (!Array.isArray(values)) return { why_not: values };
  const nodes = channel.drawing.nodes.length;
  const parts = channel.drawing.parts.length;
  return { nodes: values.slice(0, nodes), currents: values.slice(nodes, nodes + parts),
    readings: values.slice(nodes + parts) };
}

function ladder_of(channel) {
  const largest = largest_currents(channel);
  const circuit = ladder_circuit(channel.drawing, (index) => largest[index] > 1e-12);
  const settings = new_settings(channel);
  const picture = make("div", { class: "flights" });
  const listing = make("details", { class: "listing" }, make("summary", {}, "The same as a list"));
  const draw = () => draw_ladder(channel, circuit, settings, picture, listing);
  settings.watchers.push(draw);
  on_new_width(picture, draw);
  on_paper.addEventListener("change", draw);
  return [
    sliders_of(channel, settings),
    picture,
    circuit.left_out.length === 0 ? null : make("p", { class: "small" },
      "Not in the picture, as no direct current flows in them: " + circuit.left_out.join(", ") + "."),
    listing,
  ];
}

// Paper has a width of its own: that of the text of an A4 page.
const on_paper = window.matchMedia("print");
const paper_width = 690;

function on_new_width(element, draw) {
  let width = 0;
  new ResizeObserver(() => {
    if (Math.abs(element.clientWidth - width) < 2 || element.clientWidth === 0) return;
    width = element.clientWidth;
    draw();
  }).observe(element);
}

// `widest`: the longest name of a point with its volts. In steps, so that the picture stands still
// while a slider moves a digit.
function ladder_sizes(width, widest) {
  const is_narrow = width < 520;
  const step = 8;
  return { width, line: 13, bar: 9, letters: 15, between: 7, ruler: 34, fan: is_narrow ? 18 : 46,
    labels: Math.max(is_narrow ? 72 : 104, step * Math.ceil((widest + 6) / step)) };
}

function draw_ladder(channel, circuit, settings, picture, listing) {
  const values = values_at_travels(channel, settings, settings.state);
  picture.replaceChildren();
  listing.replaceChildren(listing.firstChild);
  if (values.why_not) {
    picture.append(make("p", { class: "why-not" }, make("strong", {}, why_not_in_words(values.why_not))));
    return;
  }
  const words = ladder_words(channel, settings, values);
  const widest = d3.max(circuit.nodes, (node) => text_width(words.node_name(node), "600") +
    text_width(" " + words.volts(values.nodes[node])));
  const sizes = ladder_sizes(on_paper.matches ? paper_width : picture.clientWidth || paper_width, widest);
  const flights = ladder_layout(circuit, values.nodes, words.lines_of, sizes, text_width);
  const scale = d3.extent(circuit.nodes, (node) => values.nodes[node]).reverse();
  flights.forEach((flight, index) => {
    for (const part of flight.parts) {
      part.is_off = Math.abs(values.currents[part.index]) < 0.5e-6;
      if (part.part.kind === "trimmer") part.travel = settings.travels[part.part.name];
    }
    const title = `Voltage ladder of ${channel.drawing.title}` +
      (flights.length > 1 ? `, part ${index + 1} of ${flights.length}` : "");
    picture.append(draw_flight(flight, words, scale, sizes, title));
  });
  picture.append(make("p", { class: "small" }, shown_in_words(channel, settings)));
  list_ladder(channel, circuit, values, listing);
}

// "Warmed through. VR601 66.5 % of the way from e1; VR602 101R of 200R, 50.3 %."
function shown_in_words(channel, settings) {
  const places = channel.drawing.parts.filter((part) => part.name in settings.travels)
    .map((part) => part.name + " " + place_in_words(part, settings.travels[part.name]));
  const state = settings.state === "warm" ? "Warmed through." : "Just switched on.";
  return state + (places.length > 0 ? " " + places.join("; ") + "." : "");
}

function why_not_in_words(why_not) {
  if (why_not === "finds no rest") {
    return "DO NOT GO THERE: here or close by the stage runs away as it warms, or a junction passes " +
      "its maximum.";
  }
  return "No steady state is found here or close by.";
}

// What is written into the picture.
function ladder_words(channel, settings, values) {
  const drawing = channel.drawing;
  const rails = new Set(drawing.rails.map((rail) => rail.node));
  return {
    node_name: (node) => drawing.nodes[node],
    volts: (volts) => node_volts(volts),
    kind_of_node: (node) => {
      const name = drawing.nodes[node];
      return node === 0 || rails.has(name) ? "firm" : name === drawing.output ? "output" : "";
    },
    lines_of: (one) => {
      const lines = [one.part.name];
      if (one.part.kind === "trimmer") lines.push(travel_in_words(one.part, settings.travels[one.part.name]));
      return lines.concat([current_with_arrow(one, values)]);
    },
  };
}

// To a tenth of a millivolt under 0.1 V, to 10 mV above 1 V.
function node_volts(volts) {
  const size = Math.abs(volts);
  if (size < 0.9995) return fixed(volts * 1e3, size < 0.09995 ? 1 : 0) + "\u00a0mV";
  return fixed(volts, 2) + "\u00a0V";
}

function travel_in_words(part, travel) {
  return part.is_variable_resistor ? ohms(travel * part.track_ohm) : percent(travel);
}

// The arrow points the way the current flows, from the higher of the two points or to it.
function current_with_arrow(one, values) {
  const current = values.currents[one.index];
  if (Math.abs(current) < 0.5e-6) return "0\u00a0mA";
  const first = one.leads[0].node;
  const last = one.leads[one.leads.length - 1].node;
  const from_first = values.nodes[first] >= values.nodes[last];
  const is_pnp = is_transistor(one.part) && /^p/.test(one.part.kind);
  const is_down = one.part.kind === "trimmer" || (current > 0) === from_first ||
    (is_pnp && (current < 0) === !from_first);
  return figure(Math.abs(current), "A") + (is_down ? "\u2193" : "\u2191");
}

// The ladder in words, for who cannot see it: the points from the highest down, then the parts.
function list_ladder(channel, circuit, values, listing) {
  const nodes = circuit.nodes.slice().sort((one, other) => values.nodes[other] - values.nodes[one]);
  const meets = (node) => circuit.parts.filter((one) => one.leads.some((lead) => lead.node === node))
    .map((one) => one.part.name).join(", ");
  listing.append(
    table("Points, the highest first",
      [{ head: "point" }, { head: "volts to gnd" }, { head: "meets" }],
      nodes.map((node) => [channel.drawing.nodes[node], node_volts(values.nodes[node]), meets(node)]),
      { class: "plain" }),
    table("Currents", [{ head: "part" }, { head: "carries" }, { head: "where it goes" }],
      circuit.parts.map((one) => [one.part.name, figure(Math.abs(values.currents[one.index]), "A"),
        where_it_goes(one.part)]), { class: "plain" }));
}

const measured_widths = new Map();
let measuring = null;

function text_width(words, weight = "400") {
  const key = weight + words;
  if (!measured_widths.has(key)) {
    measuring = measuring || document.createElement("canvas").getContext("2d");
    measuring.font = weight + " 12px " + getComputedStyle(document.body).fontFamily;
    measured_widths.set(key, measuring.measureText(words).width);
  }
  return measured_widths.get(key);
}
