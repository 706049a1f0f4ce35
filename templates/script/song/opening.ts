import type { NoGuess, SongGuess } from "../../../src/hearing/song/types.js";
import type { SongWording } from "../../../src/wording/song.js";
import type { ToHear } from "../listen.js";
import { the } from "./elements.js";
import { guessOf, soundOf } from "./sound.js";
import type { OpenedCounts } from "./state.js";

interface Told {
  /** A song was chosen, and can be seen and played. */
  readonly opened: (sound: ToHear) => void;
  /** What its sound gives; returns what is counted now. */
  readonly heard: (guess: SongGuess | NoGuess) => OpenedCounts;
}

/** Opens a song that somebody chooses or drops, and has it listened to; says how far that is. */
export function onSong(audio: HTMLAudioElement, words: SongWording, told: Told): void {
  const [file, news] = [the("file", HTMLInputElement), the("news", HTMLElement)];
  const say = (said: string) => {
    news.textContent = said;
  };
  /** Counts the songs: what an earlier one still gives comes too late. */
  let song = 0;
  const open = async (chosen: File) => {
    const turn = ++song;
    audio.pause();
    say(words.opening(chosen.name));
    try {
      const sound = await soundOf(chosen);
      if (turn !== song) return;
      // Only now: a file that is no song leaves the one that is being worked on.
      if (audio.src !== "") URL.revokeObjectURL(audio.src);
      audio.src = URL.createObjectURL(chosen);
      const seconds = sound.samples.length / sound.rate;
      told.opened(sound);
      say(words.listening);
      const guess = await guessOf(sound);
      if (turn === song) say(words.ready(chosen.name, seconds, told.heard(guess)));
    } catch {
      if (turn === song) say(words.unreadable);
    }
  };
  const openFirst = ([chosen]: Iterable<File>) => {
    if (chosen) void open(chosen);
  };
  file.addEventListener("change", () => openFirst(file.files ?? []));
  document.addEventListener("dragover", (event) => event.preventDefault());
  document.addEventListener("drop", (event) => {
    event.preventDefault();
    openFirst(event.dataTransfer?.files ?? []);
  });
  // Chosen before this script was there, or kept by the browser over a reload.
  openFirst(file.files ?? []);
}
