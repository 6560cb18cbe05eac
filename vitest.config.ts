import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

const root = fileURLToPath(new URL(".", import.meta.url));
const database = "./test/setup/database.ts";
const built = "./test/setup/built-product.ts";
const workers = "./test/setup/bundled-workers.ts";

export default defineConfig({
  resolve: { alias: [{ find: /^@\//, replacement: root }] },
  test: {
    maxWorkers: 2,
    setupFiles: ["./test/setup/laws.ts"],
    // A limit for what hangs, not a measure: two cores may be busy with other things.
    testTimeout: 60_000,
    hookTimeout: 120_000,
    projects: [
      // Whatever no other project names, so that no test falls between two.
      project("core", {
        include: ["test/**"],
        exclude: ["test/lib/store/**", "test/prisma/**", "test/realtime/**", "test/app/**", "test/e2e/**"],
        globalSetup: [workers],
      }),
      project("store", {
        include: ["test/lib/store/**", "test/prisma/**"],
        globalSetup: [database, workers],
      }),
      project("realtime", { include: ["test/realtime/**"], globalSetup: [database] }),
      project("app", { include: ["test/app/**"], globalSetup: [database, workers] }),
      project("e2e", {
        include: ["test/e2e/**"],
        globalSetup: [database, built],
        fileParallelism: false,
        testTimeout: 300_000,
        hookTimeout: 300_000,
        // A limit for what hangs, as in test/e2e/person.ts: a busy machine takes its time.
        expect: { poll: { timeout: 60_000 } },
      }),
    ],
  },
});

interface ProjectTests {
  include: string[];
  exclude?: string[];
  globalSetup?: string[];
  fileParallelism?: boolean;
  testTimeout?: number;
  hookTimeout?: number;
  expect?: { poll: { timeout: number } };
}

/** A group of test files that share what has to stand before they run. */
function project(name: string, { include, ...tests }: ProjectTests) {
  const files = include.map((folder) => `${folder}/*.test.{ts,tsx}`);
  return { extends: true as const, test: { ...tests, name, include: files } };
}
