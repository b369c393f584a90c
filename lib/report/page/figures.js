// Figures as a bench meter shows them: the rules of report/figures.cpp, for what the page works out
// itself as the sliders move.

const minus = "\u2212";

// How a value of that size is written: its factor, decimals and unit.
function shown_as(value, unit) {
  const size = Math.abs(value);
  if (unit === "V") {
    if (size < 0.9995) return [1e3, size < 0.09995 ? 1 : 0, "mV"];
    if (size < 9.995) return [1, 2, "V"];
    return [1, size < 99.95 ? 1 : 0, "V"];
  }
  if (unit === "A") {
    if (size < 0.5e-6) return [0, 1, "mA"];
    if (size < 0.9995e-3) return [1e6, size < 9.95e-6 ? 1 : 0, "uA"];
    if (size < 0.9995) return [1e3, size < 9.95e-3 ? 1 : 0, "mA"];
    return [1, size < 9.995 ? 2 : 1, "A"];
  }
  if (unit === "W") {
    if (size < 0.9995) return [1e3, 0, "mW"];
    return [1, size < 9.95 ? 1 : 0, "W"];
  }
  return [1, 0, unit];
}

// Without a minus before a figure that rounds to zero.
function fixed(value, decimals) {
  const text = Math.abs(value).toFixed(Math.max(decimals, 0));
  return (value < 0 && Number(text) !== 0 ? minus : "") + text;
}

function figure(value, unit) {
  if (value === null || value === undefined) return "\u2013";
  const [factor, decimals, symbol] = shown_as(value, unit);
  return fixed(value * factor, decimals) + "\u00a0" + symbol;
}

// "3 to 15" beside a figure of `value`; empty where both ends come out alike.
function band(low, high, value, unit) {
  if (low === null || low === undefined || high === null || high === undefined) return "";
  const [factor, decimals] = shown_as(value, unit);
  const half = 0.5 * (high - low) * factor;
  if (!(half > 0)) return "";
  const kept = Math.min(decimals, -Math.floor(Math.log10(half / 5)));
  const step = Math.pow(10, -kept);
  const end = (at) => fixed(Math.round((at * factor) / step) * step, kept);
  return end(low) === end(high) ? "" : end(low) + " to " + end(high);
}

// "22.0 mV" and its band in brackets, as nodes of a cell.
function figure_and_band(value, low, high, unit) {
  const brackets = band(low, high, value, unit);
  return [make("span", { class: "figure" }, figure(value, unit)),
    brackets ? make("span", { class: "band" }, " (" + brackets + ")") : null];
}

// Ohms as IEC 60062 writes them, to three figures.
function ohms(value) {
  if (value === null || value === undefined) return "\u2013";
  const steps = [[1e6, "M"], [1e3, "k"], [1, "R"]];
  const rounded = Number(value.toPrecision(3));
  const [size, letter] = steps.find(([size]) => rounded >= size) || steps[2];
  const scaled = rounded / size;
  const decimals = rounded === 0 ? 0 : Math.max(0, 2 - Math.floor(Math.log10(scaled)));
  const [whole, rest] = scaled.toFixed(Math.min(decimals, 2)).split(".");
  return whole + letter + (rest || "").replace(/0+$/, "");
}

function percent(fraction) {
  return fixed(100 * fraction, 0) + "\u00a0%";
}

// "40 s", "5 min", "2 h".
function duration(seconds) {
  if (seconds < 119.5) return fixed(seconds, 0) + "\u00a0s";
  if (seconds < 7199.5) return fixed(seconds / 60, seconds < 599.5 ? 1 : 0).replace(/\.0$/, "") + "\u00a0min";
  return fixed(seconds / 3600, 1).replace(/\.0$/, "") + "\u00a0h";
}
