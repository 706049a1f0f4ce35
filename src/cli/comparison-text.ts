import { scalar } from "../build/draft/yaml-text.js";
import type { Comparison, Difference, PlaceInFile, RunOfFile } from "../hearing/compare.js";
import { plainWords } from "../hearing/plain-words.js";
import { en } from "../wording/en.js";
import { counted } from "./counted.js";

const { clock } = en.time;

/** What came of holding a recording against a file, in plain lines. */
export function comparisonText(comparison: Comparison, length: number, title: string): string {
  const { phrases, recognised, runs, chapters, differences } = comparison;
  const known = `${recognised} of ${counted(phrases, "phrase")} of ${plainWords(title)} recognised, in ${counted(runs.length, "run")}.\n`;
  if (recognised === 0)
    return `${known}The cues that are called are none of the file's words: put the words that you call into \`do\`, or at \`say\`.\n`;
  const first = chapters[0]?.at ?? 0;
  return [
    known,
    "\nWhere each section is taught, to paste into the file:\n",
    `video:\n  length: ${clock(Math.ceil(length))}\n  chapters:\n`,
    Math.floor(first) > 0 ? "    - 0:00 Beginning\n" : "",
    ...chapters.map(({ at, section }) => `    - ${scalar(`${clock(Math.floor(at))} ${section}`)}\n`),
    "\nRuns:\n",
    ...runs.map(runText),
    "\nSaid otherwise than the file has it:\n",
    ...(differences.length === 0 ? ["  nothing that was heard\n"] : differences.map(differenceText)),
  ].join("");
}

function runText({ start, end, countsPerMinute, phrases }: RunOfFile): string {
  const tempo = countsPerMinute === undefined ? "" : `, about ${Math.round(countsPerMinute)} counts a minute`;
  return `  ${clock(start)}-${clock(end)}  ${phrases.length === 0 ? "nothing that the file has" : placesText(phrases)}${tempo}\n`;
}

/** "Harbour wall 1-2, Tag 1": phrases in a row as one. */
function placesText(places: readonly PlaceInFile[]): string {
  const rows: { section: string; first: number; last: number }[] = [];
  for (const { section, number } of places) {
    const row = rows.at(-1);
    if (row?.section === section && number === row.last + 1) row.last = number;
    else rows.push({ section, first: number, last: number });
  }
  return rows.map(({ section, first, last }) => `${section} ${first === last ? first : `${first}-${last}`}`).join(", ");
}

function differenceText({ kind, place, file, heard, runs, times }: Difference): string {
  const where = `${place.section}, phrase ${place.number}`;
  const said = `“${plainWords(heard.text, 80)}”`;
  const how = `${runs === undefined ? "" : ` in ${runs.have} of ${counted(runs.of, "run")}`}${timesText(times)}`;
  const written = file === undefined ? "nothing there" : `“${plainWords(file.cue, 80)}” on ${file.on}`;
  const what = {
    count: `the file has ${written}; ${said} was heard on ${heard.on}${how}`,
    cue: `the file has ${written}; ${said}, which is none of its words, was heard on ${heard.on}${how}`,
    side: `the file has ${written}; you said ${said}${how}`,
  }[kind];
  return `  ${where}: ${what}\n`;
}

function timesText(times: readonly number[]): string {
  const all = [...new Set(times.map((at) => clock(at)))];
  const shown = all.slice(0, 4);
  return all.length === 0 ? "" : `, at ${shown.join(", ")}${all.length > 4 ? " and later" : ""}`;
}
