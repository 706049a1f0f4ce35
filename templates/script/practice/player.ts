import type { Played } from "../../../src/publishing/site/player-data.js";
import type { PlayerWording } from "../../../src/wording/player.js";
import { clicks } from "./audio.js";
import { type Desk, fastest, slowest } from "./desk.js";
import { display } from "./display.js";
import { layOut, type Practice, phraseStart } from "./schedule.js";
import { cues, type Score, sectionTitle, type View } from "./score.js";
import { sightAt } from "./sight.js";
import type { Source, Where } from "./source.js";
import { type Track, track } from "./track.js";
import { wakeLock } from "./wake.js";

export interface Player {
  readonly track: Track;
  /** Starts, pauses, or goes on from the phrase that was paused. */
  readonly toggle: () => void;
  readonly pause: () => void;
  readonly fromTheTop: () => void;
  /** Another run of sections was chosen. */
  readonly restart: () => void;
  /** Something about the rounds was chosen anew. */
  readonly changeRounds: () => void;
  readonly setSpeed: (percent: number) => void;
  /** Another version or side was chosen for the page. */
  readonly showView: () => void;
  readonly refit: () => void;
  readonly say: (news: string) => void;
}

/** Milliseconds between two calls that have the source schedule what comes next. */
const wakeInterval = 200;

export function player(given: {
  readonly root: HTMLElement;
  readonly file: Played;
  readonly score: Score;
  readonly desk: Desk;
  readonly audio: HTMLAudioElement;
  readonly wording: PlayerWording;
}): Player {
  const { root, file, score, desk, audio, wording } = given;
  const face = display(root, score, wording);
  const keepAwake = wakeLock();
  const own = track(audio, file.slug, file.music.firstCount);
  let clicking: Source | undefined;
  let view = viewOfPage(file);
  let shownCues = cues(file, score, view, wording);
  let running = false;
  /** None while the learner plays a song by the browser's own buttons. */
  let practice: Practice | undefined;
  /** Index of the beat to go on from. */
  let resume: number | undefined;
  let percent = desk.percent();
  let section = -1;
  let timer = 0;

  const source = () => {
    if (own.isOpen()) return own;
    if (clicking) return clicking;
    // A browser lets a page have sound only from a touch on, so the audio clock begins with the first start.
    const context = new AudioContext({ latencyHint: "interactive" });
    context.onstatechange = () => {
      // A call or another program took the sound away; not every list of states knows this one yet.
      if (running && !own.isOpen() && String(context.state) === "interrupted") pause();
    };
    clicking = clicks(context, (silent) => {
      write("silent", silent ? wording.inSilence : "");
    });
    return clicking;
  };
  const write = (name: string, text: string) => {
    const line = root.querySelector(`[data-${name}]`);
    if (line) line.textContent = text;
  };
  const say = (news: string) => write("news", news);
  const showRest = () => {
    const from = score.sections[desk.wish().from]?.start ?? 0;
    const position = (resume === undefined ? undefined : score.beats[resume]?.start) ?? from;
    face.show({ ...sightAt(score, shownCues, { begins: position }, position), state: "rest", group: view.group });
  };
  const showNow = ({ position, leadsTo }: Where) => {
    const { to } = desk.wish();
    const inRun = practice ? shownCues.filter((cue) => cue.section <= to) : shownCues;
    const again = practice && practice.round.length > 0 ? { again: practice.origin } : {};
    const sight = sightAt(score, inRun, { begins: leadsTo, ...again }, position);
    face.show({ ...sight, group: view.group });
    if (section !== sight.section && section >= 0) say(sectionTitle(score, sight.section, wording));
    section = sight.section;
  };
  const frame = () => {
    if (!running) return;
    source().wake();
    const where = source().where();
    if (where?.over) {
      rest(undefined);
      say(wording.ended);
      return;
    }
    if (where) {
      if (where.percent !== percent) desk.showPercent(where.percent);
      percent = where.percent;
      showNow(where);
    }
    requestAnimationFrame(frame);
  };
  const run = () => {
    label(root, wording.pause);
    section = -1;
    if (running) return;
    running = true;
    timer = window.setInterval(() => source().wake(), wakeInterval);
    keepAwake(true);
    requestAnimationFrame(frame);
  };
  const rest = (beat: number | undefined) => {
    running = false;
    resume = beat;
    practice = undefined;
    clearInterval(timer);
    source().stop();
    keepAwake(false);
    label(root, beat === undefined ? wording.start : wording.goOn);
    showRest();
  };
  const start = async () => {
    const wish = desk.wish();
    const laidOut = layOut(score, { ...wish, ...(resume === undefined ? {} : { resume }) });
    practice = laidOut;
    percent = desk.percent();
    run();
    say(wording.started(sectionTitle(score, wish.from, wording), percent));
    try {
      await source().start(laidOut, percent);
    } catch {
      // A play that a pause overtook was refused too, and that is no trouble.
      if (practice !== laidOut) return;
      rest(undefined);
      say(wording.cannotPlay);
    }
  };
  const pause = () => {
    if (!running) return;
    const where = source().where();
    rest(where && practice ? phraseStart(score, Math.max(where.position, where.leadsTo)) : undefined);
    say(wording.paused);
  };
  const restart = () => {
    resume = undefined;
    if (running) void start();
    else rest(undefined);
  };

  audio.addEventListener("play", () => {
    if (!practice) own.setSpeed(desk.percent());
    run();
  });
  audio.addEventListener("pause", () => {
    if (own.isOpen() && !(practice && audio.ended)) pause();
  });
  showRest();
  return {
    track: own,
    toggle: () => (running ? pause() : void start()),
    pause,
    fromTheTop: () => {
      resume = undefined;
      void start();
    },
    restart,
    changeRounds: () => {
      if (practice && running && !source().change(layOut(score, desk.wish()))) void start();
    },
    setSpeed: (wanted) => {
      const within = Math.min(Math.max(wanted, slowest), fastest);
      desk.showPercent(within);
      if (running) source().setSpeed(within);
    },
    showView: () => {
      view = viewOfPage(file);
      shownCues = cues(file, score, view, wording);
      if (!running) showRest();
    },
    refit: face.refit,
    say,
  };
}

/** The version, side and group that the page shows; of a page that shows all groups, the first. */
function viewOfPage({ taught, groups }: Played): View {
  const { version, side, group } = document.documentElement.dataset;
  return { version: version ?? taught, otherSide: side === "mirrored", group: group || (groups?.[0] ?? "") };
}

function label(root: HTMLElement, text: string): void {
  for (const button of root.querySelectorAll("[data-start]")) button.textContent = text;
}
