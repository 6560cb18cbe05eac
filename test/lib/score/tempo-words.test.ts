import { describe, expect, it } from "vitest";
import { readTempoWords } from "@/lib/score/read-tempo-words";
import { tempoWords } from "@/lib/score/tempo-words";

describe("tempo words", () => {
  it.each([
    ["Allegro", "allegro"],
    ["Allegro moderato.", "allegro moderato"],
    ["Allegro ma non troppo", "allegro ma non troppo"],
    ["MOLTO ALLEGRO", "molto allegro"],
    ["Andante con moto", "andante con moto"],
    ["Sehr mäßig bewegt, aber nie schleppend", "sehr massig bewegt"],
    ["Mässig, in gehender Bewegung", "in gehender bewegung"],
    ["Ziemlich geschwind, unruhig.", "ziemlich geschwind"],
    ["Très modéré", "tres modere"],
    ["Lent (♪ = 44)", "lent"],
    ["Tempo di Menuetto", "tempo di menuetto"],
  ])("%s is %s", (text, word) => {
    expect(readTempoWords(text)).toMatchObject({ kind: "absolute", word: { word } });
  });

  it.each([
    ["Più mosso.", 1.2],
    ["poco più mosso", Math.sqrt(1.2)],
    ["meno Presto", 0.8],
    ["Etwas langsamer.", Math.sqrt(0.8)],
    ["più lento", 0.8],
  ])("%s changes the tempo by %f", (text, ratio) => {
    expect(readTempoWords(text)).toEqual({ kind: "relative", ratio });
  });

  it.each([
    ["a tempo", "previous"],
    ["a Tempo", "previous"],
    ["Tempo I", "first"],
    ["Tempo 1", "first"],
    ["[Tempo I.]", "first"],
    ["a tempo primo", "first"],
    ["Tempo Iº", "first"],
    ["1er Mouvement", "first"],
  ])("%s returns to the %s tempo", (text, which) => {
    expect(readTempoWords(text)).toEqual({ kind: "restore", which });
  });

  it.each([
    ["rit.", "slower"],
    ["poco rit.:rj", "slower"],
    ["un poco ritard.", "slower"],
    ["ri-tenu-to", "slower"],
    ["dim. e ritard.", "slower"],
    ["rallent.", "slower"],
    ["allargando e", "slower"],
    ["(immer mehr nachlassend)", "slower"],
    ["Cédez", "slower"],
    ["accellerando e sempre più accellerando e", "faster"],
    ["stringendo", "faster"],
    ["poco accel.", "faster"],
  ])("%s becomes %s", (text, direction) => {
    expect(readTempoWords(text)).toEqual({ kind: "ramp", direction });
  });

  it.each([
    "dolce",
    "ben ritmico e molto largamente",
    "Ob. SOLO.",
    "con espressione",
    "cresc.",
    "",
    "strings",
    "D",
  ])("“%s” says nothing of the tempo", (text) => {
    expect(readTempoWords(text)).toBeNull();
  });

  it("takes no remark for a heading", () => {
    const remark =
      "This edition restores the Allegro that later prints have replaced by an Andante, see the preface.";
    expect(readTempoWords(remark)).toBeNull();
  });

  it("holds each default within its range, each word once", () => {
    for (const { slowest, fastest, beatsPerMinute } of tempoWords) {
      expect(slowest).toBeLessThanOrEqual(beatsPerMinute);
      expect(beatsPerMinute).toBeLessThanOrEqual(fastest);
    }
    const words = tempoWords.map(({ word }) => word);
    expect(new Set(words).size).toBe(words.length);
  });
});
