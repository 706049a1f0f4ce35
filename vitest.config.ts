import { defineConfig } from "vitest/config";

/** Tests that wait for a running clock, each on a page of its own: a busy machine would make the pages late. */
const clock = ["tests/browser/practice{,-song}.test.ts"];

/** Tests that hold the screen against the clock to the moment: they have the machine to themselves. */
const moment = ["tests/browser/practice-clicks.test.ts"];

export default defineConfig({
  test: {
    testTimeout: 60_000,
    hookTimeout: 120_000,
    globalSetup: ["tests/global-setup.ts"],
    setupFiles: ["tests/setup.ts"],
    projects: [
      {
        extends: true,
        test: {
          name: "side by side",
          include: ["tests/**/*.test.ts"],
          exclude: ["tests/bench/**", "**/node_modules/**", ...clock, ...moment],
          maxWorkers: "100%",
          isolate: false,
          sequence: { groupOrder: 0 },
        },
      },
      {
        extends: true,
        test: { name: "by the clock", include: clock, maxWorkers: 2, maxConcurrency: 10, sequence: { groupOrder: 1 } },
      },
      {
        extends: true,
        test: { name: "to the moment", include: moment, maxWorkers: 1, sequence: { groupOrder: 2 } },
      },
    ],
  },
});
