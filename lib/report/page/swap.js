// The stage with a substitute in it, beside the stage as it is.

function swap_section(channels) {
  return section("swap", "With the substitute",
    each_channel(channels, (channel) => swap_of(channel)));
}

function swap_of(channel) {
  if (channel.words.no_swap) return paragraphs([channel.words.no_swap]);
  const swap = channel.swap;
  if (!swap) return null;
  const changed = swap.swaps.map((one) => `${one.part}: ${one.to} in the place of ${one.from}`);
  return [
    make("p", {}, changed.join("; ") + ". Everything else as it is."),
    make("p", { class: "verdict" }, make("strong", {}, swap.verdict.toUpperCase() + ".")),
    make("ul", {}, swap.reasons.map((reason) => make("li", {}, said(reason)))),
    swap_table(swap),
    swap_places(swap),
  ];
}

function swap_table(swap) {
  const columns = [{ head: "reading" }, { head: "as it is" }, { head: "trimmers untouched" }];
  const after = new Map((swap.after || []).map((reading) => [reading.name, reading]));
  const rows = (swap.before || []).map((reading) => {
    const other = after.get(reading.name);
    return [reading.name,
      figure_and_band(reading.value, reading.low, reading.high, reading.unit),
      other ? figure_and_band(other.value, other.low, other.high, other.unit) : "no rest"];
  });
  return table("Readings before and after", columns, rows, { class: "plain" });
}

function swap_places(swap) {
  const columns = [{ head: "trimmer" }, { head: "place now" }, { head: "place with it" }];
  const after = new Map(swap.preset_after.map((one) => [one.trimmer, one]));
  const place = (one) => (one ? `${percent(one.position)}, ${ohms(one.resistance_a_ohm)} from its ` +
    "first-named end" : "no place");
  const rows = swap.preset_before.map((one) => [one.trimmer, place(one), place(after.get(one.trimmer))]);
  return table("Where the trimmers belong", columns, rows, { class: "plain" });
}
