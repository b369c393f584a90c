// Tables that read aloud well, and fold to a block a row where the paper is narrow.

// columns: [{head, class}], the first one names the row; rows: [[cell, ...]], a cell being text, a
// node, or a list of both. `wide` keeps the columns on narrow paper too.
function table(caption, columns, rows, options) {
  if (rows.length === 0) return null;
  const kind = (options && options.class) || "";
  return make("table", { class: kind, role: "table" },
    make("caption", {}, caption),
    make("thead", { role: "rowgroup" }, make("tr", { role: "row" }, columns.map((column) =>
      make("th", { scope: "col", role: "columnheader", class: column.class }, column.head)))),
    make("tbody", { role: "rowgroup" }, rows.map((row) => table_row(columns, row))));
}

function table_row(columns, row) {
  return make("tr", { role: "row" }, row.map((cell, index) => {
    const column = columns[index];
    if (index === 0) return make("th", { scope: "row", role: "rowheader", class: column.class }, cell);
    return make("td", { role: "cell", class: column.class, "data-head": column.head }, cell);
  }));
}

// A box to tick, on the screen and on paper.
function tick(words) {
  return make("input", { type: "checkbox", "aria-label": words });
}

// Room for a reading to be written, on the screen and on paper.
function blank(words) {
  return make("input", { class: "blank", type: "text", inputmode: "text", "aria-label": words,
    autocomplete: "off" });
}
