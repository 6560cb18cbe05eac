import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

const root = fileURLToPath(new URL(".", import.meta.url));

export default defineConfig({
  resolve: { alias: { "@": root.replace(/\/$/, "") } },
  test: { include: ["test/**/*.test.{ts,tsx}"], maxWorkers: 2 },
});
