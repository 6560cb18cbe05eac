import { describe, expect, it } from "vitest";
import { noMarks } from "@/lib/edition/edition-content";
import { writeEditionMusicXml } from "@/lib/musicxml/cut/write-edition";
import { readScore } from "@/lib/musicxml/read-score";
import { writeTree } from "@/lib/musicxml/write-tree";
import { writeSoloAndReduction } from "@/seed/concertino/write-solo-and-reduction";
import { randomRewrite } from "@/test/builders/random-rewrite";
import { findSchemaFaults, hasSchema } from "../schema";
import { randomNumbers } from "./random-cuts";
import { cut, note, source } from "./small-source";

const edition = {
  editionNumber: 4,
  frozenOn: "2026-02-26",
  hash: "9f3a6c1b",
  partRoles: {},
  marks: noMarks,
};
const bytes = (text: string) => new TextEncoder().encode(text);

describe("writeEditionMusicXml", () => {
  it("carries the cuts, the marks and the edition's own facts", () => {
    const tree = source(["C5", "D5", "E5"].map((pitch) => note(pitch, 16)));
    const text = writeEditionMusicXml({
      ...edition,
      sourceMusicXml: bytes(writeTree(tree)),
      cuts: [cut("2 to 3")],
    });
    expect(text).toContain('<score-partwise version="4.0">');
    expect(text).toContain('<miscellaneous-field name="edition-number">4</miscellaneous-field>');
    expect(text).toContain('<miscellaneous-field name="edition-hash">9f3a6c1b</miscellaneous-field>');
    expect(text).toMatch(/Vi–[\s\S]*–de/);
    const read = readScore(bytes(text));
    expect(read.ok && read.value.score.bars.map(({ label }) => label)).toEqual(["1", "3"]);
  });

  it("fails loudly when the stored source is damaged", () => {
    expect(() => writeEditionMusicXml({ ...edition, sourceMusicXml: bytes("<nothing/>"), cuts: [] })).toThrow(
      /source/,
    );
  });

  it.skipIf(!hasSchema)("is valid MusicXML 4.0", async () => {
    const concertino = bytes(writeSoloAndReduction());
    const cuts = [cut("9 to 21"), cut("85+2 to 97+2")];
    const read = readScore(concertino);
    if (!read.ok) throw new Error(read.problem.kind);
    const { score } = read.value;
    const reduction = score.parts.find(({ role }) => role === "reduction")!;
    const random = randomNumbers(7);
    const marks = {
      breaths: [{ at: { barIndex: 29, offset: "0" } }],
      cues: [{ at: { barIndex: 30, offset: "1/3" }, text: "Ob." }],
      remarks: [
        {
          from: { barIndex: 31, offset: "1" },
          to: { barIndex: 32, offset: "0" },
          text: "Not before the <clarinet> has let go",
          by: "Nerys Quill",
        },
      ],
      rewrites: Array.from({ length: 12 }, (_, index) =>
        randomRewrite(random, score, reduction, index % 2 === 0 ? "in place" : "ossia"),
      ),
    };
    const text = writeEditionMusicXml({ ...edition, sourceMusicXml: concertino, cuts, marks });
    expect(text).toContain("(N. Quill)");
    expect(text).toContain("<breath-mark");
    expect(text).toContain("<staff-type>ossia</staff-type>");
    expect(await findSchemaFaults(text)).toEqual([]);
  });
});
