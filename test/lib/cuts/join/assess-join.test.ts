import { describe, expect, it } from "vitest";
import { assessJoin } from "@/lib/cuts/join/assess-join";
import type { JoinGrade, JoinRow, JoinRowKind } from "@/lib/cuts/join/join-row";
import { listen } from "@/lib/cuts/join/listen";
import type { Position } from "@/lib/score/position";
import { at, buildScore, type ScoreText } from "../../../builders/build-score";

const row = (text: ScoreText, from: Position, to: Position, kind: JoinRowKind): JoinRow | undefined =>
  assessJoin(listen(buildScore(text)), { from, to }).rows.find((one) => one.kind === kind);

interface Case {
  readonly what: string;
  readonly text: ScoreText;
  readonly from: Position;
  readonly to: Position;
  readonly kind: JoinRowKind;
  readonly grade: JoinGrade;
  readonly says: RegExp;
}

/** Twelve bars that hold C major fast, so that a row under test is not drowned in others. */
const cMajor = "c3+e4+g4:q g3+b3+d4:q c3+e4+g4:h";
const inC = (bars: number) => Array.from({ length: bars }, () => cMajor).join(" | ");
const inFSharp = (bars: number) =>
  Array.from({ length: bars }, () => "f#3+a#3+c#4:q c#3+e#4+g#4:q f#3+a#3+c#4:h").join(" | ");

const cases: readonly Case[] = [
  {
    what: "from bar line to bar line",
    text: { piano: inC(8) },
    from: at(2),
    to: at(4),
    kind: "metre",
    grade: "clean",
    says: /from bar line to bar line/,
  },
  {
    what: "from beat 3 to beat 3",
    text: { piano: inC(8) },
    from: at(2, 2),
    to: at(4, 2),
    kind: "metre",
    grade: "clean",
    says: /from beat 3 to the same beat/,
  },
  {
    what: "a beat too many in the landing's bar",
    text: { piano: inC(8) },
    from: at(2, 3),
    to: at(4, 2),
    kind: "metre",
    grade: "rough",
    says: /bar 3 comes out with five beats, too many/,
  },
  {
    what: "a beat too few",
    text: { piano: inC(8) },
    from: at(2),
    to: at(4, 1),
    kind: "metre",
    grade: "rough",
    says: /bar 5 comes out with three beats, too few/,
  },
  {
    what: "another metre",
    text: { piano: `${inC(4)} | 3/4 c3+e4+g4:h. | c3+e4+g4:h. | c3+e4+g4:h.` },
    from: at(2),
    to: at(5),
    kind: "metre",
    grade: "needs-a-touch",
    says: /changes from 4\/4 to 3\/4/,
  },
  {
    what: "the same key",
    text: { piano: inC(12) },
    from: at(4),
    to: at(8),
    kind: "key",
    grade: "clean",
    says: /Both sides are in C major/,
  },
  {
    what: "a tritone away",
    text: { piano: `${inC(8)} | d3+f4:q e3+g#4:q a3+c4:h | ${inFSharp(8)}` },
    from: at(4),
    to: at(12),
    kind: "key",
    grade: "rough",
    says: /from C major to F♯ major/,
  },
  {
    what: "a tritone away, as the piece goes itself",
    text: { piano: `${inC(8)} | ${inFSharp(8)}` },
    from: at(4),
    to: at(12),
    kind: "key",
    grade: "clean",
    says: /as it does in the piece itself/,
  },
  {
    what: "the same chord",
    text: { piano: inC(12) },
    from: at(4, 1),
    to: at(8),
    kind: "harmony",
    grade: "clean",
    says: /Both sides stand on I of C major; the bass stays/,
  },
  {
    what: "a note held into the landing",
    text: { piano: `${inC(4)} | c3+e4+g4:h b5:h~ | b5:h a5:h | ${inC(4)}` },
    from: at(2),
    to: at(5),
    kind: "held",
    grade: "rough",
    says: /one note held into bar 6 would be struck again/,
  },
  {
    what: "a note held out of the bar before the cut",
    text: { piano: `${inC(3)} | c3+e4+g4:h a5:h~ | a5:h b5 | ${inC(4)}` },
    from: at(4),
    to: at(6),
    kind: "held",
    grade: "needs-a-touch",
    says: /One note stops at the cut/,
  },
  {
    what: "a note held on both sides",
    text: {
      piano: `${inC(2)} | c3+e4:h g4~ | g4:h c3+e4 | ${inC(2)} | c3+e4:h g4~ | g4:h c3+e4 | ${inC(2)}`,
    },
    from: at(3),
    to: at(7),
    kind: "held",
    grade: "clean",
    says: /sounds on after it/,
  },
  {
    what: "a hairpin that is torn",
    text: { piano: `p ${inC(3)} | < ${cMajor} | ${cMajor} | / f ${inC(3)}` },
    from: at(4),
    to: at(6),
    kind: "loudness",
    grade: "needs-a-touch",
    says: /the hairpin is torn/,
  },
  {
    what: "the same loudness",
    text: { piano: `mf ${inC(8)}` },
    from: at(2),
    to: at(4),
    kind: "loudness",
    grade: "clean",
    says: /Both sides are mf/,
  },
  {
    what: "another tempo without a mark",
    text: { tempo: 120, piano: `${inC(4)} | q=60 ${inC(8)}` },
    from: at(2),
    to: at(6),
    kind: "tempo",
    grade: "needs-a-touch",
    says: /from quarter = 120 to 60, and no mark/,
  },
  {
    what: "another tempo with its mark",
    text: { tempo: 120, piano: `${inC(4)} | q=60 ${inC(8)}` },
    from: at(2),
    to: at(4),
    kind: "tempo",
    grade: "needs-a-touch",
    says: /as bar 5 says/,
  },
  {
    what: "a long lead-in",
    text: { tempo: 100, solo: "c5:w | R*9 | c5:w | R", piano: inC(12) },
    from: at(2),
    to: at(5),
    kind: "lead-in",
    grade: "clean",
    says: /Five bars \(12 s\) lead to the soloist's entry in bar 11/,
  },
  {
    what: "a short lead-in",
    text: { tempo: 100, solo: "c5:w | R*9 | c5:w | R", piano: inC(12) },
    from: at(2),
    to: at(8),
    kind: "lead-in",
    grade: "rough",
    says: /Only two bars \(5 s\) are left/,
  },
  {
    what: "an upbeat of the soloist's that is cut",
    text: { tempo: 100, solo: "c5:w | R*7 | r:h c5 | d5:w | R*2", piano: inC(12) },
    from: at(2),
    to: at(9),
    kind: "lead-in",
    grade: "rough",
    says: /takes the soloist's entry in bar 9/,
  },
  {
    what: "next to nothing left of the rest",
    text: { tempo: 100, solo: "c5:w | R*18 | c5:w", piano: inC(20) },
    from: at(1),
    to: at(18),
    kind: "rest",
    grade: "rough",
    says: /rest of 72 beats only 4 remain \(0:02 of 0:43\)/,
  },
];

