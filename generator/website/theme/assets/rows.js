// A table that is too wide for a phone gets its column names beside its cells, so that
// the style sheet can stack them. Without this script the table only wraps its words.
const WIDE = 4; // columns; our choice

for (const table of document.querySelectorAll(".rows table")) {
  const names = [...table.querySelectorAll("thead th")].map((cell) => cell.textContent);
  if (names.length < WIDE) continue;
  table.dataset.stacked = "";
  // Parts that are laid out as blocks lose their meaning unless it is written out.
  table.setAttribute("role", "table");
  for (const row of table.querySelectorAll("tbody tr")) {
    row.setAttribute("role", "row");
    [...row.cells].forEach((cell, column) => {
      cell.setAttribute("role", "cell");
      cell.dataset.label = names[column];
      const value = document.createElement("div");
      value.append(...cell.childNodes);
      cell.append(value);
    });
  }
}
