import type { RecordingPlan } from "../../teaching/recording.js";
import type { Take } from "../../teaching/takes.js";
import type { Wording } from "../../wording/wording.js";

/** A recording day as plain text: the takes in the order of the finished video, then the order of shooting. */
export function takesText(plan: RecordingPlan, { takes: said, time }: Wording): string {
  const { title, levels, takes, setups, videoSeconds, daySeconds, settings } = plan;
  const line = ({ number, start, kind, names, options, say, speed }: Take): string => {
    const shown = options.map(({ version: id, groups }) => ({ id, level: levels.includes(id), groups }));
    const { label, instruction } = said.kinds[kind]({ title, names, options: shown, say });
    return `${number}. ${time.clock(start)} ${label}${speed === undefined ? "" : said.speed(speed)}. ${instruction}`;
  };
  const counted = { takes: takes.length, setups: setups.length, again: settings.recording.takes };
  return [
    said.title(title),
    ...said.summary(counted, videoSeconds, daySeconds),
    "",
    said.finished(time.clock(videoSeconds)),
    ...takes.map(line),
    "",
    said.shooting(time.clock(daySeconds)),
    ...setups.map(({ camera, takes: numbers, seconds }) =>
      said.setup(said.cameras[camera], numbers, time.clock(seconds)),
    ),
    "",
  ].join("\n");
}
