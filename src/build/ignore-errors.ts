/** Does what may fail without harm: somebody else has done it, or the next run will. Nothing comes back then. */
export function ignoreErrors<Value>(act: () => Value): Value | undefined {
  try {
    return act();
  } catch {
    return undefined;
  }
}
