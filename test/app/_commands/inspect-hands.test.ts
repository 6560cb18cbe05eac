import { describe, expect, it } from "vitest";
import { handsReportSchema } from "@/lib/inspect/hands-report";
import { writeSoloAndReduction } from "@/seed/concertino/write-solo-and-reduction";
import { inspect, openFolder } from "./inspect-command";

const { write } = openFolder();
const demo = write("concertino.musicxml", writeSoloAndReduction());

describe("npm run -s inspect -- FILE --hands", () => {
  it("tells what does not lie under the hands, why, and what to play instead", () => {
    const { status, stdout, stderr } = inspect(demo, "--hands");
    expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
    expect(stdout).toContain("Bars 112–116: awkward");
    expect(stdout).toMatch(
      /Right hand: chords an octave wide repeated 8\.4 times a second; you manage 5 with ease\./,
    );
    expect(stdout).toMatch(
      /1\. tremolo for the repeated chords: 63 to \d\d; bass, top line, harmony and rhythm as printed/,
    );
    expect(stdout).toContain("Bars 128–131: awkward as printed, easy when shared otherwise");
  });

  it("finds less at half the tempo, in JSON of its schema", () => {
    const passagesAt = (tempo: string) => {
      const { status, stdout } = inspect(demo, "--hands", "--tempo", tempo, "--json");
      expect(status).toBe(0);
      return handsReportSchema.parse(JSON.parse(stdout)).passages.length;
    };
    expect([passagesAt("100"), passagesAt("50%")]).toEqual([4, 1]);
  });

  it.each([
    [["--tempo", "90"], "--tempo is for --hands."],
    [["--hands", "--tempo", "fast"], "is no share of the printed one"],
    [["--hands", "--cuts"], "one at a time"],
  ])("%j: a sentence", (args, sentence) => {
    const { status, stderr } = inspect(demo, ...args);
    expect(status).toBe(1);
    expect(stderr).toContain(sentence);
  });

  it("says when nobody's hands are asked for", () => {
    const solo = `<score-partwise version="4.0"><part-list><score-part id="P1"><part-name>Flute</part-name></score-part></part-list><part id="P1"><measure number="1"><attributes><divisions>1</divisions></attributes><note><pitch><step>C</step><octave>5</octave></pitch><duration>4</duration></note></measure></part></score-partwise>`;
    const { status, stderr } = inspect(write("solo.musicxml", solo), "--hands");
    expect(status).toBe(1);
    expect(stderr).toContain("No part of this file is a pianist's");
  });
});
