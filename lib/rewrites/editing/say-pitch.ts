import type { RewritePitch } from "@/lib/edition/rewrite-terms";

const signs: Readonly<Record<string, string>> = {
  "-2": " double flat",
  "-1": " flat",
  "0": "",
  "1": " sharp",
  "2": " double sharp",
};

/** "E flat 5"; c4 is middle C. */
export function sayPitch({ step, alter, octave }: RewritePitch): string {
  return `${step}${signs[`${alter}`] ?? ""} ${octave}`;
}
