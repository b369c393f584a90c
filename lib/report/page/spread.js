// How much of a reading is the parts' tolerance, and whose.

function spread_section(channels) {
  return section("spread", "How much is tolerance, and whose",
    each_channel(channels, (channel) => spread_of(channel)));
}

function spread_of(channel) {
  const spread = channel.spread;
  if (!spread || spread.readings.length === 0) return null;
  const has_set = spread.readings.some((reading) => reading.when_set);
  const columns = [{ head: "reading" }, { head: "19 stages in 20, trimmers as in the file" }];
  if (has_set) columns.push({ head: "19 in 20, each one adjusted" });
  columns.push({ head: "most of it comes from" });
  const rows = spread.readings.map((reading) => {
    const cells = [reading.name, middle_95(reading, reading)];
    if (has_set) cells.push(reading.when_set ? middle_95(reading.when_set, reading) : "\u2013");
    return cells.concat([shares_in_words(reading.shares)]);
  });
  return [table("Spread of the readings", columns, rows, { class: "plain" }),
    paragraphs([`${spread.done} stages of this drawing were drawn by lot, each with parts of its own.` +
      (spread.not_set ? " " + spread.not_set : "")])];
}

function middle_95(values, reading) {
  if (values.p2_5 === null || values.p2_5 === undefined) return "no stage came to rest";
  return [figure(values.p2_5, reading.unit), " to ", figure(values.p97_5, reading.unit)];
}

function shares_in_words(shares) {
  const large = shares.filter((one) => one.share >= 0.05).slice(0, 3);
  return large.map((one) => `${one.part} ${percent(one.share)}`).join(", ") || "\u2013";
}
