// The peer's handout: the same text and drawings in the same places and faces, as a page to print.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

const require = createRequire(import.meta.url);
const faces = [
  ["400-normal", 400, "normal"],
  ["700-normal", 700, "normal"],
  ["400-italic", 400, "italic"],
].map(([cut, weight, style]) => {
  const path = require.resolve(
    `@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-${cut}.woff2`,
  );
  return `@font-face{font-family:sheet;font-weight:${weight};font-style:${style};src:url(data:font/woff2;base64,${readFileSync(path, "base64")})}`;
});

const text = (value) => String(value).replace(/[&<>]/g, (sign) => ({ "&": "&amp;", "<": "&lt;", ">": "&gt;" })[sign]);
const each = (list, make) => list.map(make).join("");

export function sheetHtml(sheet) {
  const [size, head] = sheet.large ? [16, 30] : [9, 20];
  return `<!doctype html><html lang="en"><meta charset="utf-8"><title>${text(sheet.title)}</title><style>${faces.join("")}
@page{size:A4;margin:36pt 40pt 44pt;@bottom-left{content:"${text(sheet.credit)}";font:7pt sheet}@bottom-right{content:"page " counter(page) " of " counter(pages);font:7pt sheet}}
body{font:${size}pt/1.22 sheet;margin:0}h1{font-size:${head}pt;margin:0}h2{font-size:${size * 1.2}pt;margin:6pt 0 2pt;break-after:avoid}
table{border-collapse:collapse;width:100%;table-layout:fixed}td,th{border-top:.4pt solid #777;border-left:.4pt solid #ccc;padding:3pt;
vertical-align:top;text-align:left}.facts td{border:.5pt solid #999}small{font-size:7pt}tr,svg{break-inside:avoid}p{margin:0 0 3pt}
.code{float:right;width:64pt}.map{width:100%}.floor{width:50%}.notes{columns:${sheet.large ? 1 : 2};column-gap:22pt}.section{width:74pt}.track{width:40pt}
.own{break-before:page}.own p{border-bottom:.5pt solid #999;height:20pt;margin:0}
</style><div class="code">${sheet.code}</div><small>${text(sheet.studio)}</small><h1>${text(sheet.title)}</h1><p>${text(sheet.by)}</p>
<table class="facts"><tr>${each(sheet.facts, ([value, name]) => `<td><b>${text(value)}</b><br><small>${text(name)}</small></td>`)}</tr></table>
${each(sheet.lines, ([name, value]) => `<p><b>${text(name)}</b> ${text(value)}</p>`)}
${sheet.large ? "" : grid(sheet)}<div class="map">${sheet.map}</div>${sheet.large ? lists(sheet) : ""}
<div class="notes">${each(sheet.notes, ([heading, items]) => `<h2>${text(heading)}</h2>${each(items, (item) => `<p>${text(item)}</p>`)}`)}
<div class="floor">${sheet.floor}</div></div>
${sheet.large ? "" : `<div class="own"><h2>My notes</h2>${"<p></p>".repeat(24)}</div>`}`;
}

function grid({ sections, legend }) {
  return `<table><thead><tr><th class="section">section</th><th class="track">track</th>${each([1, 2, 3, 4, 5, 6, 7, 8], (n) => `<th>${n}</th>`)}</tr></thead>
${each(sections, gridRows)}</table><p><small>${text(legend)}</small></p>`;
}

function gridRows({ name, words, phrases }) {
  return each(
    phrases,
    ({ track, cells }, index) =>
      `<tr><td>${index === 0 ? `<b>${text(name)}</b><br>“${text(words)}”` : ""}</td><td>${track}</td>${each(cells, ({ on, width, text: cue }) => `<td colspan="${width}"><b>${text(on)}</b><br>${text(cue)}</td>`)}</tr>`,
  );
}

function lists({ sections }) {
  return each(
    sections,
    ({ name, words, phrases }) =>
      `<h2>${text(name)}</h2><p>“${text(words)}”</p>${each(phrases, ({ track, cells }) => `<p>${track}</p>${each(cells, ({ on, text: cue }) => `<p><b>${text(on)}</b> ${text(cue)}</p>`)}`)}`,
  );
}
