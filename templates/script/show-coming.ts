import type { NoticesWording } from "../../src/wording/notices.js";
import { comingAndPast, dayOf } from "./coming.js";

/** Puts the list of classes in the order of their next dates, and folds those away that are over. Without script it is there as it was made. */
export function showComing(wording: NoticesWording): void {
  const list = document.querySelector<HTMLElement>("[data-workshops]");
  const fold = document.querySelector<HTMLElement>("[data-past]");
  if (!list || !fold) return;
  const today = dayOf(new Date());
  const all = [...list.querySelectorAll<HTMLElement>("[data-days]")].map((element) => {
    const days = (element.dataset.days ?? "").split(" ").filter(Boolean);
    return { element, days };
  });
  const { coming, past } = comingAndPast(all, today);
  for (const { element, days } of coming) {
    const next = days.find((day) => day >= today);
    if (next !== undefined && next !== days[0]) element.querySelector("p")?.append(` · ${wording.nextLesson(next)}`);
    list.append(element);
  }
  if (past.length === 0) return;
  list.hidden = coming.length === 0;
  const over = document.createElement("ul");
  over.className = list.className;
  over.append(...past.map(({ element }) => element));
  fold.append(over);
  fold.hidden = false;
}
