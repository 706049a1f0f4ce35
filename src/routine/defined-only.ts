type OptionalKey<T> = { [Key in keyof T]-?: Partial<Pick<T, Key>> extends Pick<T, Key> ? Key : never }[keyof T];

/** The properties of a `T` that may be absent. */
export type OptionalPart<T> = Pick<T, OptionalKey<T>>;

/**
 * The optional properties of a `T`, those without a value left out. Each has to be spelled out, with `undefined` where there
 * is none: one that `T` gains and that nobody fills in is an error of `tsc`.
 *
 * @example { item: "mat", ...definedOnly<GearItem>({ why: undefined }) } // { item: "mat" }
 */
export function definedOnly<T extends object>(
  values: {
    readonly [Key in keyof Required<OptionalPart<T>>]: T[Key];
  },
): OptionalPart<T> {
  const defined: Record<string, unknown> = {};
  for (const [key, value] of Object.entries(values)) if (value !== undefined) defined[key] = value;
  return defined as OptionalPart<T>;
}
