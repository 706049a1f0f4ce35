import type { PlayerWording } from "../../../src/wording/player.js";

/** The song alone, without a practice: play and pause, and a slide for its place. The browser's own bar looks different in each. */
export function songControls(root: HTMLElement, audio: HTMLAudioElement, wording: PlayerWording): void {
  const play = root.querySelector<HTMLButtonElement>("[data-song-play]");
  const place = root.querySelector<HTMLInputElement>("input[name=place]");
  const clock = root.querySelector("[data-song-clock]");
  if (!play || !place) return;
  const show = () => {
    const whole = Number.isFinite(audio.duration) ? audio.duration : 0;
    place.max = String(whole);
    place.value = String(audio.currentTime);
    const text = wording.songClock(minutes(audio.currentTime), minutes(whole));
    place.setAttribute("aria-valuetext", text);
    if (clock) clock.textContent = text;
    play.textContent = audio.paused ? wording.playSong : wording.pauseSong;
  };
  for (const event of ["loadedmetadata", "timeupdate", "seeked", "play", "pause", "emptied"])
    audio.addEventListener(event, show);
  play.addEventListener("click", () => {
    // A play that fails says so by the audio's own error.
    if (audio.paused) audio.play().catch(() => {});
    else audio.pause();
  });
  place.addEventListener("input", (event) => {
    // It chooses nothing of the practice.
    event.stopPropagation();
    audio.currentTime = Number(place.value);
  });
}

function minutes(seconds: number): string {
  const whole = Math.floor(seconds);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}
