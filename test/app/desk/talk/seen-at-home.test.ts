import { expect, test } from "vitest";
import { seenAtHome } from "@/app/(desk)/pieces/[pieceId]/_talk/seen-at-home";

/** The part of a browser's storage that is used. */
function storage(): Storage {
  const kept = new Map<string, string>();
  return {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
    removeItem: (key: string) => void kept.delete(key),
  } as Storage;
}

test("what was seen outlives the page, until the server knows it", () => {
  const disk = storage();
  seenAtHome(disk, "n", "piece").add("a");
  seenAtHome(disk, "n", "piece").add("b");
  seenAtHome(disk, "n", "piece").add("b");
  const again = seenAtHome(disk, "n", "piece");
  expect(again.read()).toEqual(["a", "b"]);
  again.forget(["a"]);
  expect(seenAtHome(disk, "n", "piece").read()).toEqual(["b"]);
  again.forget(["b"]);
  expect(disk.getItem("colla-seen-n-piece")).toBeNull();
});

test("another person and another piece see nothing of it", () => {
  const disk = storage();
  seenAtHome(disk, "n", "piece").add("a");
  expect(seenAtHome(disk, "m", "piece").read()).toEqual([]);
  expect(seenAtHome(disk, "n", "other").read()).toEqual([]);
});

test("what is not a list of comments is passed over, and a full disk loses nothing of this page", () => {
  const disk = storage();
  disk.setItem("colla-seen-n-piece", '{"a":1}');
  const odd = seenAtHome(disk, "n", "piece");
  expect(odd.read()).toEqual([]);
  const full = {
    ...storage(),
    setItem: () => {
      throw new Error("full");
    },
  } as Storage;
  for (const kept of [seenAtHome(full, "n", "piece"), seenAtHome(null, "n", "piece")]) {
    kept.add("a");
    kept.add("b");
    expect(kept.read()).toEqual(["a", "b"]);
  }
});
