import { describe, expect, test } from "vitest";
import type { DeskCut } from "@/app/_data/desk/desk";
import type { DeskRewrite } from "@/app/_data/desk/hands-desk";
import { listPlaces } from "@/app/(desk)/pieces/[pieceId]/hands/_components/list-places";
import {
  cutOver,
  rewriteOf,
  sayStanding,
  sharesBars,
  stateOfPassage,
} from "@/app/(desk)/pieces/[pieceId]/hands/_components/passage-state";
import type { Strain } from "@/lib/hands/strain";
import { quarters } from "@/lib/score/quarters";
import type { PassageAtPace } from "@/lib/study/hands-at-tempo";

const rewrite = (change: Partial<DeskRewrite> = {}): DeskRewrite => ({
  ...{ id: "r", number: 1, authorId: "p", termsHash: "0".repeat(64), sharing: "told", reason: "" },
  terms: {
    ...{ kind: "rewrite", sourceHash: "0".repeat(64), partId: "P2", events: [], shown: "ossia" },
    ...{ words: "tremolo", from: { barIndex: 10, offset: "0" }, to: { barIndex: 14, offset: "0" } },
  },
  ...{ createdAt: "2026-03-01T00:00:00.000Z", takenOffAt: null, proposal: null, frozenIn: [] },
  ...{ stands: true, name: "bars 10–13", fromBar: 10, toBar: 13 },
  ...{ isAsPrinted: false, isStale: false, waitsForMe: false },
  ...change,
});

const asked = (state: DeskCut["state"]): Partial<DeskRewrite> => ({
  sharing: "asked",
  stands: state === "agreed",
  proposal: { id: "q", state, reason: "", answers: [] },
});

const cut = (state: DeskCut["state"], firstBar: number, lastBar: number) =>
  ({ id: state, number: 2, state, firstBar, lastBar, isStale: false }) as DeskCut;

describe("how it stands with a rewrite", () => {
  test.each<[string, Partial<DeskRewrite>]>([
    ["told Matthis", {}],
    ["own rewrite, only you", { sharing: "only_me", stands: false }],
    ["kept as printed", { sharing: "only_me", stands: false, isAsPrinted: true }],
    ["waits for Matthis", asked("open")],
    ["agreed", asked("agreed")],
    ["Matthis declined", asked("declined")],
    ["asked, then taken back", asked("withdrawn")],
    ["in № 3", { frozenIn: [1, 3] }],
    ["own rewrite, only you", { frozenIn: [3], stands: false, sharing: "only_me" }],
  ])("%s", (words, change) => {
    expect(sayStanding(rewrite(change), "Matthis")).toBe(words);
  });
});

describe("the rewrite of some bars", () => {
  const bars = { fromBar: 12, toBar: 12 };
  test("is one that shares a bar with them, the one that stands before others", () => {
    const own = rewrite({ id: "own", sharing: "only_me", stands: false });
    const told = rewrite({ id: "told" });
    expect(rewriteOf([told, own], bars)?.id).toBe("told");
    expect(rewriteOf([own], bars)?.id).toBe("own");
    expect(rewriteOf([told, rewrite({ id: "asked", ...asked("open") }), own], bars)?.id).toBe("asked");
    expect(rewriteOf([told], { fromBar: 14, toBar: 20 })).toBeNull();
  });

  test("is none that was taken off or written for another file", () => {
    expect(rewriteOf([rewrite({ takenOffAt: "2026-03-02T00:00:00.000Z" })], bars)).toBeNull();
    expect(rewriteOf([rewrite({ isStale: true })], bars)).toBeNull();
  });

  test("bars share a bar, or they do not", () => {
    expect(sharesBars({ fromBar: 1, toBar: 4 }, { fromBar: 4, toBar: 4 })).toBe(true);
    expect(sharesBars({ fromBar: 1, toBar: 4 }, { fromBar: 5, toBar: 9 })).toBe(false);
  });
});

describe("the state of a passage", () => {
  const passage = { fromBar: 10, toBar: 13 };
  const state = (
    change: { rewrite?: DeskRewrite; cut?: DeskCut | null; isEasyWhenShared?: boolean },
    offers: number | null,
  ) =>
    stateOfPassage(
      {
        rewrite: change.rewrite ?? null,
        cut: change.cut ?? null,
        other: "Matthis",
        isEasyWhenShared: change.isEasyWhenShared ?? false,
      },
      offers,
    );

  test.each([
    [3, "rewrite suggested"],
    [0, "nothing easier found"],
    [null, ""],
  ])("with %s suggestions: %s", (offers, words) => {
    expect(state({}, offers)).toEqual({ words, place: null, isSolved: false });
  });

  test("lies in a cut, agreed before proposed, and is not played once it is agreed", () => {
    const cuts = [cut("open", 8, 20), cut("agreed", 9, 13), cut("agreed", 11, 40)];
    expect(cutOver(cuts, passage)).toBe(cuts[1]);
    expect(cutOver([cuts[2] as DeskCut], passage)).toBeNull();
    expect(state({ cut: cuts[1] }, 2)).toEqual({
      words: "not played",
      place: "Inside cut 2",
      isSolved: true,
    });
    expect(state({ cut: cuts[0] }, 2)).toEqual({
      ...{ words: "waits for the cut", place: "Inside cut 2, not yet agreed", isSolved: false },
    });
  });

  test("is settled by what is played, not by what was declined", () => {
    expect(state({ rewrite: rewrite() }, 2).isSolved).toBe(true);
    expect(state({ rewrite: rewrite(asked("open")) }, 2).isSolved).toBe(true);
    expect(state({ rewrite: rewrite(asked("declined")) }, 2).isSolved).toBe(false);
  });
});

describe("the list", () => {
  const strain: Strain = {
    ...({ kind: "repeated chord", hand: "right" } as const),
    ...{ load: 1.4, isTimed: true, figure: 8.4, limit: 6 },
    ...{ availableSeconds: null, isOfOctaves: false, noteIds: [], at: { barIndex: 10, offset: quarters(0) } },
  };
  const passage = (fromBar: number, toBar: number): PassageAtPace => ({
    ...{ fromBar, toBar, verdict: "awkward", difficulty: 60, kind: "repeated chord", hand: "right" },
    ...{ strain, strains: [strain], isEasyWhenShared: false, comfortablePace: 0.7 },
  });

  test("has passages and the rewrites of other bars in the order of the page, numbered", () => {
    const elsewhere = rewrite({ id: "elsewhere", number: 2, fromBar: 3, toBar: 4 });
    const places = listPlaces({
      ...{ passages: [passage(10, 13), passage(30, 31)], rewrites: [rewrite(), elsewhere], cuts: [] },
      ...{ other: "Matthis", offersOf: () => 1 },
    });
    expect(places.map(({ number, fromBar, name, state }) => [number, fromBar, name, state.words])).toEqual([
      [1, 3, null, "told Matthis"],
      [2, 10, "Repeated chords, right hand", "told Matthis"],
      [3, 30, "Repeated chords, right hand", "rewrite suggested"],
    ]);
    expect(places[1]?.figures).toBe("8.4 a second; you manage 6");
  });
});
