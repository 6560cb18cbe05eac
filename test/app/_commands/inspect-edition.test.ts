import { strToU8, unzipSync, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { writeEditionArchive } from "@/lib/edition/archive/write-edition-archive";
import { buildEditionArchive } from "@/test/builders/build-edition-archive";
import { inspect, openFolder } from "./inspect-command";

const { write } = openFolder();

const archive = buildEditionArchive();
const exported = writeEditionArchive(archive);
const files = unzipSync(exported);
const changed = zipSync({ ...files, "README.txt": strToU8("Everything is fine.") });

describe("npm run -s inspect -- EDITION.zip", () => {
  const file = write("edition.zip", exported);

  it("says that everything holds, and ends with 0", () => {
    const { status, stdout, stderr } = inspect(file);
    expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
    expect(stdout).toContain("Concertino · Véra N., edition № 3");
    expect(stdout).toContain("Everything holds.");
    expect(stdout).toContain("The chain is whole: № 1 to № 3");
  });

  it("prints the same as JSON", () => {
    const { status, stdout } = inspect(file, "--json");
    expect(status).toBe(0);
    expect(JSON.parse(stdout)).toMatchObject({ kind: "edition", number: 3, isWhole: true });
  });

  it("ends with 1 for one that was changed", () => {
    const { status, stdout, stderr } = inspect(write("changed.zip", changed));
    expect({ status, stderr }).toEqual({ status: 1, stderr: "" });
    expect(stdout).toContain("One thing does not hold.");
    expect(stdout).toContain("NO   README.txt was changed after it was packed.");
  });

  it("ends with 1 and a sentence for one that is not whole", () => {
    const { "manifest.json": _list, ...rest } = files;
    const { status, stdout, stderr } = inspect(write("halved.zip", zipSync(rest)));
    expect({ status, stdout }).toEqual({ status: 1, stdout: "" });
    expect(stderr).toMatch(/^The archive is not whole: manifest\.json is missing\./);
  });

  it("ends with 1 and a sentence for --cuts, which is for scores", () => {
    const { status, stdout, stderr } = inspect(file, "--cuts");
    expect({ status, stdout }).toEqual({ status: 1, stdout: "" });
    expect(stderr).toMatch(/^This is an exported edition/);
  });
});
