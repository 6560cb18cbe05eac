import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { expect, test } from "vitest";
import { readSecret } from "@/app/_commands/read-secret.mjs";

test("the secret is made once, long enough, and readable by its owner only", () => {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), "colla-secret-"));
  const file = path.join(folder, "secret");
  const secret = readSecret(file);
  expect(secret).toMatch(/^[0-9a-f]{64}$/);
  expect(readSecret(file)).toBe(secret);
  expect(fs.statSync(file).mode & 0o777).toBe(0o600);
  expect(readSecret(path.join(folder, "other"))).not.toBe(secret);
  fs.rmSync(folder, { recursive: true });
});
