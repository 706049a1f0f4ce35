import type { Played } from "../../../src/publishing/site/player-data.js";
import type { PlayerWording } from "../../../src/wording/player.js";
import { clicks } from "./audio.js";
import { firstSpeed } from "./dense.js";
import { type Desk, fastest, slowest } from "./desk.js";
import { display } from "./display.js";
import type { FreshAudio } from "./fresh-audio.js";
import { placeInCounts } from "./place.js";
import { sceneOfPage } from "./scene.js";
import { layOut, type Practice, phraseStart } from "./schedule.js";
import { type Score, sectionTitle } from "./score.js";
import type { Source, Where } from "./source.js";
import { type Track, track } from "./track.js";
import { wakeLock } from "./wake.js";

export interface Player {
  readonly track: Track;
  /** Starts, pauses, or goes on from the phrase that was paused. */
  readonly toggle: () => void;
  readonly pause: () => void;
  readonly fromTheTop: () => void;
  /** Begins at once with the section that was chosen, its counts in sight. */
  readonly practise: (section: number) => void;
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
  readonly sound: FreshAudio;
  readonly wording: PlayerWording;
}): Player {
  const { root, file, score, desk, sound, wording } = given;
  const { audio } = sound;
  const face = display(root, score, wording);
  const keepAwake = wakeLock();
  const everything = { from: 0, to: score.sections.length - 1, loops: false, countInAgain: false };
  const own = track(sound, file.slug, file.music.firstCount, layOut(score, everything));
  let clicking: Source | undefined;
  let inSilence = "";
  let scene = sceneOfPage(file, score, wording);
  const place = placeInCounts(score);
  let running = false;
  /** None while the learner plays a song by the browser's own buttons. */
  let practice: Practice | undefined;
  /** Index of the beat to go on from. */
  let resume: number | undefined;
  let percent = desk.percent();
  let section = -1;
  let timer = 0;
  let ready = 0;
  /** Whoever has chosen a speed keeps it; else each section is offered at one at which its moves can be read. */
  let speedIsChosen = false;

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
      inSilence = silent ? wording.inSilence : "";
      write("silent", inSilence);
    });
    return clicking;
  };
  const write = (name: string, text: string) => {
    const line = root.querySelector(`[data-${name}]`);
    if (line && line.textContent !== text) line.textContent = text;
  };
  const say = (news: string) => write("news", news);
  const showRest = () => {
    const from = score.sections[desk.wish().from]?.start ?? 0;
    const position = (resume === undefined ? undefined : score.beats[resume]?.start) ?? from;
    const seen = scene.at({ begins: position }, position, percent);
    face.show({ ...seen, row: { ...seen.row, now: -1 }, state: "rest", percent });
    place.show(seen.section, position, undefined);
    write("round", "");
    write("pace", wording.percent(percent));
  };
  const showNow = ({ position, leadsTo, round }: Where) => {
    const { to } = desk.wish();
    const again = practice && practice.round.length > 0 ? { again: practice.origin } : {};
    const seen = scene.at({ begins: leadsTo, ...again }, position, percent, practice ? to : undefined);
    face.show({ ...seen, percent });
    place.show(
      seen.section,
      position,
      seen.state === "count" ? (seen.lines.find(({ now }) => now)?.cue ?? seen.cue) : undefined,
    );
    write("round", wording.round(round + 1));
    write("pace", wording.percent(percent));
    if (section !== seen.section && section >= 0) say(sectionTitle(score, seen.section, wording));
    section = seen.section;
  };
  const frame = () => {
    if (!running) return;
    source().wake();
    if (own.isOpen()) write("silent", own.clicks.trouble() === undefined ? "" : wording.withoutClicks);
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
    root.dataset.running = "";
    delete root.dataset.paused;
    timer = window.setInterval(() => source().wake(), wakeInterval);
    keepAwake(true);
    requestAnimationFrame(frame);
  };
  const rest = (beat: number | undefined) => {
    running = false;
    delete root.dataset.running;
    root.toggleAttribute("data-paused", beat !== undefined);
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
  const offerSpeed = () => {
    if (speedIsChosen) return;
    const speeds = file.practice.map((speed) => speed.percent);
    const { from, to } = desk.wish();
    const offers = score.sections
      .slice(from, to + 1)
      .map((_, index) => firstSpeed(scene.cues(), from + index, speeds) ?? desk.percent());
    percent = Math.min(...offers);
    desk.showPercent(percent);
  };
  const restart = () => {
    resume = undefined;
    if (!running) write("silent", own.isOpen() ? "" : inSilence);
    offerSpeed();
    if (running) void start();
    else rest(undefined);
  };

  const again = () => {
    resume = undefined;
    offerSpeed();
    void start();
  };

  audio.addEventListener("play", () => {
    if (!practice) own.setSpeed(desk.percent());
    run();
  });
  audio.addEventListener("pause", () => {
    if (own.isOpen() && !(practice && audio.ended)) pause();
  });
  offerSpeed();
  showRest();
  return {
    track: own,
    toggle: () => (running ? pause() : void start()),
    pause,
    fromTheTop: again,
    practise: (section) => {
      place.bring(section);
      again();
    },
    restart,
    changeRounds: () => {
      if (practice && running && !source().change(layOut(score, desk.wish()))) void start();
    },
    setSpeed: (wanted) => {
      const within = Math.min(Math.max(wanted, slowest), fastest);
      speedIsChosen = true;
      desk.showPercent(within);
      if (running) source().setSpeed(within);
      else {
        percent = within;
        showRest();
        clearTimeout(ready);
        // Not at every step of a slide.
        ready = window.setTimeout(() => own.clicks.prepare(percent / 100), 300);
      }
    },
    showView: () => {
      scene = sceneOfPage(file, score, wording);
      if (running) return;
      offerSpeed();
      showRest();
    },
    refit: face.refit,
    say,
  };
}

function label(root: HTMLElement, text: string): void {
  for (const button of root.querySelectorAll("[data-start]")) button.textContent = text;
}
