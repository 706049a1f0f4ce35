import type { PlayerWording } from "../../../src/wording/player.js";
import type { Player } from "./player.js";
import { songControls } from "./song-controls.js";

/** Milliseconds before a song that broke off is read again, each time. */
const rests = [300, 1000, 3000];

/**
 * Opens the learner's own copy of the song and lets them put the counts on it.
 *
 * @returns shows how the counts lie on it, for whoever else lays them
 */
export function song(given: {
  readonly root: HTMLElement;
  readonly audio: HTMLAudioElement;
  readonly player: Player;
  /** Start of the chosen run: seconds at full tempo from the routine's first count. */
  readonly chosen: () => number;
  /** Told when a song is open. */
  readonly opened: () => void;
  readonly wording: PlayerWording;
}): () => void {
  const { root, audio, player, chosen, opened, wording } = given;
  const { track } = player;
  const controls = root.querySelector<HTMLElement>("[data-song]");
  const input = root.querySelector<HTMLInputElement>("input[name=file]");
  const line = root.querySelector("[data-first-count]");
  const name = root.querySelector("[data-song-name]");
  const forget = root.querySelector<HTMLElement>("[data-forget]");
  // The news is for those who can't see: here stands for all others why a file is not open.
  const refused = root.querySelector("[data-refused]");
  songControls(root, audio, wording);
  const showFirstCount = () => {
    if (line) line.textContent = wording.firstCount(track.copy());
    if (forget) forget.hidden = !track.isLaid();
  };
  /** How often in a row it was read again, and where it broke off last. */
  let [tries, broke] = [0, 0];
  const open = (file: File | undefined) => {
    if (!file || !controls) return;
    tries = 0;
    player.pause();
    refused?.replaceChildren();
    track.open(file);
    controls.hidden = false;
    if (name) name.textContent = file.name;
    showFirstCount();
    player.restart();
    opened();
  };
  const close = () => {
    player.pause();
    track.close();
    if (controls) controls.hidden = true;
    if (input) input.value = "";
    player.restart();
  };
  const onPress = (name: string, act: (button: HTMLElement) => void) => {
    for (const button of root.querySelectorAll<HTMLElement>(`[data-${name}]`))
      button.addEventListener("click", () => {
        act(button);
        showFirstCount();
      });
  };

  input?.addEventListener("change", () => open(input.files?.[0]));
  root.addEventListener("dragover", (event) => event.preventDefault());
  root.addEventListener("drop", (event) => {
    event.preventDefault();
    open(event.dataTransfer?.files[0]);
  });
  audio.addEventListener("timeupdate", () => {
    if (audio.currentTime > broke + 1) tries = 0;
  });
  audio.addEventListener("error", () => {
    if (!track.isOpen()) return;
    // What broke off was read before: as often as not it is the device's sound that failed, and not the file.
    const rest = rests[tries];
    if (audio.error?.code === MediaError.MEDIA_ERR_DECODE && rest !== undefined) {
      tries += 1;
      broke = audio.currentTime;
      setTimeout(() => {
        if (audio.error && track.isOpen()) track.readAgain();
      }, rest);
      return;
    }
    close();
    player.say(wording.cannotOpen);
    refused?.replaceChildren(wording.cannotOpen);
  });
  onPress("one", () => track.alignTo(chosen()));
  onPress("nudge", ({ dataset }) => track.nudge(Number(dataset.nudge)));
  onPress("forget", track.forget);
  onPress("away", close);
  return showFirstCount;
}