describe("assessJoin", () => {
  it.each(cases)("$kind: $what is $grade", ({ text, from, to, kind, grade, says }) => {
    const found = row(text, from, to, kind);
    expect(found?.sentence).toMatch(says);
    expect(found?.grade).toBe(grade);
  });

  it("is as bad as its worst row", () => {
    const { grade, rows } = assessJoin(listen(buildScore({ piano: inC(8) })), { from: at(2, 3), to: at(4) });
    expect(rows.some((one) => one.kind === "metre" && one.grade === "rough")).toBe(true);
    expect(grade).toBe("rough");
  });

  it("says nothing of the other side where the piece begins or ends with the cut", () => {
    const heard = listen(buildScore({ piano: inC(8) }));
    for (const cut of [
      { from: at(0), to: at(4) },
      { from: at(4), to: at(7, 4) },
    ]) {
      const kinds = assessJoin(heard, cut).rows.map(({ kind }) => kind);
      expect(kinds).not.toContain("metre");
      expect(kinds).not.toContain("harmony");
      expect(kinds).toContain("phrase");
    }
  });

  it("refuses a cut that cannot be made", () => {
    const heard = listen(buildScore({ piano: inC(8) }));
    expect(() => assessJoin(heard, { from: at(4), to: at(2) })).toThrow(RangeError);
    expect(() => assessJoin(heard, { from: at(4), to: at(99) })).toThrow(RangeError);
  });

  it("tells what has to be written anew", () => {
    const text = { piano: `${inC(3)} | c3+e4+g4:h a5:h~ | a5:h b5 | ${inC(4)}` };
    const { toWrite } = assessJoin(listen(buildScore(text)), { from: at(4), to: at(6) });
    expect(toWrite.map(({ kind }) => kind)).toEqual(["break-tie"]);
    expect(toWrite[0]?.noteIds).toHaveLength(1);
  });
});
