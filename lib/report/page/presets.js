// Where each trimmer belongs before the amplifier is switched on.

function presets_section(channels) {
  return section("presets", "Set the trimmers, power off",
    each_channel(channels, (channel) => presets_of(channel)));
}

function presets_of(channel) {
  const words = channel.words;
  if (words.no_preset) return paragraphs(["No preset. " + words.no_preset]);
  if (!words.trimmers || words.trimmers.length === 0) return null;
  return words.trimmers.map((one) => trimmer_block(channel, one))
    .concat(paragraphs([order_line(words),
      "Power off means the plug out, and the reservoirs discharged and measured."]));
}

function trimmer_block(channel, words) {
  const answer = channel.preset.adjustments.find((one) => one.trimmer === words.trimmer);
  const part = channel.drawing.parts.find((one) => one.name === words.trimmer);
  return make("article", { class: "trimmer" },
    make("p", { class: "heading" }, said(words.heading)),
    make("p", { class: "safe" }, make("strong", {}, said(words.safe))),
    travel_figure(part, answer),
    paragraphs(words.sentences),
    make("p", { class: "lifted" }, make("strong", {}, said(words.lifted))),
    make("p", { class: "writing" },
      make("label", {}, "As found: ", blank(words.trimmer + " as found, in ohms")),
      " ", make("label", {}, "Set to: ", blank(words.trimmer + " as set, in ohms"))));
}

function order_line(words) {
  const names = words.trimmers.map((one) => one.trimmer);
  if (names.length < 2) return "";
  const end = words.goes_round_twice ? "; they disturb each other, so go round twice."
    : names.length === 2 ? "; then look at both once more."
      : "; then look at all of them once more.";
  return "Order: " + names.join(", then ") + end;
}

// The track from its first-named end: where to begin, where it will probably finish.
function travel_figure(part, answer) {
  const width = 640;
  const x = d3.scaleLinear().domain([0, 1]).range([24, width - 24]);
  const low = answer.position_low === null ? answer.position : answer.position_low;
  const high = answer.position_high === null ? answer.position : answer.position_high;
  const place = part.is_variable_resistor ? ohms(answer.position * part.track_ohm)
    : percent(answer.position);
  const words = `Track of ${part.name}: begins at ${part.end_a}, ends at ${part.end_b}; expected ` +
    `place ${place}.`;
  const svg = d3.create("svg").attr("viewBox", `0 0 ${width} 86`).attr("class", "travel")
    .attr("role", "img").attr("aria-label", words);
  svg.append("rect").attr("class", "hatched").attr("x", x(low)).attr("y", 34)
    .attr("width", Math.max(2, x(high) - x(low))).attr("height", 22);
  svg.append("rect").attr("class", "track").attr("x", x(0)).attr("y", 34)
    .attr("width", x(1) - x(0)).attr("height", 22);
  svg.append("line").attr("class", "place").attr("x1", x(answer.position))
    .attr("x2", x(answer.position)).attr("y1", 26).attr("y2", 64);
  const text = (at, y, anchor, words_there) => svg.append("text").attr("x", at).attr("y", y)
    .attr("text-anchor", anchor).text(words_there);
  text(x(0), 80, "start", part.end_a);
  text(x(1), 80, "end", part.end_b);
  const side = answer.position < 0.2 ? "start" : answer.position > 0.8 ? "end" : "middle";
  text(x(answer.position), 18, side, "expect " + place);
  if (answer.safe_end) {
    const end = answer.safe_end === "a" ? 0 : 1;
    const is_apart = Math.abs(answer.position - end) > 0.3;
    if (is_apart) text(x(end), 28, end === 0 ? "start" : "end", "begin here").attr("class", "begin");
  }
  return svg.node();
}
