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
  const [from, until] = [lowest, highest].map((edge) => Math.round((edge * frame) / thin.keptRate));
  const spectra = Array.from({ length: Math.ceil(thin.kept.length / hop) }, (_, index) => {
    const [real, imaginary] = [new Float64Array(frame), new Float64Array(frame)];
    for (let at = 0; at < frame; at++) {
      const bell = 0.5 - 0.5 * Math.cos((2 * Math.PI * (at + 0.5)) / frame);
      real[at] = gain * bell * (thin.kept[index * hop - frame / 2 + at] ?? 0);
    }
    transform(real, imaginary);
    return Float32Array.from(real.subarray(from, until), (value, line) =>
      Math.log1p(Math.hypot(value, imaginary[(from ?? 0) + line] ?? 0)),
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
export function changesOn({ rate, spectra }: Tones, beats: readonly number[]): readonly number[] {
  const means = beats.map((at, index) => {
    const length = (beats[index + 1] ?? at + 0.5) - at;
    // What was there before the beat still sounds as it begins.
    const from = Math.round((at + 0.15 * length) * rate);
    const within = spectra.slice(from, Math.max(from + 1, Math.round((at + length) * rate)));
    const sum = new Float32Array(spectra[0]?.length ?? 0).map((_, line) =>
      within.reduce((total, spectrum) => total + (spectrum[line] ?? 0), 0),
    );
    const size = Math.hypot(...sum) || 1;
    return sum.map((value) => value / size);
  });
  return means.map((mean, index) =>
    Math.hypot(...mean.map((value, line) => value - ((means[index - 1] ?? mean)[line] ?? 0))),
  );
}
