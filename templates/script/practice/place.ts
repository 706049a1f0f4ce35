import type { Cue, Score } from "./score.js";

/** Shows in the page's counts which move is danced. */
export interface Place {
  readonly show: (section: number, position: number, cue: Cue | undefined) => void;
  /** Brings the counts of a section into sight. */
  readonly bring: (section: number) => void;
}

export function placeInCounts({ sections, beats }: Score): Place {
  let lit: Element | undefined;
  let key = "";
  /** A section that is danced several times stands in the page once, under the first of them. */
  const partOf = (section: number) => {
    const first = sections.findIndex(({ name }) => name === sections[section]?.name);
    return document.querySelector(`[data-practise="${first}"]`)?.closest(".part") ?? undefined;
  };
  const find = (section: number, position: number, cue: Cue) => {
    const opened = beats.filter((beat) => beat.section === section && beat.opens && beat.start <= position + 1e-4);
    const heading = partOf(section)?.querySelectorAll("h4[id]")[opened.length - 1];
    const moves = heading?.closest(".phrase")?.querySelectorAll(".move") ?? [];
    return [...moves].find(
      (move) => move.checkVisibility?.() && move.querySelector(".on")?.textContent?.trim().startsWith(cue.on),
    );
  };
  return {
    show: (section, position, cue) => {
      const now = cue === undefined ? "" : `${section} ${cue.start}`;
      if (now === key) return;
      key = now;
      lit?.removeAttribute("data-now");
      lit = cue === undefined ? undefined : find(section, position, cue);
      lit?.setAttribute("data-now", "");
    },
    bring: (section) => {
      const part = partOf(section);
      (part?.querySelector(".sheet") ?? part)?.scrollIntoView({ block: "start" });
    },
  };
}
