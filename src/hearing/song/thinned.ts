/** A sound of fewer samples. */
export interface Thinned {
  readonly kept: Float32Array;
  readonly keptRate: number;
}

/**
 * Fewer samples a second, each the mean of those it stands for: what lies above half the new rate hardly tells.
 *
 * @param wanted samples a second, which are kept about
 */
export function thinned(samples: Float32Array, rate: number, wanted: number): Thinned {
  const factor = Math.max(1, Math.round(rate / wanted));
  if (factor === 1) return { kept: samples, keptRate: rate };
  const kept = new Float32Array(Math.floor(samples.length / factor));
  for (let index = 0; index < kept.length; index++) {
    let sum = 0;
    for (let part = 0; part < factor; part++) sum += samples[index * factor + part] ?? 0;
    kept[index] = sum / factor;
  }
  return { kept, keptRate: rate / factor };
}
