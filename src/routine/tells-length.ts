/** Whether a move's counts say how long it lasts: "1-3" and "7&8" do, "5" and "3&" need not. */
export function tellsLength(on: string): boolean {
  return /[-,]|[e&a]\d/.test(on);
}
