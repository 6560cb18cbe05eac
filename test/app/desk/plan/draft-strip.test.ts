import { expect, test } from "vitest";
import type { Desk, DeskCut, DeskPerson } from "@/app/_data/desk/desk";
import { numberCuts, stripWithDrafts } from "@/app/(desk)/pieces/[pieceId]/plan/_components/draft-strip";
import { areEndsHere, findNothingToPlan } from "@/app/(desk)/pieces/[pieceId]/plan/_components/plan-question";
import { candidate } from "./a-plan";

const person = (userId: string, role: DeskPerson["role"]): DeskPerson => ({
  ...{ userId, role, name: userId, initial: userId.charAt(0), hasLeft: false },
});
const [me, other] = [person("Ada", "pianist"), person("Bram", "soloist")];
const ends = (from: number, to: number) => ({
  from: { barIndex: from, offset: "0" },
  to: { barIndex: to, offset: "0" },
});

function desk(cuts: readonly Partial<DeskCut>[]) {
  const strip = {
    cuts: [
      { id: "a", state: "agreed" },
      { id: "o", state: "open" },
    ],
  } as unknown as Desk["strip"];
  return { me, people: [me, other], strip, cuts: cuts as readonly DeskCut[] };
}

const proposed = { id: "c", number: 4, state: "open", proposedBy: "Bram", ...ends(40, 44) } as const;
const set = [candidate(8, 16), candidate(40, 44), candidate(60, 64)];

test("drafts bear the numbers that they will have, and what is proposed already its own", () => {
  expect(numberCuts(desk([proposed, { number: 6, state: "declined", ...ends(1, 2) }]), set)).toEqual([
    7, 4, 8,
  ]);
  expect(numberCuts(desk([]), set)).toEqual([1, 2, 3]);
});

test("the strip has the agreed cuts and the set: drafts in my ink, what is proposed already in its proposer's", () => {
  const strip = stripWithDrafts(desk([proposed]), set);
  expect(strip.cuts.map(({ id, state, ink }) => [id.length === 1 ? id : "draft", state, ink])).toEqual([
    ["a", "agreed", undefined],
    ["draft", "open", "pf"],
    ["draft", "open", "so"],
    ["draft", "open", "pf"],
  ]);
  expect(strip.cuts[1]).toMatchObject({ barCount: 8, savedSeconds: 8, gaps: [{ from: 8, to: 16 }] });
});

test("a cut that was proposed for another file is another cut", () => {
  expect(numberCuts(desk([{ ...proposed, isStale: true }]), set)).toEqual([5, 6, 7]);
});

test("what can be planned at all", () => {
  const tuttis = [{}] as unknown as Desk["tuttis"];
  expect(findNothingToPlan({ knowsSolo: false, tuttis: [] })).toBe("no-solo");
  expect(findNothingToPlan({ knowsSolo: true, tuttis: [] })).toBe("no-tuttis");
  expect(findNothingToPlan({ knowsSolo: true, tuttis })).toBeNull();
});

test("ends in an address may name bars that are not there", () => {
  const bars = Array.from({ length: 10 }, (_, at) => ({ label: `${at}`, length: "4", beats: [], solo: "" }));
  expect(areEndsHere({ bars }, ends(2, 5))).toBe(true);
  expect(areEndsHere({ bars }, ends(5, 2))).toBe(false);
  expect(areEndsHere({ bars }, ends(2, 10))).toBe(false);
  expect(areEndsHere({ bars }, { ...ends(2, 5), from: { barIndex: 2, offset: "5" } })).toBe(false);
});
