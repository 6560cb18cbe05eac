import { beforeAll, describe, expect, test } from "vitest";
import { endEngraver } from "@/lib/engrave/engraver";
import { readBarEvents } from "@/lib/rewrites/read-bar-events";
import { toRewriteTerms } from "@/lib/rewrites/to-rewrite-terms";
import { drawPassage } from "@/lib/store/passages/draw-passage";
import { readPieceScore } from "@/lib/store/pieces/read-piece-score";
import { bringDuo, type Duo, openStoreForFile, valued } from "../duo";

openStoreForFile();
let duo: Duo;
beforeAll(async () => {
  duo = await bringDuo();
});

const asked = (change: object = {}) => ({
  ...{ sourceHash: duo.sourceHash, fromBar: 4, toBar: 5, rewrite: null, as: "printed" },
  ...change,
});
const draw = (change: object = {}, viewer = duo.pianist, pieceId = duo.pieceId) =>
  drawPassage(viewer, pieceId, asked(change));

/** The print of two bars, the upper staff an octave higher. */
async function higher(bars: readonly [number, number] = [4, 5]) {
  const { score } = valued(await readPieceScore(duo.pianist, duo.pieceId));
  const part = score.parts.find(({ role }) => role === "reduction")!;
  return toRewriteTerms({
    ...{ sourceHash: duo.sourceHash, partId: part.id, fromBar: bars[0], words: "an octave higher" },
    to: { barIndex: bars[1] + 1, offset: "0" },
    bars: Array.from({ length: bars[1] - bars[0] + 1 }, (_, index) =>
      readBarEvents(score, part, bars[0] + index).map((event) => ({
        ...event,
        pitches: event.pitches.map((pitch) =>
          event.staff === 1 ? { ...pitch, octave: pitch.octave + 1 } : pitch,
        ),
      })),
    ),
  });
}

const refusal = async (change: object) => {
  const drawn = await draw(change);
  if (drawn.ok) throw new Error("it was drawn");
  return drawn.problem;
};

describe("a passage that is asked for", () => {
  test.each(["pianist", "soloist", "coach", "reader"] as const)("is drawn for the %s", async (role) => {
    const passage = valued(await draw({}, duo[role]));
    expect(passage.systems.flatMap(({ bars }) => bars.map(({ barIndex }) => barIndex))).toEqual([4, 5]);
    expect(passage.bars.map(({ label }) => label)).toEqual(["5", "6"]);
    expect(passage.staffCount).toBe(2);
  });

  test("is not there for a stranger, whatever they ask for", async () => {
    for (const change of [{}, { fromBar: -1 }, { sourceHash: "" }, { rewrite: await higher() }])
      expect(await draw(change, duo.stranger)).toEqual({ ok: false, problem: { kind: "not-found" } });
  });

  test("has the rewrite instead of the print, or over it", async () => {
    const rewrite = await higher();
    const octaves = async (as: string, isOssia: boolean) => {
      const { notes } = valued(await draw({ rewrite, as }));
      return notes
        .filter((note) => note.isOssia === isOssia)
        .map(({ octave, staff }) => `${staff}:${octave}`);
    };
    expect(await octaves("printed", false)).toEqual(["1:4", "2:3", "1:4", "2:3"]);
    expect(await octaves("instead", false)).toEqual(["1:5", "2:3", "1:5", "2:3"]);
    expect(await octaves("ossia", false)).toEqual(["1:4", "2:3", "1:4", "2:3"]);
    expect(await octaves("ossia", true)).toEqual(["1:5", "1:5"]);
  });

  test("is drawn again after the engraver was let go, from the stored bytes", async () => {
    const first = valued(await draw({ layout: "tablet" }));
    endEngraver();
    const again = valued(await draw({ layout: "tablet", fromBar: 4, toBar: 6 }));
    expect(again.bars.map(({ label }) => label)).toEqual(["5", "6", "7"]);
    expect(valued(await draw({ layout: "tablet" }))).toEqual(first);
  });

  test("of another file of the piece is refused", async () => {
    expect(await refusal({ sourceHash: "0".repeat(64) })).toMatchObject({ kind: "stale-terms" });
  });

  test("draws no rewrite that does not fit the music, and says what is wrong", async () => {
    const rewrite = await higher();
    const [first, ...others] = rewrite.events;
    const wrong: [object, RegExp][] = [
      [{ rewrite: { ...rewrite, sourceHash: "0".repeat(64) } }, /another file/],
      [{ rewrite: { ...rewrite, partId: "P1" } }, /not the part that the pianist plays/],
      [{ rewrite: { ...rewrite, events: others } }, /not as long as it is printed/],
      [{ rewrite: { ...rewrite, events: [{ ...first!, lasts: "5" }, ...others] } }, /bar 5/],
      [{ rewrite: await higher([3, 4]) }, /outside the bars/],
      [{ rewrite: { ...rewrite, events: "many" } }, /events/],
      [{ rewrite: { ...rewrite, extra: 1 } }, /./],
      [{ fromBar: 22, toBar: 24 }, /24 bars/],
      [{ fromBar: 5, toBar: 4 }, /one to 64 bars/],
      [{ fromBar: 0, toBar: 64 }, /one to 64 bars/],
      [{ as: "otherwise" }, /./],
    ];
    for (const [change, sentence] of wrong) {
      const problem = await refusal({ as: "instead", ...change });
      expect(problem).toMatchObject({ kind: "invalid-input", sentence: expect.stringMatching(sentence) });
    }
  });
});
