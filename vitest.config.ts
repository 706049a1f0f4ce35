import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    exclude: ["tests/bench/**", "**/node_modules/**"],
    // By itself it leaves one core free, which on a machine with two is half of them.
    maxWorkers: "100%",
    testTimeout: 60_000,
    hookTimeout: 120_000,
  },
});
