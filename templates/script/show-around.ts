import { dayOf, lessonsAround } from "./coming.js";

/** Of a course with dates: says at the top of its page what the last lesson was and what the next one is, by the clock of whoever looks. */
export function showAround(): void {
  const around = document.querySelector<HTMLElement>("[data-around]");
  const lessons = [...document.querySelectorAll<HTMLElement>("[data-day]")];
  if (!around || lessons.length === 0) return;
  const days = lessons.map(({ dataset }) => dataset.day ?? "");
  const { last, next } = lessonsAround(days, dayOf(new Date()));
  const found = [
    ["[data-last]", last],
    ["[data-next]", next],
  ] as const;
  for (const [place, index] of found) {
    const entry = around.querySelector<HTMLElement>(place);
    const lesson = index === undefined ? undefined : lessons[index];
    if (!entry || !lesson) continue;
    entry.querySelector("dd")?.append(...summaryOf(lesson), ...(index === last ? sheetOf(lesson) : []));
    entry.hidden = false;
  }
  around.hidden = false;
}

/** A lesson in two lines: its name, which leads to it, and what is new in it. */
function summaryOf(lesson: HTMLElement): readonly Element[] {
  const name = lesson.querySelector("h3");
  const link = document.createElement("a");
  link.href = `#${name?.id ?? ""}`;
  link.append(...(name?.cloneNode(true).childNodes ?? []));
  const fresh = [...(lesson.querySelector("dl > div")?.querySelectorAll("dd") ?? [])].map((text) => {
    const copy = document.createElement("p");
    copy.textContent = text.textContent;
    return copy;
  });
  return [link, ...fresh];
}

/** What goes home after it, where there is a sheet. */
function sheetOf(lesson: HTMLElement): readonly Node[] {
  const sheet = lesson.querySelector(".sheet");
  return sheet ? [sheet.cloneNode(true)] : [];
}
