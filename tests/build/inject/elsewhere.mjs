// Loaded before the command: another day, another order of every directory, other chances.
import fs from "node:fs";
import { syncBuiltinESMExports } from "node:module";

const later = 400 * 24 * 60 * 60 * 1000 + 12_345_678;
const RealDate = Date;
globalThis.Date = class extends RealDate {
  constructor(...args) {
    super(...(args.length === 0 ? [RealDate.now() + later] : args));
  }
  static now() {
    return RealDate.now() + later;
  }
};
Math.random = () => 0.5;

const { readdir } = fs.promises;
const { readdir: readdirLater, readdirSync } = fs;
fs.promises.readdir = async (...args) => (await readdir(...args)).reverse();
fs.readdirSync = (...args) => readdirSync(...args).reverse();
fs.readdir = (...args) => {
  const tell = args.pop();
  readdirLater(...args, (error, names) => tell(error, names?.reverse()));
};
syncBuiltinESMExports();
