import type { NoticesWording } from "../../src/wording/notices.js";

/** Puts a text on the clipboard and says so, in a line that is read out as well as seen. */
export function copyText(text: string, news: Element | null, done: string, { copyYourself }: NoticesWording): void {
  const say = (what: string) => {
    if (!news) return;
    news.textContent = what;
    news.classList.remove("unseen");
  };
  navigator.clipboard?.writeText(text).then(
    () => say(done),
    () => say(copyYourself(text)),
  ) ?? say(copyYourself(text));
}
