/** Turns complex numbers, their two parts each in a row, into their spectrum, in place. */
export type Transform = (real: Float64Array, imaginary: Float64Array) => void;

/**
 * The fast Fourier transform of a power of two (Cooley & Tukey 1965, *from memory*): the parts in the order of their bits turned
 * round, then halves joined to wholes.
 */
export function fourier(size: number): Transform {
  const cosines = Float64Array.from({ length: size / 2 }, (_, index) => Math.cos((2 * Math.PI * index) / size));
  const sines = Float64Array.from({ length: size / 2 }, (_, index) => -Math.sin((2 * Math.PI * index) / size));
  const turned = turnedBits(size);
  return (real, imaginary) => {
    for (let index = 0; index < size; index++) {
      const other = turned[index] ?? 0;
      if (other <= index) continue;
      swap(real, index, other);
      swap(imaginary, index, other);
    }
    for (let half = 1; half < size; half *= 2) {
      const stride = size / (2 * half);
      for (let start = 0; start < size; start += 2 * half)
        for (let index = 0; index < half; index++)
          join(real, imaginary, start + index, half, cosines[index * stride] ?? 0, sines[index * stride] ?? 0);
    }
  };
}

function turnedBits(size: number): Uint32Array {
  const turned = new Uint32Array(size);
  for (let index = 1; index < size; index++)
    turned[index] = ((turned[index >> 1] ?? 0) >> 1) | (index % 2 === 1 ? size / 2 : 0);
  return turned;
}

function swap(row: Float64Array, one: number, other: number): void {
  const kept = row[one] ?? 0;
  row[one] = row[other] ?? 0;
  row[other] = kept;
}

/** No pairs are made here: this is what a song's hearing takes longest over. */
function join(real: Float64Array, imaginary: Float64Array, at: number, half: number, cos: number, sin: number): void {
  const a = real[at + half] ?? 0;
  const b = imaginary[at + half] ?? 0;
  const c = real[at] ?? 0;
  const d = imaginary[at] ?? 0;
  const turnedReal = a * cos - b * sin;
  const turnedImaginary = a * sin + b * cos;
  real[at + half] = c - turnedReal;
  imaginary[at + half] = d - turnedImaginary;
  real[at] = c + turnedReal;
  imaginary[at] = d + turnedImaginary;
}
