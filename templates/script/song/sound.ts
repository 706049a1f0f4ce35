import type { NoGuess, SongGuess } from "../../../src/hearing/song/types.js";
import type { ToHear } from "../listen.js";

/** How loud a song is from moment to moment. */
export interface Shape {
  /** From 0 to 1, the loudest moment. */
  readonly peaks: Float32Array;
  /** Moments a second. */
  readonly rate: number;
}

/** Samples a second: enough to tell to a tenth of a millisecond when something begins, and little enough for an hour. */
const sampleRate = 11_025;
/** Moments a second: fine enough for a few seconds over a whole screen. */
const shapeRate = 441;

/**
 * A file's sound as one channel.
 *
 * @throws where the browser can't decode it
 */
export async function soundOf(file: Blob): Promise<ToHear> {
  const context = new OfflineAudioContext(1, 1, sampleRate);
  const buffer = await context.decodeAudioData(await file.arrayBuffer());
  const samples = new Float32Array(buffer.length);
  for (let channel = 0; channel < buffer.numberOfChannels; channel++) {
    const data = buffer.getChannelData(channel);
    for (let i = 0; i < data.length; i++) samples[i] = (samples[i] ?? 0) + (data[i] ?? 0) / buffer.numberOfChannels;
  }
  return { samples, rate: buffer.sampleRate };
}

export function shapeOf({ samples, rate }: ToHear): Shape {
  const width = rate / shapeRate;
  const peaks = new Float32Array(Math.ceil(samples.length / width));
  let most = 0;
  for (let i = 0; i < samples.length; i++) {
    const place = Math.floor(i / width);
    const loud = Math.abs(samples[i] ?? 0);
    if (loud > (peaks[place] ?? 0)) peaks[place] = loud;
    if (loud > most) most = loud;
  }
  return { peaks: most > 0 ? peaks.map((peak) => peak / most) : peaks, rate: shapeRate };
}

/** Seconds. */
export function lengthOf({ peaks, rate }: Shape): number {
  return peaks.length / rate;
}

/** Listens to a song aside. Its samples are handed over. */
export async function guessOf(sound: ToHear): Promise<SongGuess | NoGuess> {
  const worker = new Worker("/~live/song/listen.js");
  try {
    return await new Promise<SongGuess | NoGuess>((done) => {
      worker.onmessage = ({ data }: MessageEvent<SongGuess | NoGuess>) => done(data);
      // Whoever gets no guess taps.
      worker.onerror = () => done({ why: "no-beat" });
      worker.postMessage(sound, [sound.samples.buffer]);
    });
  } finally {
    worker.terminate();
  }
}
