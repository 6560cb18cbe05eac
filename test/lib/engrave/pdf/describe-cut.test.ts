import { describe, expect, it } from "vitest";
import { describeJoinPlace, describeWhatGoes, type SheetWord } from "@/lib/engrave/pdf/describe-cut";
import { applyCuts } from "@/lib/musicxml/cut/apply-cuts";
import { scoreFromTree } from "@/lib/musicxml/score-from-tree";
import { cut, direction, note, source } from "../../musicxml/cut/small-source";

const letter = (text: string) => direction(`<rehearsal>${text}</rehearsal>`);
const piece = () =>
  source(
    ["C5", "D5", "E5", "F5", "G5", "A5"].map(
      (pitch, bar) => (bar === 4 ? letter("B") : bar === 1 ? letter("A") : "") + note(pitch, 16),
    ),
  );
const say = (words: readonly SheetWord[]) =>
  words.map(({ kind, text }) => (kind === "letter" ? `[${text}]` : text)).join("");

function place(text: string): string {
  const tree = piece();
  const { joins } = applyCuts(tree, [cut(text)], { marks: false });
  return joins[0] ? say(describeJoinPlace(scoreFromTree(tree).score, joins[0])) : "";
}

describe("describeJoinPlace", () => {
  it.each([
    ["2 to 4", "Vi– end of 1 –de 4, one before [B]"],
    ["2 to 5", "Vi– end of 1 –de 5, at [B]"],
    ["2+1 to 6+3", "Vi– beat 2 of 2 –de beat 4 of 6"],
    ["2+1/2 to 6", "Vi– inside 2 –de 6"],
    ["1 to 3", "Vi– before the start –de 3, two before [B]"],
    ["4 to 7", "Vi– end of 3 to the end"],
  ])("%s", (text, expected) => {
    expect(place(text)).toBe(expected);
  });
});

describe("describeWhatGoes", () => {
  const { score } = scoreFromTree(piece());
  const goes = (text: string, tutti: "opening" | "interlude" | "closing" | null, barCount: number) =>
    say(describeWhatGoes(score, { number: 1, span: cut(text), tutti, barCount, savedSeconds: 25.6 }));

  it.each([
    ["1 to 3", "opening", 2, "opening tutti · 2 bars · 0:26"],
    ["3 to 4", "interlude", 1, "tutti at [A] · 1 bar · 0:26"],
    ["1 to 2", "interlude", 1, "tutti · 1 bar · 0:26"],
    ["3 to 4", null, 1, "1 bar · 0:26"],
  ] as const)("%s of the %s tutti", (text, tutti, barCount, expected) => {
    expect(goes(text, tutti, barCount)).toBe(expected);
  });
});
