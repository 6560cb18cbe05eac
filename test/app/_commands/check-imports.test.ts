import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { checkImports } from "@/app/_commands/check-imports.mjs";
import { root } from "@/app/_commands/folders.mjs";

let house: string;

beforeEach(() => {
  house = fs.mkdtempSync(path.join(os.tmpdir(), "colla-house-"));
  for (const file of [".dependency-cruiser.cjs", "tsconfig.json", "package.json"])
    fs.copyFileSync(path.join(root, file), path.join(house, file));
  fs.symlinkSync(path.join(root, "node_modules"), path.join(house, "node_modules"));
  for (const folder of ["app", "lib", "realtime", "seed", "prisma", "test"])
    fs.mkdirSync(path.join(house, folder));
});

afterEach(() => fs.rmSync(house, { recursive: true }));

function write(name: string, content: string): void {
  const file = path.join(house, name);
  fs.mkdirSync(path.dirname(file), { recursive: true });
  fs.writeFileSync(file, content);
}

/** A file of ours that imports another one, which exists. */
function imports(from: string, to: string): void {
  const isOurs = /^(app|lib|realtime|seed|generated|test)\//.test(to);
  if (isOurs) write(`${to}.ts`, "export const thing = 1;\n");
  write(from, `import * as used from "${isOurs ? "@/" : ""}${to}";\nexport const kept = used;\n`);
}

test("having looked at nothing is a finding", () => {
  write("elsewhere.ts", "export const thing = 1;\n");
  expect(checkImports(house)).toEqual(["The import checker looked at 0 of our modules."]);
});

test("what the house allows passes", () => {
  imports("lib/musicxml/read.ts", "lib/score/score");
  imports("lib/store/create-piece.ts", "lib/engrave/pages");
  imports("app/(desk)/pieces/page.tsx", "lib/store/read-piece");
  imports("realtime/room.ts", "lib/room/keys");
  expect(checkImports(house)).toEqual([]);
});

test("what breaks a rule is found, each under the rule's name", () => {
  const broken: [rule: string, from: string, to: string][] = [
    ["lib-score-uses-only", "lib/score/one.ts", "lib/musicxml/read-score"],
    ["lib-tutti-uses-only", "lib/tutti/two.ts", "lib/breath/spans"],
    ["lib-cuts-uses-only", "lib/cuts/three.ts", "lib/store/database"],
    ["lib-room-uses-only", "lib/room/four.ts", "app/_ui/button"],
    ["lib-folder-is-known", "lib/utils/five.ts", "lib/score/pitch"],
    ["lib-is-free-of-the-web", "lib/score/six.ts", "react"],
    ["database-in-the-store-only", "app/seven.tsx", "pg"],
    ["yjs-in-the-room-only", "lib/edition/eight.ts", "yjs"],
    ["realtime-uses-only", "realtime/nine.ts", "app/_data/viewer"],
    ["app-knows-no-realtime", "app/ten.tsx", "realtime/door"],
    ["screens-know-no-store", "app/_ui/eleven.tsx", "lib/store/read-piece"],
    ["nothing-uses-the-seed", "app/twelve.tsx", "seed/load-demo"],
    ["product-uses-no-tests", "lib/score/thirteen.ts", "test/builders/solo"],
    ["product-needs-no-development-packages", "app/fourteen.tsx", "playwright-core"],
  ];
  for (const [, from, to] of broken) imports(from, to);
  write("lib/score/a.ts", 'import { b } from "./b";\nexport const a = () => b;\n');
  write("lib/score/b.ts", 'import { a } from "./a";\nexport const b = () => a;\n');
  const found = checkImports(house).map((finding) => finding.split(" → ")[0]);
  const expected = broken.map(([rule, from]) => `${rule}: ${from}`);
  expect(found).toEqual(expect.arrayContaining([...expected, "no-circles: lib/score/a.ts"]));
});
