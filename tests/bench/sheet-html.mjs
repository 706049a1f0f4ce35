// The peer's handout: the same text in the same places, as a page to print.
const text = (value) => String(value).replace(/[&<>]/g, (sign) => ({ "&": "&amp;", "<": "&lt;", ">": "&gt;" })[sign]);

export function sheetHtml(sheet) {
  return `<!doctype html><meta charset="utf-8"><title>${text(sheet.title)}</title><style>
@page{size:A4;margin:36pt 40pt 44pt}body{font:${9 * sheet.scale}pt/1.35 sans-serif;margin:0}h1{font-size:${20 * sheet.scale}pt;margin:0}
table{border-collapse:collapse;width:100%;table-layout:fixed}td,th{border-top:.4pt solid #777;border-left:.4pt solid #ccc;padding:3pt;
vertical-align:top;text-align:left}.facts td{border:.5pt solid #999}small{font-size:${7 * sheet.scale}pt}tr{break-inside:avoid}
.notes{columns:2;column-gap:22pt}h2{font-size:${11 * sheet.scale}pt;margin:6pt 0 2pt}p{margin:0 0 3pt}.section{width:74pt}.track{width:40pt}
</style><small>${text(sheet.studio)}</small><h1>${text(sheet.title)}</h1><p>${text(sheet.by)}</p>
<table class="facts"><tr>${sheet.facts.map(([value, name]) => `<td><b>${text(value)}</b><br><small>${text(name)}</small></td>`).join("")}</tr></table>
${sheet.lines.map(([name, value]) => `<p><b>${text(name)}</b> ${text(value)}</p>`).join("")}
<table><thead><tr><th class="section">section</th><th class="track">track</th>${[1, 2, 3, 4, 5, 6, 7, 8].map((n) => `<th>${n}</th>`).join("")}</tr></thead>
${sheet.sections.map(sectionRows).join("")}</table>
<div class="notes">${sheet.notes.map(([heading, items]) => `<h2>${text(heading)}</h2>${items.map((item) => `<p>${text(item)}</p>`).join("")}`).join("")}</div>
<p><small>${text(sheet.credit)}</small></p>`;
}

function sectionRows({ name, words, phrases }) {
  return phrases
    .map(
      ({ track, cells }, index) =>
        `<tr><td>${index === 0 ? `<b>${text(name)}</b><br>“${text(words)}”` : ""}</td><td>${track}</td>${cells
          .map(({ on, width, text: cue }) => `<td colspan="${width}"><small>${text(on)}</small><br>${text(cue)}</td>`)
          .join("")}</tr>`,
    )
    .join("");
}
