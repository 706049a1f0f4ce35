/** A list in pieces of a size. */
export function portions<Value>(list: readonly Value[], size: number): readonly (readonly Value[])[] {
  return Array.from({ length: Math.ceil(list.length / size) }, (_, index) =>
    list.slice(index * size, (index + 1) * size),
  );
}
