import { describe, expect, test } from "vitest";
import { robbed, sayNeedUnder, tellingNeed } from "@/app/(desk)/pieces/[pieceId]/_cuts/say-need";
import { sayToday } from "@/app/(desk)/pieces/[pieceId]/_cuts/say-why";
import { checkRestNeeds } from "@/lib/breath/check-rest-needs";
import type { CutReasons } from "@/lib/edition/cut-reasons";
import type { RestAmount, RestNeed } from "@/lib/edition/rest-need";
import { at } from "@/test/builders/build-score";
import { cutAt, people, pianist, soloist, study } from "./desk-of-concertino";

/** The tutti at F: 22 bars, about 0:46. */
const need = (needs: RestAmount, change: Partial<RestNeed> = {}): RestNeed => ({
  ...{ id: "n", from: at(98), to: at(118), why: "lip", releasedBy: null, needs },
  ...change,
});
const under = (one: RestNeed, from: number, to: number) =>
  checkRestNeeds(study.score, study.map, [{ from: at(from), to: at(to) }], [one]);
const say = (one: RestNeed, from: number, to: number, me = pianist) => {
  const [checked] = under(one, from, to);
  if (!checked) throw new RangeError("no need");
  const { point, rest } = sayNeedUnder({ people, me }, checked);
  return `${point} ${rest}`;
};

describe("a needed rest under a cut", () => {
  test.each([
    [need({ seconds: 25 }), 104, 112, pianist, /^0:0\d more than the 0:25 Bram asked for$/],
    [need({ seconds: 25 }), 104, 112, soloist, /^0:0\d more than the 0:25 you asked for$/],
    [need({ seconds: 40 }), 104, 112, pianist, /^0:(0|1)\d short of the 0:40 Bram asked for$/],
    [need({ seconds: 90 }), 50, 58, pianist, /short of the 1:30 Bram asked for, with or without this cut$/],
    [need({ bars: 20 }), 104, 112, pianist, /^\d bars short of the 20 bars Bram asked for$/],
    [need({ seconds: 40 }, { releasedBy: "s" }), 104, 112, pianist, /^Let go: the 0:40 Bram asked for$/],
  ])("%#", (one, from, to, me, said) => {
    expect(say(one, from, to, me)).toMatch(said);
  });

  test("what is missing and what is there make up what is needed", () => {
    const [checked] = under(need({ seconds: 40 }), 104, 112);
    expect((checked?.seconds.after ?? 0) + (checked?.seconds.shortBy ?? 0)).toBeCloseTo(40, 2);
  });

  test("what is robbed comes before what is kept", () => {
    const both = [...under(need({ seconds: 25 }), 104, 112), ...under(need({ seconds: 40 }), 104, 112)];
    expect(tellingNeed(both)?.verdict).toBe("short");
    expect(robbed(both)).toHaveLength(1);
    expect(tellingNeed([])).toBeNull();
  });
});

describe("reasons that were kept", () => {
  const judged = cutAt(104, 112);
  const kept: CutReasons = {
    ...{ schema: 1, grade: "clean", sentences: [], plan: null },
    savedSeconds: judged.weight.savedSeconds,
  };
  const same = judged.join.grade === "needs-a-touch" ? "needs a touch" : judged.join.grade;

  test("are not repeated where today's judgement is the same, or is not known", () => {
    expect(sayToday({ ...kept, grade: same }, judged)).toBeNull();
    expect(sayToday({ ...kept, grade: "rough" }, null)).toBeNull();
  });

  test("stand beside today's grade and time where these differ", () => {
    const other = same === "rough" ? "clean" : "rough";
    expect(sayToday({ ...kept, grade: other }, judged)).toMatch(new RegExp(`^the join is ${same}\\.`));
    expect(sayToday({ ...kept, grade: same, savedSeconds: 99 }, judged)).toMatch(
      /^\d:\d\d shorter beside the cuts agreed now\.$/,
    );
  });
});
