import { expect, it } from "vitest";
import { splitByFace } from "@/lib/engrave/pdf/text-runs";

const signs: Record<string, RegExp> = {
  serif: /[ -~À-ž]/,
  sans: /[ -~À-žА-я]/,
  music: /[♭♯]/,
  "sans-bold": /[ -~А-я]/,
};
const has = (face: string, codePoint: number) => signs[face]?.test(String.fromCodePoint(codePoint)) ?? false;

it.each([
  ["Concertino in E♭, Op. 17", ["serif: Concertino in E", "music: ♭", "serif: , Op. 17"]],
  ["Чайковский, Op. 35", ["sans: Чайковский", "serif: , Op. 35"]],
  ["e\u0301tude", ["serif: étude"]],
  ["漢字", ["serif: 漢字"]],
])("%s", (text, expected) => {
  expect(splitByFace(text, "serif", has).map((run) => `${run.face}: ${run.text}`)).toEqual(expected);
});
