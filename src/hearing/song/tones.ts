import { fourier } from "./fft.js";
import { thinned } from "./thinned.js";

/** What sounds at each moment, as a spectrum of what lies between the deepest voice and the middle of a piano. */
export interface Tones {
  /** Spectra a second. */
  readonly rate: number;
  readonly spectra: readonly Float32Array[];
}

/** Samples of a frame and from one to the next: a fifth of a second and half of that at the rate kept, enough to tell neighbouring notes. */
const [frame, hop] = [512, 256];
/** Samples a second, and what is looked at in Hz. */
const wanted = 2_756;
const [lowest, highest] = [60, 1_000];

/**
 * @param samples one channel
 * @param rate samples a second
 */
export function tonesOf(samples: Float32Array, rate: number): Tones {
  const thin = thinned(samples, rate, wanted);
  const transform = fourier(frame);
  const gain = 0.2 / (Math.sqrt(thin.kept.reduce((sum, value) => sum + value * value, 0) / thin.kept.length) || 1);
  const lineAt = (hertz: number) => Math.round((hertz * frame) / thin.keptRate);
  const [from, until] = [lineAt(lowest), lineAt(highest)];
  const bell = Float64Array.from(
    { length: frame },
    (_, at) => 0.5 - 0.5 * Math.cos((2 * Math.PI * (at + 0.5)) / frame),
  );
  const [real, imaginary] = [new Float64Array(frame), new Float64Array(frame)];
  const spectra = Array.from({ length: Math.ceil(thin.kept.length / hop) }, (_, index) => {
    for (let at = 0; at < frame; at++)
      real[at] = gain * (bell[at] ?? 0) * (thin.kept[index * hop - frame / 2 + at] ?? 0);
    imaginary.fill(0);
    transform(real, imaginary);
    return Float32Array.from({ length: until - from }, (_, line) =>
      Math.log1p(Math.sqrt((real[from + line] ?? 0) ** 2 + (imaginary[from + line] ?? 0) ** 2)),
    );
  });
  return { rate: thin.keptRate / hop, spectra };
}

/**
 * How much what sounds on each beat differs from what sounded on the one before, from 0: harmony and bass change with the bar (Davies &
 * Plumbley, A Spectral Difference Approach to Downbeat Extraction in Musical Audio, 2006, *from memory*).
 *
 * @param beats seconds, in order
 */
export function changesOn(tones: Tones, beats: readonly number[]): readonly number[] {
  const means = beats.map((at, index) => meanBetween(tones, at, beats[index + 1] ?? at + 0.5));
  return means.map((mean, index) => distance(mean, means[index - 1] ?? mean));
}

/** What sounds from one beat to the next, whatever its loudness. */
function meanBetween({ rate, spectra }: Tones, at: number, next: number): Float32Array {
  // What was there before the beat still sounds as it begins.
  const from = Math.round((0.85 * at + 0.15 * next) * rate);
  const sum = new Float32Array(spectra[0]?.length ?? 0);
  for (const spectrum of spectra.slice(from, Math.max(from + 1, Math.round(next * rate))))
    for (let line = 0; line < sum.length; line++) sum[line] = (sum[line] ?? 0) + (spectrum[line] ?? 0);
  const size = distance(sum, new Float32Array(sum.length)) || 1;
  return sum.map((value) => value / size);
}

function distance(one: Float32Array, other: Float32Array): number {
  let sum = 0;
  for (let line = 0; line < one.length; line++) sum += ((one[line] ?? 0) - (other[line] ?? 0)) ** 2;
  return Math.sqrt(sum);
}
