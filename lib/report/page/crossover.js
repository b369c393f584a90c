// How even the gain is through the crossover region, and at which standing current it is evenest.

function crossover_section(channels) {
  return section("crossover", "Crossover",
    each_channel(channels, (channel) => (channel.crossover ? crossover_of(channel.crossover) : null)));
}

function crossover_of(crossover) {
  if (!crossover.idle || crossover.idle.length === 0) return paragraphs([crossover.refused]);
  const unit = (crossover.adjusted && crossover.adjusted.unit) || "V";
  const columns = [{ head: "standing reading" }, { head: "ripple of the gain" },
    { head: "from the rails" }, { head: "" }];
  const rows = crossover.idle.map((idle) => [figure(idle.reading, unit),
    fixed(idle.gain_ripple_percent, 1) + "\u00a0%", figure(idle.total_power_W, "W"),
    [idle.marks || ""].flat().join("; ")]);
  const lines = some_curves(crossover.curves || []).map((curve) => ({
    name: figure(curve.reading, unit), unit: "", values: curve.incremental_gain, x: curve.output_V }));
  return [
    paragraphs([crossover.aim && crossover.aim.text]),
    curves({ id: "crossover", heading: "Incremental gain against volts at the output, load connected",
      x_words: "volts at the output", x_figure: (x) => figure(x, "V"), y_figure: (y) => fixed(y, 3),
      lines }),
    table("Flatness", columns, rows, { class: "plain" }),
  ];
}

// No more than can be told apart.
function some_curves(all) {
  const most = 5;
  const step = Math.max(1, Math.ceil(all.length / most));
  return all.filter((_, index) => index % step === 0);
}
