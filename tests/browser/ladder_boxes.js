// What stands where in every ladder of the page: boxes of ink of the labels, and the lines and bars
// that must not touch them. Called with nothing; returns a list, one entry a picture.
const ink = document.createElement("canvas").getContext("2d");

function box_of_label(text) {
  const style = getComputedStyle(text);
  ink.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
  const measured = ink.measureText(text.textContent);
  const place = text.getBBox();
  const baseline = Number(text.getAttribute("y"));
  return { words: text.textContent, x0: place.x, x1: place.x + place.width,
    y0: baseline - measured.actualBoundingBoxAscent, y1: baseline + measured.actualBoundingBoxDescent };
}

function box_of_bar(shape) {
  const place = shape.getBBox();
  return { words: shape.getAttribute("class") + " of " +
      (shape.parentNode.getAttribute("data-part") || shape.parentNode.getAttribute("data-node") || "ruler"),
    x0: place.x, x1: place.x + place.width, y0: place.y, y1: place.y + place.height };
}

return Array.from(document.querySelectorAll("svg.ladder")).map((svg) => ({
  labels: Array.from(svg.querySelectorAll("text")).map(box_of_label),
  bars: Array.from(svg.querySelectorAll("rect, circle, path.wiper, line")).map(box_of_bar),
  fans: Array.from(svg.querySelectorAll("path.fan")).map(box_of_bar),
  rows: Array.from(svg.querySelectorAll("g.row")).map((row) => ({
    node: row.getAttribute("data-node"), volts: Number(row.getAttribute("data-volts")),
    y: Number(row.querySelector(".wire").getAttribute("y1")),
    true_y: Number(/^M[^,]+,([-0-9.e]+)/.exec(row.querySelector(".fan").getAttribute("d"))[1]),
  })),
  width: svg.viewBox.baseVal.width, height: svg.viewBox.baseVal.height,
}));
