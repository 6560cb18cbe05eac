import { describe, expect, it } from "vitest";
import type { Desk } from "@/app/_data/desk/desk";
import { listenFrom } from "@/app/(desk)/pieces/[pieceId]/_components/listen-from";

/** Bars 0 to 3, the middle two played twice; a second each. */
const played = [0, 1, 2, 1, 2, 3];
const bars = played.map((barIndex, at) => ({ barIndex, label: `${barIndex + 1}`, from: at, to: at + 1 }));

function desk(...agreed: (readonly [number, number])[]): Pick<Desk, "bars" | "cuts" | "strip"> {
  const cuts = agreed.map(([from, to], number) => ({
    ...{ state: "agreed", isStale: false, number },
    ...{ from: { barIndex: from, offset: "0" }, to: { barIndex: to, offset: "0" } },
  }));
  return {
    bars: [0, 1, 2, 3].map(() => ({ length: "4" })),
    cuts,
    strip: { bars },
  } as unknown as Pick<Desk, "bars" | "cuts" | "strip">;
}

const start = { num: 0, den: 1 };

describe("what Listen plays", () => {
  it("is the whole piece at the beginning", () => {
    expect(listenFrom(desk(), { marking: null, cursor: 0.4 })).toEqual({
      kind: "piece",
      cuts: [],
      from: null,
    });
  });

  it.each([
    [1.5, 1, 1],
    [3.2, 1, 2],
    [5, 3, 1],
  ])("from second %d is the piece from bar index %i on, in round %i", (cursor, barIndex, pass) => {
    expect(listenFrom(desk(), { marking: null, cursor })).toMatchObject({
      kind: "piece",
      from: { barIndex, offset: start, pass },
    });
  });

  it("has the agreed cuts", () => {
    expect(listenFrom(desk([1, 2]), { marking: null, cursor: 0 }).cuts).toMatchObject([
      { from: { barIndex: 1 }, to: { barIndex: 2 } },
    ]);
  });

  it("is the marked bars, whichever way they were marked", () => {
    expect(listenFrom(desk(), { marking: { anchor: 2, head: 1 }, cursor: 0 })).toEqual({
      kind: "span",
      from: { barIndex: 1, offset: start },
      to: { barIndex: 3, offset: start },
      cuts: [],
    });
  });

  it("ends with the piece when the last bar is marked", () => {
    expect(listenFrom(desk(), { marking: { anchor: 3, head: 3 }, cursor: 0 })).toMatchObject({
      to: { barIndex: 3, offset: { num: 4, den: 1 } },
    });
  });

  it("lets marked bars be heard that a cut takes, and cuts what is only partly marked", () => {
    expect(listenFrom(desk([1, 3]), { marking: { anchor: 1, head: 2 }, cursor: 0 }).cuts).toEqual([]);
    expect(listenFrom(desk([1, 3]), { marking: { anchor: 0, head: 2 }, cursor: 0 }).cuts).toHaveLength(1);
  });
});
