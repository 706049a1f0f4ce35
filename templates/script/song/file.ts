import type { DeskData, DeskRoutine, SongAnswer } from "../../../src/build/live/desk-data.js";
import type { ChangedLine, SongFigures } from "../../../src/reading/song-lines.js";
import type { SongWording } from "../../../src/wording/song.js";
import { inCode, made, the } from "./elements.js";
import { plainLines } from "./plain-lines.js";

export interface FilePart {
  /** Shows what is to be written; nothing where nothing was found yet. */
  readonly show: (figures: SongFigures | undefined) => void;
}

/** Milliseconds of quiet before the library is asked what a change comes to in the file. */
const quiet = 150;

/**
 * The lines for the routine's file, beside what stands there now, with what copies and what writes them.
 *
 * @param reread called with the routine as its file has it, after something was written
 */
export function filePart(data: DeskData, words: SongWording, reread: (routine: DeskRoutine) => void): FilePart {
  const { run } = data;
  let routine = data.routine;
  const [changes, copy, done] = [the("changes", HTMLElement), the("copy", HTMLButtonElement), the("done", HTMLElement)];
  const isWriting = routine !== undefined && run !== undefined;
  const write = isWriting ? the("write", HTMLButtonElement) : undefined;
  const back = isWriting ? the("back", HTMLButtonElement) : undefined;
  let wanted: SongFigures | undefined;
  /** The key of the file as it was written here: what somebody has saved since then is not taken back with it. */
  let written: string | undefined;
  let text = "";
  /** What is wanted, as it was shown last. */
  let shown: string | undefined;
  /** Counts the questions that were asked. */
  let asked = 0;
  let waiting: ReturnType<typeof setTimeout> | undefined;

  const ask = async (question: string, figures: SongFigures = {}, key = routine?.key): Promise<SongAnswer> => {
    try {
      const response = await fetch(`/~live/song/${question}`, {
        method: "POST",
        headers: { "content-type": "application/json", ...(run && { [run.header]: run.token }) },
        body: JSON.stringify({ slug: routine?.slug, key, figures }),
      });
      return (await response.json()) as SongAnswer;
    } catch {
      return { refused: words.unanswered };
    }
  };
  const offer = (parts: readonly Node[], lines: string, canWrite: boolean) => {
    changes.replaceChildren(...parts);
    text = lines;
    copy.disabled = lines === "";
    if (write) write.disabled = !canWrite;
  };
  const showLines = async () => {
    if (wanted === undefined) return offer([made("p", words.notYet)], "", false);
    if (!isWriting) {
      const lines = plainLines(wanted, routine);
      return offer([lines === "" ? made("p", words.nothing) : made("pre", lines)], lines, false);
    }
    const turn = ++asked;
    const answer = await ask("lines", wanted);
    // Another question was asked meanwhile: its answer is the one to show.
    if (turn !== asked) return;
    if ("refused" in answer) {
      if (!answer.findings && (await isReread())) return;
      return offer(refusal(answer, words), plainLines(wanted, routine), false);
    }
    const { lines } = answer;
    if (lines.length === 0) return offer([made("p", words.nothing)], "", false);
    offer([tableOf(lines, words)], lines.flatMap(({ after }) => after ?? []).join("\n"), true);
  };
  /** Where the file was saved meanwhile: goes on from what stands there now, and is true. */
  const isReread = async () => {
    const now = await routineNow();
    if (!now || now.key === routine?.key) return false;
    routine = now;
    // What is wanted may be the same, and comes to something else in another file.
    shown = undefined;
    reread(now);
    return true;
  };
  /** Has something written, and reads the file as it is then. */
  const change = async (question: "write" | "take-back", said: string) => {
    const answer = await (question === "write" ? ask(question, wanted) : ask(question, {}, written));
    if (!("findings" in answer)) await isReread();
    if ("refused" in answer) return done.replaceChildren(...refusal(answer, words));
    done.replaceChildren(said, " ");
    if (routine) done.append(made("a", words.toRoutine(routine.title), { href: `/routines/${routine.slug}/` }));
    written = answer.key;
    if (!back) return;
    back.hidden = question === "take-back";
    // What was pressed is gone or of no use now: who went there by the keys goes on from what is, and not to another page.
    if (question === "write") return back.focus();
    clearTimeout(waiting);
    await showLines();
    copy.focus();
  };
  // Back from her editor, she sees what the file has now.
  addEventListener("focus", () => void showLines());
  write?.addEventListener("click", () => void change("write", words.written));
  back?.addEventListener("click", () => void change("take-back", words.takenBack));
  copy.addEventListener("click", () => {
    const say = (said: string) => done.replaceChildren(said);
    navigator.clipboard?.writeText(text).then(
      () => say(words.copied),
      () => say(words.copyYourself(text)),
    ) ?? say(words.copyYourself(text));
  });
  return {
    show: (figures) => {
      const now = JSON.stringify(figures);
      if (figures && now === shown) return;
      shown = now;
      wanted = figures;
      clearTimeout(waiting);
      waiting = setTimeout(() => void showLines(), quiet);
    },
  };
}

/** The routine as its file is now: as this very page has it when it is asked for again. */
async function routineNow(): Promise<DeskRoutine | undefined> {
  try {
    const page = await (await fetch(location.pathname + location.search)).text();
    const block = new DOMParser().parseFromString(page, "text/html").getElementById("data")?.textContent;
    return block ? (JSON.parse(block) as DeskData).routine : undefined;
  } catch {
    return undefined;
  }
}

function refusal({ refused, findings = [] }: Extract<SongAnswer, { refused: string }>, words: SongWording) {
  const why = made("p", "", { class: "wrong" });
  why.append(...inCode(refused));
  if (findings.length === 0) return [why];
  const list = made("ul");
  for (const { line, message } of findings) {
    const item = made("li");
    item.append(...inCode(words.finding(line, message)));
    list.append(item);
  }
  return [why, list];
}

function tableOf(lines: readonly ChangedLine[], words: SongWording): HTMLElement {
  const list = made("dl", "", { class: "changes" });
  for (const { line, before, after } of lines) {
    const place = made("div");
    const now = made("dd");
    const then = made("dd");
    now.append(made("span", words.stands), before === undefined ? made("i", words.newLine) : made("code", before));
    then.append(made("span", words.willStand), after === undefined ? made("i", words.noLine) : made("code", after));
    place.append(made("dt", words.line(line)), now, then);
    list.append(place);
  }
  return list;
}
