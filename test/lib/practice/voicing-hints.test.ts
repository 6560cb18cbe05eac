import { describe, expect, test } from "vitest";
import { cueInstruments, readCue } from "@/lib/practice/cue-instruments";
import { findPrintedCues } from "@/lib/practice/printed-cues";
import { findVoicingHints, usualHint } from "@/lib/practice/voicing-hints";
import { buildScore } from "@/test/builders/build-score";

describe("what a cue names", () => {
  test.each([
    ["Fl.", "Fl."],
    ["Ob. solo", "Ob."],
    ["Fl. e Cl.", "Fl. Cl."],
    ["Fl./Ob.", "Fl. Ob."],
    ["2 Hr.", "Cor."],
    ["Hörner", "Cor."],
    ["Cor. I. II", "Cor."],
    ["Corno inglese", "C.i."],
    ["Engl. Horn", "C.i."],
    ["Cors", "Cor."],
    ["Klar.", "Cl."],
    ["Bassklar.", "B.cl."],
    ["Fag.", "Fg."],
    ["Fg.", "Fg."],
    ["Bsn.", "Fg."],
    ["Trp.", "Tr."],
    ["Trombe in B", "Tr."],
    ["Tbn.", "Tbn."],
    ["Pos.", "Tbn."],
    ["Pk.", "Timp."],
    ["Timbales", "Timp."],
    ["Hrf.", "Arpa"],
    ["Harfe", "Arpa"],
    ["Vl. I", "Vl."],
    ["Vlns.", "Vl."],
    ["1ers Violons", "Vl."],
    ["Br.", "Va."],
    ["Altos", "Va."],
    ["Vlc.", "Vc."],
    ["Violoncelles", "Vc."],
    ["Vc. + Cb.", "Vc. Cb."],
    ["Kb.", "Cb."],
    ["Str.", "Str."],
    ["Archi", "Str."],
    ["Streicher pizz.", "Str. pizz."],
    ["Holzbläser", "Legni"],
    ["Blech", "Ottoni"],
    ["Cuivres", "Ottoni"],
    ["TUTTI", "Tutti"],
    ["Orch.", "Tutti"],
    ["solo", null],
    ["dolce", null],
    ["poco rit.", null],
    ["Fl. dolce", null],
    ["", null],
    ["12", null],
  ])("%j: %s", (text, keys) => {
    expect(readCue(text)?.join(" ") ?? null).toBe(keys);
  });

  test("no abbreviation stands for two instruments, and each leads to its own", () => {
    const names = cueInstruments.flatMap(({ key, written }) => written.map((name) => ({ key, name })));
    expect(new Set(names.map(({ name }) => name)).size).toBe(names.length);
    for (const { key, name } of names) expect(readCue(name), name).toEqual([key]);
    for (const { key } of cueInstruments) expect(readCue(key)).toEqual([key]);
  });
});

describe("hints", () => {
  test("there is one for every instrument and section, short enough for a glance, each its own", () => {
    const hints = cueInstruments.map(({ key }) => usualHint(key) ?? "");
    for (const hint of hints) {
      const words = hint.split(" ").length;
      expect(words).toBeGreaterThanOrEqual(12);
      expect(words).toBeLessThanOrEqual(60);
    }
    expect(new Set(hints).size).toBe(hints.length);
    expect(usualHint("Kazoo")).toBeNull();
  });

  test("are given for the cues of a piece, each instrument once, in the order of the score", () => {
    const keys = findVoicingHints(["Vc.", "Cor.", "Ob. solo", "2 Hr.", "dolce", "Fl. e Ob."]).map(
      ({ key }) => key,
    );
    expect(keys).toEqual(["Fl.", "Ob.", "Cor.", "Vc."]);
    expect(findVoicingHints([])).toEqual([]);
  });

  test("words of the reduction that name instruments are found, and nothing else", () => {
    const score = buildScore({
      metre: "4/4",
      solo: '"Fl." c5:w | R | R',
      piano: '"Cor." c4:w | "dolce" d4:w | "Ob. e Cl." e4:h "Cor." f4:h',
    });
    expect(findPrintedCues(score)).toEqual(["Cor.", "Ob. e Cl."]);
  });
});
