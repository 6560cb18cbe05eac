import { describe, expect, it } from "vitest";
import { assessJoin } from "@/lib/cuts/join/assess-join";
import { precedentOf } from "@/lib/cuts/join/join-signs";
import { listen } from "@/lib/cuts/join/listen";
import { at, buildScore } from "../../../builders/build-score";

/** Bars that are unlike each other, in C and a tone higher. */
const inC = {
  a: "c4+e4+g4:h c5:q g4",
  b: "f4+a4+c5:h f5:q d5",
  c: "b4:e c5 b4 a4 g#4:h",
  d: "e5:q e4 f#4 d#5",
  e: "d4+g4+b4:h. r:q",
  f: "c4:q c5 b4 c5",
};
const inD: typeof inC = {
  a: "d4+f#4+a4:h d5:q a4",
  b: "g4+b4+d5:h g5:q e5",
  c: "c#5:e d5 c#5 b4 a#4:h",
  d: "f#5:q f#4 g#4 e#5",
  e: "e4+a4+c#5:h. r:q",
  f: "d4:q d5 c#5 d5",
};

function hear(bars: string, other: typeof inC = inC) {
  const [first = "", second = ""] = bars.split("/");
  const write = (names: string, from: typeof inC) =>
    names
      .trim()
      .split(" ")
      .map((name) => from[name as keyof typeof inC])
      .join(" | ");
  return listen(buildScore({ piano: `${write(first, inC)} | ${write(second, other)}` }));
}

describe("the piece's own joins", () => {
  // The second time the composer goes from b straight on to e.
  const shortened = "a b c d e f / a b e f c d";

  it("finds where the composer leaves the same bars out", () => {
    const cut = { from: at(2), to: at(4) };
    expect(precedentOf(hear(shortened), cut)).toEqual({
      kind: "elsewhere",
      barIndex: 8,
      semitones: 0,
      likeness: 1,
    });
  });

  it("finds it on another degree too", () => {
    const cut = { from: at(2), to: at(4) };
    const heard = hear(shortened, inD);
    expect(precedentOf(heard, cut)).toMatchObject({
      kind: "elsewhere",
      barIndex: 8,
      semitones: 2,
      likeness: 1,
    });
    const row = assessJoin(heard, cut).rows.find(({ kind }) => kind === "precedent");
    expect(row?.sentence).toBe("The composer makes this join at bar 9, a tone higher.");
  });

  it("tells when the landing has the same bars before it", () => {
    expect(precedentOf(hear("a b c d / a b e f"), { from: at(2), to: at(6) })).toMatchObject({
      kind: "same-before",
      barIndex: 6,
      likeness: 1,
    });
  });

  it("tells when the music goes on the same as without the cut", () => {
    expect(precedentOf(hear("c d a b f / e a b d"), { from: at(2), to: at(6) })).toMatchObject({
      kind: "same-after",
      barIndex: 2,
      likeness: 1,
    });
  });

  it("finds none where there is none", () => {
    expect(precedentOf(hear("a b c d e f / f e d c b a"), { from: at(2), to: at(4) })).toBeNull();
  });

  it("has none for a join between different places of the metre", () => {
    expect(precedentOf(hear(shortened), { from: at(2, 1), to: at(4) })).toBeNull();
  });
});
