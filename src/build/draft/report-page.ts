import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { plainWords } from "../../hearing/plain-words.js";
import type { Draft } from "../../hearing/types.js";
import { reportScript, templatesDir } from "../../publishing/home.js";
import { type Html, html, raw } from "../../publishing/site/html.js";
import type { Wording } from "../../wording/wording.js";
import { mostRemarks, toldAlone } from "./remarks.js";
import { playButtons, saidItem } from "./report-parts.js";
import { phraseTable } from "./report-table.js";
import type { Question, Sheet, SheetSection } from "./sheet.js";

/**
 * The page that says how a draft was heard: its questions, and each phrase as every run called it. It is one file that asks nothing
 * of any network, and plays the film that its reader chooses on her own machine.
 *
 * @throws Error where the package was not compiled
 */
export function reportPage(draft: Draft, sheet: Sheet, title: string, wording: Wording): string {
  const words = wording.draft.report;
  const { sections, questions } = sheet;
  const phrases = sections.reduce((sum, section) => sum + section.phrases.length, 0);
  const heading = words.title(plainWords(title));
  const told = draft.told.slice(0, mostRemarks);
  const body = html`<main>
<header>
<h1>${heading}</h1>
<p>${words.summary(draft.runs.length, phrases, questions.length)}</p>
${draft.distrust !== undefined && html`<p>${wording.draft.distrust[draft.distrust]}</p>`}
</header>
<section class="film" aria-labelledby="film-head">
<h2 id="film-head">${words.film}</h2>
<label for="film">${words.choose}</label>
<input id="film" type="file" accept="video/*,audio/*">
<video controls playsinline hidden></video>
</section>
<section aria-labelledby="questions">
<h2 id="questions">${words.questions}</h2>
${questionList(questions, wording)}
</section>
<section aria-labelledby="counts">
<h2 id="counts">${words.counts}</h2>
<p class="quiet">${words.countsWhy}</p>
${sections.map((section) => sectionPart(section, wording))}
</section>
${
  told.length > 0 &&
  html`<section aria-labelledby="told">
<h2 id="told">${words.toldElsewhere}</h2>
<ul>${told.map((one) => saidItem(toldAlone(one, wording), [one.said.at], wording))}</ul>
</section>`
}
</main>`;
  return frame(heading, wording.language, body);
}

function questionList(questions: readonly Question[], wording: Wording): Html {
  const words = wording.draft.report;
  if (questions.length === 0) return html`<p>${words.noQuestions}</p>`;
  return html`<p class="quiet">${words.questionsWhy}</p>
<ol>${questions.map(
    ({ where, text, times }) =>
      html`<li><span class="where">${where}</span><br>${text} ${playButtons(times, wording)}</li>
`,
  )}</ol>`;
}

function sectionPart({ name, taughtAt, phrases }: SheetSection, wording: Wording): Html {
  return html`<h3>${name}<span class="taught">${wording.draft.report.taught} ${playButtons([taughtAt], wording)}</span></h3>
${phrases.map((phrase) => phraseTable(name, phrase, wording))}`;
}

/* Its own style and script and nothing else may run or load, whatever stands in the texts. */
function frame(title: string, language: string, body: Html): string {
  const style = ["style/00-ground.css", "report/report.css"]
    .map((path) => readFileSync(join(templatesDir, path), "utf8"))
    .join("\n");
  const script = readFileSync(reportScript, "utf8");
  const policy = `default-src 'none'; script-src '${digest(script)}'; style-src '${digest(style)}'; media-src blob:; img-src data:; base-uri 'none'; form-action 'none'`;
  return html`<!doctype html>
<html lang="${language}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${raw(policy)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<link rel="icon" href="data:,">
<title>${title}</title>
<style>${raw(style)}</style>
</head>
<body>
${body}
<script>${raw(script)}</script>
</body>
</html>
`.html;
}

function digest(text: string): string {
  return `sha256-${createHash("sha256").update(text).digest("base64")}`;
}
