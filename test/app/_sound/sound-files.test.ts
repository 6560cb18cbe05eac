import { describe, expect, it } from "vitest";
import { findSoundFile, soundAddresses } from "@/app/_sound/sound-files";
import { GET } from "@/app/sound/[file]/route";

const ask = (file: string) =>
  GET(new Request("https://desk.test/sound"), { params: Promise.resolve({ file }) });

describe("the files for sound", () => {
  it("are given out under the hash of their content, to be kept for good", async () => {
    const { bank, processor } = await soundAddresses();
    expect(bank).toMatch(/^\/sound\/general-midi-12\.[0-9a-f]{16}\.sf3$/);
    expect(processor).toMatch(/^\/sound\/processor\.[0-9a-f]{16}\.js$/);
    const answer = await ask(bank.replace("/sound/", ""));
    expect(answer.status).toBe(200);
    expect(answer.headers.get("cache-control")).toContain("immutable");
    const bytes = new Uint8Array(await answer.arrayBuffer());
    expect(new TextDecoder().decode(bytes.slice(0, 4))).toBe("RIFF");
    expect(answer.headers.get("content-length")).toBe(`${bytes.length}`);
  });

  it.each([
    "general-midi-12.sf3",
    "general-midi-12.0000000000000000.sf3",
    "../../package.json",
    "COPYRIGHT",
    "",
    "__proto__",
  ])("are no other files: %s", async (name) => {
    expect(await findSoundFile(name)).toBeNull();
    expect((await ask(name)).status).toBe(404);
  });
});
