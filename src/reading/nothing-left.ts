/**
 * What must remain of a mapping's keys when those that are carried over have been taken out: nothing. A key that a schema
 * declares and that nobody carries over is an error of `tsc` here: `const { title, ...left } = keys; left satisfies NothingLeft;`
 */
export type NothingLeft = Readonly<Record<string, never>>;
