import type { RecordingPlan, Setup } from "../../teaching/recording.js";
import { clockText } from "../figures.js";

const places: Record<Setup["camera"], string> = {
  front: "You face the camera",
  behind: "Your back to the camera",
  close: "Close: the feet and the floor fill the picture",
};

/** A recording day as plain text: the takes in the order of the finished video, then the order of shooting. */
export function takesText({ title, summary, takes, setups, videoSeconds, daySeconds }: RecordingPlan): string {
  const list = takes.map(
    ({ number, start, label, instruction, speed }) =>
      `${number}. ${clockText(start)} ${label}${speed === undefined ? "" : `, ${speed} per cent`}. ${instruction}`,
  );
  const shooting = setups.map(
    ({ camera, takes: numbers, seconds }) => `${places[camera]}: takes ${numbers.join(", ")} (${clockText(seconds)})`,
  );
  return [
    `Takes for the breakdown of ${title}`,
    ...summary,
    "",
    `In the finished video (${clockText(videoSeconds)}):`,
    ...list,
    "",
    `In the order of shooting (${clockText(daySeconds)} in all):`,
    ...shooting,
    "",
  ].join("\n");
}
