import fs from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { checkLock } from "@/app/_commands/check-lock.mjs";

const prisma = Object.fromEntries(
  ["prisma", "@prisma/client", "@prisma/adapter-pg"].map((name) => [
    `node_modules/${name}`,
    { version: "7.10.0" },
  ]),
);

function check(packages: Record<string, object>): string[] {
  return checkLock(JSON.stringify({ packages: { "": {}, ...prisma, ...packages } }));
}

test("our own lock file is right", () => {
  const file = fileURLToPath(new URL("../../../package-lock.json", import.meta.url));
  expect(checkLock(fs.readFileSync(file, "utf8"))).toEqual([]);
});

test.each([
  ["16.4.0", false],
  ["15.9.9", false],
  ["16.4.1-canary.3", false],
  ["16.4.1", true],
  ["16.10.0", true],
  ["17.0.0", true],
])("next %s is safe: %s", (version, isSafe) => {
  expect(check({ "node_modules/next": { version } })).toHaveLength(isSafe ? 0 : 1);
});

test("a package below its floor is found wherever it is nested", () => {
  const [finding] = check({ "node_modules/next-auth/node_modules/nodemailer": { version: "7.0.7" } });
  expect(finding).toBe(
    "node_modules/next-auth/node_modules/nodemailer 7.0.7 is older than 9.1.0, the lowest safe one.",
  );
});

test("an address in the lock file is found", () => {
  const [finding] = check({
    "node_modules/pg": { version: "8.23.1", resolved: "https://packages.test/pg.tgz" },
  });
  expect(finding).toMatch(/node_modules\/pg is locked to an address/);
});

test("Prisma's parts must be one version", () => {
  const [finding] = check({ "node_modules/@prisma/client": { version: "7.9.0" } });
  expect(finding).toMatch(/are not one version: 7\.10\.0, 7\.9\.0/);
});
