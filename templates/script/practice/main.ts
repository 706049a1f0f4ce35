import { playerWording } from "../../../src/wording/player.js";
import { desk } from "./desk.js";
import { dock } from "./dock.js";
import { farView } from "./far.js";
import { freshAudio } from "./fresh-audio.js";
import { listenToKeys } from "./keys.js";
import { player } from "./player.js";
import { readPlayed } from "./read.js";
import { score } from "./score.js";
import { song } from "./song.js";
import { songClicks } from "./song-clicks.js";
import { tapAlong } from "./tap-along.js";
import { evenRun } from "./tapped.js";

const wording = playerWording(document.documentElement.lang);

/** An element of the player's own markup. */
function part<T extends HTMLElement>(root: HTMLElement, name: string): T {
  const found = root.querySelector<T>(`[data-${name}]`);
  if (!found) throw new Error(`the player has no part ${name}`);
  return found;
}

function setUp(root: HTMLElement): void {
  const file = readPlayed(part(root, "counts").textContent ?? "");
  const routine = score(file);
  const form = part<HTMLFormElement>(root, "desk");
  const controls = desk(form, file, routine, wording);
  const sound = freshAudio(part<HTMLAudioElement>(root, "audio"));
  const { audio } = sound;
  const play = player({ root, file, score: routine, desk: controls, sound, wording });

  form.addEventListener("submit", (event) => event.preventDefault());
  form.addEventListener("input", ({ target }) => {
    if (target instanceof HTMLInputElement && target.name === "speed") play.setSpeed(controls.percent());
    else if (target instanceof HTMLSelectElement && target.name !== "climb") {
      const { from, to } = controls.wish();
      // What is danced is one section or all; where it goes on to is chosen after that.
      if (target.name === "to") controls.choose(Math.min(from, to), to);
      else if (target.value === "all") controls.choose(0, routine.sections.length - 1);
      else controls.choose(from, from);
      play.restart();
    } else if (target instanceof HTMLElement && !target.matches("[name=file]")) play.changeRounds();
  });
  for (const button of root.querySelectorAll("[data-start]")) button.addEventListener("click", play.toggle);
  for (const button of root.querySelectorAll<HTMLElement>("[data-step]"))
    button.addEventListener("click", () => play.setSpeed(controls.percent() + Number(button.dataset.step)));
  for (const button of root.querySelectorAll<HTMLElement>("[data-percent]"))
    button.addEventListener("click", () => play.setSpeed(Number(button.dataset.percent)));
  part(root, "top").addEventListener("click", () => {
    controls.choose(0, routine.sections.length - 1);
    play.fromTheTop();
  });
  // Any button of the page may offer a section for practice: it names the section's index in the danced order.
  document.addEventListener("click", ({ target }) => {
    const offer = target instanceof Element ? target.closest<HTMLElement>("[data-practise]") : null;
    if (!offer) return;
    const index = Number(offer.dataset.practise);
    controls.choose(index, index);
    play.practise(index);
  });
  document.addEventListener("countleaf:view", play.showView);
  const chosen = () => routine.sections[controls.wish().from]?.start ?? 0;
  const run = () => evenRun(routine, controls.wish().from);
  const clicks = songClicks(root, play, controls.percent, wording);
  const laid = song({ root, audio, player: play, chosen, opened: clicks.begin, wording });
  tapAlong({ root, audio, track: play.track, run, isEstimate: file.music.tempoIsEstimate, laid, wording });
  farView(part<HTMLDialogElement>(root, "far"), part(root, "afar"), play.refit, play.toggle);
  dock(part(root, "dock"), part(root, "face"), root, play.refit);
  listenToKeys(root);
  for (const button of root.querySelectorAll<HTMLButtonElement>("button:disabled")) button.disabled = false;
}

/** The player of the page. It is set up once it comes near the window: who only reads need not wait for it. */
export function practise(): void {
  const root = document.querySelector<HTMLElement>("[data-practice]");
  if (!root) return;
  const near = new IntersectionObserver(
    (entries) => {
      if (!entries.some(({ isIntersecting }) => isIntersecting)) return;
      near.disconnect();
      setUp(root);
    },
    { rootMargin: "600px" },
  );
  near.observe(root);
}
