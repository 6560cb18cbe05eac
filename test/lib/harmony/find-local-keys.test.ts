import { describe, expect, it } from "vitest";
import { findLocalKeys, type LocalKey } from "@/lib/harmony/find-local-keys";
import { findProfileKeys } from "@/lib/harmony/find-profile-keys";
import { albrechtShanahan, krumhanslKessler } from "@/lib/harmony/key-profiles";
import { sayKey } from "@/lib/harmony/say-key";
import { buildScore, type ScoreText } from "../../builders/build-score";

/** "C major ×8, G major ×8". */
function sayKeys(text: ScoreText): string {
  const rows: { name: string; times: number }[] = [];
  for (const key of findLocalKeys(buildScore(text))) {
    const last = rows.at(-1);
    if (last?.name === sayKey(key)) last.times += 1;
    else rows.push({ name: sayKey(key), times: 1 });
  }
  return rows.map(({ name, times }) => `${name} ×${times}`).join(", ");
}

const keysOf = (text: ScoreText): LocalKey[] => findLocalKeys(buildScore(text));

const inC = "c4+e4+g4:h f4+a4+c5 | g4+b4+d5 c4+e4+g4 | f4+a4+c5 g4+b4+f5 | c4+e4+g4:w";
const inG = "g4+b4+d5:h c5+e5+g5 | d5+f#5+a5 g4+b4+d5 | c5+e5+g5 d5+f#5+c6 | g4+b4+d5:w";
const inAMinor = "a4+c5+e5:h d5+f5+a5 | e4+g#4+b4 a4+c5+e5 | d5+f5+a5 e4+g#4+d5 | a4+c5+e5:w";

describe("local keys", () => {
  it.each([
    ["primary triads", { piano: inC }, "C major ×16"],
    ["a minor key by its leading note", { piano: inAMinor }, "A minor ×16"],
    [
      "the same by a single line",
      { solo: "c5:q e5 g5 e5 | d5 f5 b4 d5 | c5 e5 g5 c6 | b5 g5 c6:h" },
      "C major ×16",
    ],
  ])("%s", (_name, text, expected) => {
    expect(sayKeys(text)).toBe(expected);
  });

  it("are spelled as the notes are", () => {
    const flats =
      "gb4+bb4+db5:h cb5+eb5+gb5 | db5+f5+ab5 gb4+bb4+db5 | cb5+eb5+gb5 db5+f5+cb6 | gb4+bb4+db5:w";
    const sharps =
      "f#4+a#4+c#5:h b4+d#5+f#5 | c#5+e#5+g#5 f#4+a#4+c#5 | b4+d#5+f#5 c#5+e#5+b5 | f#4+a#4+c#5:w";
    expect(sayKeys({ piano: flats, key: -6 })).toBe("G♭ major ×16");
    expect(sayKeys({ piano: sharps, key: 6 })).toBe("F♯ major ×16");
    expect(sayKeys({ piano: flats })).toBe("G♭ major ×16");
  });

  it("follow the spelling where the sounds are the same", () => {
    // A diminished seventh sounds the same in every spelling: G sharp leads to A, B natural beside A flat to C.
    const heard = (low: string) => sayKeys({ key: -2, solo: `${low}4+b4+d5+f5:w | ${low}4+b4+d5+f5:w` });
    expect([heard("g#"), heard("ab")]).toEqual(["A minor ×8", "C minor ×8"]);
    const spelled = keysOf({ piano: `${inC.replace("g4+b4+d5", "g4+b4+d5+d#5")}` });
    expect(spelled.flatMap(({ evidence }) => evidence.foreignSpellings)).toEqual([]);
    const odd = keysOf({ piano: `${inAMinor.replace("g#4", "ab4")}` });
    expect(odd.flatMap(({ evidence }) => evidence.foreignSpellings)).toContain("A♭");
  });

  it("change where the new key's own notes come, at the latest", () => {
    const keys = keysOf({ piano: `${inC} | ${inG} | ${inG}` });
    const names = keys.map(sayKey);
    const change = names.indexOf("G major");
    expect(change).toBeGreaterThan(12);
    // The first F sharp sounds in quarter 20.
    expect(change).toBeLessThanOrEqual(20);
    expect(names.slice(change).every((name) => name === "G major")).toBe(true);
  });

  it("go on in silence", () => {
    expect(sayKeys({ piano: `${inC} | R*2 | ${inC}` })).toBe("C major ×40");
    const silent = keysOf({ piano: `${inC} | R*2` }).slice(16);
    expect(silent.every(({ evidence }) => evidence.chord === null && evidence.speakFor.length === 0)).toBe(
      true,
    );
  });

  it("take the signature for a hint where nothing sounds", () => {
    const keys = findLocalKeys(buildScore({ key: -3, piano: "R*4" }));
    expect(keys.every(({ evidence }) => evidence.fifthsFromSignature === 0)).toBe(true);
  });

  it("lie at exact positions, one for each quarter note", () => {
    const [upbeat, ...rest] = keysOf({ metre: "3/8", solo: "g4:e | c5:e e5 g5 | c5:q." });
    expect(upbeat).toMatchObject({ at: { barIndex: 0 }, onset: { num: 0, den: 1 }, end: { num: 1, den: 2 } });
    expect(rest.map(({ at }) => `${at.barIndex}:${at.offset.num}`)).toEqual(["1:0", "1:1", "2:0", "2:1"]);
    expect(rest[1]?.end).toEqual(rest[2]?.onset);
  });

  it("tell the runner-up, the margin, and which notes speak for and against", () => {
    const keys = keysOf({ piano: `${inC} | ${inG} | ${inG}` });
    const withFSharp = keys[22]!;
    expect(sayKey(withFSharp)).toBe("G major");
    const { runnerUp, margin, speakFor, chord } = withFSharp.evidence;
    expect(runnerUp).not.toMatchObject({ tonic: 7, mode: "major" });
    expect(margin).toBeGreaterThan(0);
    expect(chord).toMatchObject({ root: 7, quality: "major" });
    expect(speakFor.every((pitchClass) => [7, 11, 2].includes(pitchClass))).toBe(true);
    expect(keys.at(-1)?.confidence).toBe("clear");
  });

  it("listen to the parts that they are told to", () => {
    const score = buildScore({ solo: inC, piano: inG });
    const heard = (partId: string) => sayKey(findLocalKeys(score, { partIds: [partId] })[0]!);
    expect([heard("P1"), heard("P2")]).toEqual(["C major", "G major"]);
  });

  it("need profiles that are shares", () => {
    const score = buildScore({ piano: inC });
    expect(() => findLocalKeys(score, { profiles: krumhanslKessler })).toThrow(RangeError);
    expect(findLocalKeys(score, { profiles: albrechtShanahan })[0]).toMatchObject({
      tonic: 0,
      mode: "major",
    });
  });

  it("are none in a piece without bars", () => {
    expect(keysOf({ solo: "" })).toEqual([]);
    expect(findProfileKeys(buildScore({ solo: "" }))).toEqual([]);
  });
});

describe("keys by profiles alone", () => {
  it("find plain keys and a change of key", () => {
    const keys = findProfileKeys(buildScore({ piano: `${inC} | ${inG} | ${inG}` }));
    expect(keys[0]).toEqual({ tonic: 0, mode: "major" });
    expect(keys.at(-1)).toEqual({ tonic: 7, mode: "major" });
  });
});
