import type { DancedName } from "../../routine/sheet.js";
import { list, often } from "./language.js";
import { plan } from "./plan.js";

/** What a teacher says into the camera. */
const toSay = {
  title: "the title and who made it",
  gear: "what you need",
  options: "the levels and options",
  cautions: "the cautions",
  where: "where to find the handouts and the song",
  credit: "how to credit it",
};

const last = (names: readonly DancedName[]): string => names.slice(-1).map(plan.danced).join("");
const talk = (label: string, say: readonly (keyof typeof toSay)[]) => ({
  label,
  instruction: `Say ${list(say.map((thing) => toSay[thing]))}.`,
});

/** "level 2 (Flood)" */
const shownOption = ({ id, level, groups }: ShownOption): string =>
  `${level ? `level ${id}` : id}${groups.length === 0 ? "" : ` (${list(groups)})`}`;

/** The takes of a breakdown video, and a day to shoot them on. */
export const takes = {
  title: (title: string): string => `Takes for the breakdown of ${title}`,
  summary: (
    { takes, setups, again }: { readonly takes: number; readonly setups: number; readonly again: number },
    videoSeconds: number,
    daySeconds: number,
  ): readonly string[] => [
    `${takes} takes make a video of about ${plan.span(videoSeconds)}.`,
    `With every take shot ${often(again)} and the camera placed ${often(setups)}, allow ${plan.span(daySeconds)}.`,
  ],
  /** What each kind of take is called, and what to do in it. */
  kinds: {
    welcome: ({ say }: Take) => talk("Welcome", say),
    show: ({ title }: Take) => ({ label: `Show: ${title}`, instruction: "Dance the whole of it, counting aloud." }),
    explain: ({ names }: Take) => ({
      label: `Explain: ${last(names)}`,
      instruction: "Say and walk it move by move, then once in one go.",
    }),
    options: ({ names, options }: Take) => ({
      label: `Options: ${last(names)}`,
      instruction: `Show each option on its own: ${list(options.map(shownOption))}.`,
    }),
    follow: ({ names }: Take) => ({
      label: `Follow: ${last(names)}`,
      instruction: "Dance it once on the counts for the viewer to follow.",
    }),
    link: ({ names }: Take) => ({
      label: `Link: ${names.slice(0, 1).map(plan.danced).join("")} into ${last(names)}`,
      instruction: "Dance both without a stop, counting aloud.",
    }),
    "from-the-top": ({ title }: Take) => ({
      label: `From the top: ${title}`,
      instruction: "Dance the whole of it on the counts for the viewer to follow.",
    }),
    mirrored: ({ title }: Take) => ({
      label: `As in a mirror: ${title}`,
      instruction: "Face the camera and dance it on the other side, so that the viewer follows as in a mirror.",
    }),
    goodbye: ({ say }: Take) => talk("Goodbye", say),
  },
  cameras: {
    front: "You face the camera",
    behind: "Your back to the camera",
    close: "Close: the feet and the floor fill the picture",
  },
  speed: (percent: number): string => `, ${percent} per cent`,
  finished: (length: string): string => `In the finished video (${length}):`,
  shooting: (length: string): string => `In the order of shooting (${length} in all):`,
  setup: (camera: string, numbers: readonly number[], length: string): string =>
    `${camera}: takes ${numbers.join(", ")} (${length})`,
};

interface ShownOption {
  readonly id: string;
  readonly level: boolean;
  /** Whose it is, where not all dance it. */
  readonly groups: readonly string[];
}

/** What is said of a take. */
export interface Take {
  readonly title: string;
  readonly names: readonly DancedName[];
  readonly options: readonly ShownOption[];
  readonly say: readonly (keyof typeof toSay)[];
}
