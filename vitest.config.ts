import { defineConfig } from "vitest/config";

/** Tests that hold the screen against a running clock, which a busy machine would make late. */
const clock = ["tests/browser/practice{,-clicks,-song}.test.ts"];

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
          exclude: ["tests/bench/**", "**/node_modules/**", ...clock],
          maxWorkers: "100%",
          isolate: false,
          sequence: { groupOrder: 0 },
        },
      },
      {
        extends: true,
        test: { name: "by the clock", include: clock, maxWorkers: 2, sequence: { groupOrder: 1 } },
      },
    ],
  },
});
