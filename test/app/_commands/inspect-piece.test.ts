import { strToU8, unzipSync, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { writePieceArchive } from "@/lib/archive/write-piece-archive";
import { buildFullPiece } from "@/test/builders/build-piece-archive";
import { inspect, openFolder } from "./inspect-command";

const { write } = openFolder();
const packed = writePieceArchive(buildFullPiece());
const files = unzipSync(packed);

describe("npm run -s inspect -- PIECE.zip", () => {
  const file = write("piece.zip", packed);

  it("says that everything holds, and ends with 0", () => {
    const { status, stdout, stderr } = inspect(file);
    expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
    expect(stdout).toContain("the whole piece");
    expect(stdout).toContain("Everything holds.");
    expect(stdout).toContain("yes  Every cut, tempo and rest can be played in its music.");
  });

  it("prints the same as JSON", () => {
    const { status, stdout } = inspect(file, "--json");
    expect(status).toBe(0);
    expect(JSON.parse(stdout)).toMatchObject({ kind: "piece", isWhole: true });
  });

  it("ends with 1 for one that was changed, and names the file", () => {
    const changed = zipSync({ ...files, "README.txt": strToU8("Everything is fine.") });
    const { status, stdout, stderr } = inspect(write("changed.zip", changed));
    expect({ status, stderr }).toEqual({ status: 1, stderr: "" });
    expect(stdout).toContain("2 things do not hold.");
    expect(stdout).toContain("NO   README.txt was changed after it was packed.");
  });

  it("ends with 1 and a sentence for each file that cannot be read", () => {
    const { "proposals.json": _one, "room.json": _other, ...rest } = files;
    const { status, stdout, stderr } = inspect(write("halved.zip", zipSync(rest)));
    expect({ status, stdout }).toEqual({ status: 1, stdout: "" });
    expect(stderr).toContain("proposals.json is missing.");
    expect(stderr).toContain("room.json is missing.");
  });

  it("ends with 1 and a sentence for --cuts, which is for scores", () => {
    expect(inspect(file, "--cuts")).toMatchObject({ status: 1, stdout: "" });
  });
});
