import type { NoticesWording } from "../../src/wording/notices.js";
import { copyText } from "./copy.js";

/**
 * Under a video people ask about a moment of it. A count of the page is a link to itself; who follows one gets a button there
 * that copies a sentence to paste as the answer.
 */
export function answerQuestions(wording: NoticesWording): void {
  const counts = document.querySelector(".counts");
  if (!counts) return;
  const line = document.createElement("p");
  const button = document.createElement("button");
  const news = document.createElement("span");
  line.className = "ask";
  button.className = "button";
  button.type = "button";
  button.textContent = wording.copyAnswer;
  news.setAttribute("role", "status");
  line.append(button, " ", news);

  const offer = (move: Element | null | undefined) => {
    if (!move) return line.remove();
    news.textContent = "";
    move.querySelector(".what")?.append(line);
  };
  button.addEventListener("click", () => {
    const move = line.closest(".move");
    if (move) copyText(wording.answer(...answerOf(move)), news, wording.answerCopied, wording);
  });
  counts.addEventListener("click", ({ target }) => {
    const link = target instanceof Element ? target.closest("a.on") : null;
    if (link) offer(link.closest(".move"));
  });
  offer(moveAt(location.hash));
}

/** The move that is seen on a count. */
function moveAt(hash: string): Element | undefined {
  if (hash === "") return undefined;
  const links = [...document.querySelectorAll<HTMLAnchorElement>("a.on")];
  return links.find((link) => link.hash === hash && isSeen(link))?.closest(".move") ?? undefined;
}

const isSeen = (element: Element): boolean => element.getClientRects().length > 0;

const text = (element: Element | null | undefined): string => element?.textContent?.trim() ?? "";

/** What is asked about, as the page says it. */
function answerOf(move: Element): Parameters<NoticesWording["answer"]> {
  const link = move.querySelector<HTMLAnchorElement>("a.on");
  const part = move.closest(".part");
  const phrases = [...(part?.querySelectorAll("h4[id]") ?? [])];
  const phrase = phrases.findIndex(({ id }) => decodeURI(link?.hash ?? "").startsWith(`#${id}-`)) + 1;
  const chosen = [...document.querySelectorAll<HTMLInputElement>(".choice input:checked, .whose input:checked")];
  // What the address says too: what is as taught goes without saying.
  const view = chosen.filter(({ defaultChecked }) => !defaultChecked).map((field) => text(field.closest("label")));
  const own =
    location.protocol === "file:" ? document.querySelector<HTMLLinkElement>("link[rel=canonical]")?.href : undefined;
  const address = new URL(own ?? location.href);
  address.search = location.search;
  address.hash = link?.hash ?? "";
  return [
    {
      counts: text(link?.querySelector("span")),
      phrase: phrases.length > 1 ? phrase : undefined,
      section: text(part?.querySelector("h3")),
      view,
      cue: cueOf(move.querySelector(".cue")),
      address: address.href,
    },
  ];
}

/** The words of a move on the side that is seen, without our marks. */
function cueOf(cue: Element | null): string {
  const parts = [...(cue?.childNodes ?? [])].map((node) => {
    if (!(node instanceof HTMLElement)) return node.textContent ?? "";
    return isSeen(node) && !node.matches(".mark, .own") ? node.innerText : "";
  });
  return parts.join("").replace(/\s+/g, " ").trim();
}
