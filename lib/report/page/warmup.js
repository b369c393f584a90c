// How the readings move from switch-on until nothing moves any more.

const looked_at_s = [0, 60, 300, 900, 1800, 3600];

function warmup_section(channels) {
  return section("warmup", "While it warms",
    each_channel(channels, (channel) => warmup_of(channel)));
}

function warmup_of(channel) {
  const warmup = channel.warmup;
  if (!warmup) return null;
  if (warmup.runaway) return paragraphs([warmup.runaway.advice]);
  if (warmup.times_s.length < 2) return paragraphs(["Nothing in this stage can heat."]);
  const lines = warming_lines(channel);
  return [
    paragraphs(channel.words.warming || []),
    strips({
      id: "warmup", heading: "Readings from switch-on to rest, each on a scale of its own",
      x: warmup.times_s, x_words: "time from switch-on", x_figure: duration, lines,
    }),
    warmup_table(channel, lines),
  ];
}

// Readings that move, each with its own scale, and the heat sinks.
function warming_lines(channel) {
  const warmup = channel.warmup;
  const units = new Map(channel.drawing.readings.map((reading) => [reading.name, reading.unit]));
  const of = (values, unit) => ([name, list]) => ({ name, unit: unit || units.get(name), values: list });
  const readings = Object.entries(warmup.readings).map(of(warmup));
  const sinks = Object.entries(warmup.heatsinks_C).map(of(warmup, "C"));
  const known = new Set();
  return readings.concat(sinks).filter((line) => {
    const [low, high] = d3.extent(line.values);
    const key = line.values.map((value) => value.toPrecision(6)).join();
    const moves = high - low > 0.002 * Math.max(Math.abs(low), Math.abs(high)) && !known.has(key);
    known.add(key);
    return moves;
  });
}

function warmup_table(channel, lines) {
  const warmup = channel.warmup;
  const times = looked_at_s.filter((at) => at <= warmup.times_s[warmup.times_s.length - 1]);
  const columns = [{ head: "after" }].concat(lines.map((line) => ({ head: line.name })));
  const rows = times.map((at) => [at === 0 ? "just switched on" : duration(at)].concat(
    lines.map((line) => figure(value_at(warmup.times_s, line.values, at), line.unit))));
  rows.push(["at rest"].concat(lines.map((line) =>
    figure(line.values[line.values.length - 1], line.unit))));
  return table("While it warms", columns, rows, { class: "plain" });
}

// Straight between the moments that were worked out.
function value_at(times, values, at) {
  const index = Math.min(Math.max(d3.bisectLeft(times, at), 1), times.length - 1);
  const share = (at - times[index - 1]) / (times[index] - times[index - 1] || 1);
  return values[index - 1] + Math.min(share, 1) * (values[index] - values[index - 1]);
}
