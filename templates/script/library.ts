import type { FilterFacts } from "../../src/publishing/site/library-view.js";
import { noticesWording } from "../../src/wording/notices.js";
import { putInAddress } from "./address.js";
import { linkToFiles } from "./folder.js";
import { keepForLater } from "./keep.js";
import { showComing } from "./show-coming.js";

/** What is asked for, by the name of its field. */
type Filters = Readonly<Record<string, string>>;

/** From and below, by the name of the choice. */
const ranges: Readonly<Record<string, readonly [number, number]>> = {
  slow: [0, 90],
  medium: [90, 120],
  fast: [120, Number.POSITIVE_INFINITY],
  short: [0, 60],
  middle: [60, 180],
  long: [180, Number.POSITIVE_INFINITY],
};

function within(value: number, range: string): boolean {
  const [from, below] = ranges[range] ?? [0, Number.POSITIVE_INFINITY];
  return value >= from && value < below;
}

/** True where a routine passes every filter. One for a version and one about the floor are about the same version. */
function fits(card: FilterFacts, { q, style, version, floor, tempo, time, gear, adult }: Filters): boolean {
  const words = (q ?? "").toLowerCase().split(/\s+/);
  const versions = version ? card.versions.filter((id) => id === version) : card.versions;
  return (
    words.every((word) => card.words.includes(word)) &&
    (!style || card.styles.includes(style)) &&
    versions.some((id) => !floor || card.floor.includes(id) === (floor === "yes")) &&
    within(card.tempo, tempo ?? "") &&
    within(card.seconds, time ?? "") &&
    !(gear === "none" && card.gear) &&
    !(adult === "out" && card.adult)
  );
}

const wording = noticesWording(document.documentElement.lang);
const filter = document.querySelector<HTMLElement>("[data-filter]");
const fold = document.querySelector<HTMLElement>("[data-fold]");
const cards = [...document.querySelectorAll<HTMLElement>("[data-facts]")].map((element) => ({
  element,
  facts: JSON.parse(element.dataset.facts ?? "{}") as FilterFacts,
}));

function fields(): readonly (HTMLInputElement | HTMLSelectElement)[] {
  return [...(filter?.querySelectorAll<HTMLInputElement | HTMLSelectElement>("input, select") ?? [])];
}

/** A field that is left open filters nothing and is left out. */
function chosenFilters(): Filters {
  const all = fields().map((field): [string, string] => {
    const open = field instanceof HTMLInputElement && field.type === "checkbox" && !field.checked;
    return [field.name, open ? "" : field.value.trim()];
  });
  return Object.fromEntries(all.filter(([, value]) => value !== ""));
}

function show(): void {
  const wanted = chosenFilters();
  for (const { element, facts } of cards) element.hidden = !fits(facts, wanted);
  const left = cards.filter(({ element }) => !element.hidden).length;
  const filtered = Object.keys(wanted).length > 0;
  const folded = Object.keys(wanted).filter((name) => name !== "q").length;
  if (fold) fold.textContent = wording.filtersSet(folded);
  const line = document.querySelector("[data-left]");
  if (line) line.textContent = filtered ? wording.routinesLeft(left, cards.length) : wording.routines(cards.length);
  for (const element of document.querySelectorAll<HTMLElement>("[data-none]")) element.hidden = left > 0;
  for (const button of document.querySelectorAll<HTMLElement>("[data-clear]")) button.hidden = !filtered;
}

function keepInAddress(): void {
  const address = new URL(location.href);
  address.search = new URLSearchParams(chosenFilters()).toString();
  putInAddress(address);
}

function setField(field: HTMLInputElement | HTMLSelectElement, value: string): void {
  if (field instanceof HTMLInputElement && field.type === "checkbox") field.checked = value === field.value;
  else field.value = value;
  // A value that the library doesn't have filters nothing.
  if (field instanceof HTMLSelectElement && field.selectedIndex < 0) field.value = "";
}

function readAddress(): void {
  const wanted = new URLSearchParams(location.search);
  for (const field of fields()) setField(field, wanted.get(field.name) ?? "");
  show();
}

document.documentElement.dataset.script = "";
filter?.addEventListener("input", () => {
  show();
  keepInAddress();
});
fold?.addEventListener("click", () => {
  fold.setAttribute("aria-expanded", String(fold.getAttribute("aria-expanded") !== "true"));
});
for (const button of document.querySelectorAll("[data-clear]"))
  button.addEventListener("click", () => {
    for (const field of fields()) setField(field, "");
    show();
    keepInAddress();
    fields()[0]?.focus();
  });
addEventListener("popstate", readAddress);
readAddress();
showComing(wording);
linkToFiles();
void keepForLater();
