import { once } from "node:events";
import fs from "node:fs";
import net from "node:net";
import os from "node:os";
import path from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { checkDisk, checkPort, sayPortFailure } from "@/app/_commands/check-place.mjs";
import { findFreePort } from "@/test/setup/start-product";

let folder: string;

beforeEach(() => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), "colla-place-"));
});

afterEach(() => fs.rmSync(folder, { recursive: true }));

async function occupy(port: number, host: string): Promise<net.Server> {
  const other = net.createServer().listen({ port, host });
  await once(other, "listening");
  return other;
}

describe("checkPort", () => {
  test("says nothing about a free port, and leaves it free", async () => {
    const port = await findFreePort();
    await checkPort("127.0.0.1", port);
    await checkPort("127.0.0.1", port);
  });

  test.each(["127.0.0.1", "0.0.0.0"])("names the port that another program has on %s", async (host) => {
    const port = await findFreePort();
    const other = await occupy(port, host);
    try {
      await expect(checkPort("127.0.0.1", port)).rejects.toThrow(
        `Port ${port} is taken by another program; stop it, or choose another port with PORT=${port + 1}.`,
      );
    } finally {
      other.close();
    }
  });

  test.each([
    ["EACCES", /may not listen on port 80; choose one above 1023/],
    ["EADDRNOTAVAIL", /not possible to listen on 192.0.2.1, port 80 \(EADDRNOTAVAIL\); check HOST/],
  ])("has words for %s", (code, sentence) => {
    expect(sayPortFailure("192.0.2.1", 80, code)).toMatch(sentence);
  });
});

describe("checkDisk", () => {
  test("makes the folders and leaves nothing in them", () => {
    const data = path.join(folder, "data");
    checkDisk(folder, [data], 1);
    expect(fs.readdirSync(data)).toEqual([]);
  });

  test("names a folder that cannot be written to", () => {
    const data = path.join(folder, "data");
    fs.writeFileSync(data, "a file where the folder should be");
    expect(() => checkDisk(folder, [data], 1)).toThrow(`The folder ${data} cannot be written to (`);
  });

  test("says how much room is missing", () => {
    const sentence = /^The disk that holds .* has \d+ MB free, and starting needs 1000000000000 MB\.$/;
    expect(() => checkDisk(folder, [], 1e12)).toThrow(sentence);
  });
});
