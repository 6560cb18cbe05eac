import { beforeEach, expect, test } from "vitest";
import { database } from "@/lib/store/database";
import { listCueHints } from "@/lib/store/hints/list-cue-hints";
import { setCueHint } from "@/lib/store/hints/set-cue-hint";
import { bringDuo, type Duo, kindOf, openStoreForFile, valued } from "../duo";

openStoreForFile();
let duo: Duo;
beforeEach(async () => {
  duo = await bringDuo();
});

const textsFor = async (person: Duo["pianist"]) =>
  valued(await listCueHints(person, duo.pieceId)).map(({ instrument, text }) => `${instrument} ${text}`);

test("both players write, the newest is first, and every wording is kept", async () => {
  valued(await setCueHint(duo.pianist, duo.pieceId, { instrument: " Cor. ", text: "round" }));
  valued(await setCueHint(duo.soloist, duo.pieceId, { instrument: "Cor.", text: "rounder\n" }));
  valued(await setCueHint(duo.pianist, duo.pieceId, { instrument: "Fl.", text: "light" }));
  valued(await setCueHint(duo.soloist, duo.pieceId, { instrument: "Cor.", text: "" }));
  expect(await textsFor(duo.coach)).toEqual(["Cor. ", "Fl. light", "Cor. rounder", "Cor. round"]);
  expect(await textsFor(duo.reader)).toEqual([]);
  expect(kindOf(await listCueHints(duo.stranger, duo.pieceId))).toBe("not-found");
});

test("the same words again are no other words", async () => {
  const hint = { instrument: "Fl.", text: "light" };
  const first = valued(await setCueHint(duo.pianist, duo.pieceId, hint));
  expect(valued(await setCueHint(duo.soloist, duo.pieceId, hint))).toEqual(first);
  expect(await textsFor(duo.pianist)).toEqual(["Fl. light"]);
});

test("a coach and a reader write none, and no row is ever changed", async () => {
  const hint = { instrument: "Fl.", text: "light" };
  for (const person of [duo.coach, duo.reader])
    expect(kindOf(await setCueHint(person, duo.pieceId, hint))).toBe("not-allowed");
  expect(kindOf(await setCueHint(duo.pianist, duo.pieceId, { instrument: " ", text: "x" }))).toBe(
    "invalid-input",
  );
  valued(await setCueHint(duo.pianist, duo.pieceId, hint));
  const changed = database().cueHint.updateMany({ data: { text: "heavy" } });
  await expect(changed).rejects.toThrow(/never changed/);
});
