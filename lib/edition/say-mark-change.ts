import { comparePositions } from "@/lib/score/position";
import type { BreathTerms } from "./breath-terms";
import type { CueTerms } from "./cue-terms";
import { toCutSpan } from "./cut-terms";
import type { PlaceNames } from "./edition-difference";
import type { Mark, MarkChange } from "./mark-change";
import { isSame, type MarkPair } from "./pair-marks";
import { type PositionTerms, toPosition } from "./position-terms";
import type { RemarkTerms } from "./remark-terms";
import type { RewriteTerms } from "./rewrite-terms";

/** What became of a mark, as musicians say it: "Breath moved from the end of bar 107 to the end of bar 106." */
export function sayMarkChange(change: MarkChange, names: PlaceNames): string {
  switch (change.kind) {
    case "breath":
      return sayBreath(change, names);
    case "cue":
      return sayCue(change, names);
    case "rewrite":
      return sayRewrite(change, names);
    case "remark":
      return sayRemark(change, names);
  }
}

/** A mark by itself, inside a sentence: "a breath at the end of bar 107". */
export function sayMark({ kind, terms }: Mark, names: PlaceNames): string {
  switch (kind) {
    case "breath":
      return `a breath ${atBreath(terms, names)}`;
    case "cue":
      return `the cue ${terms.text} over ${place(terms.at, names)}`;
    case "rewrite":
      return `a rewrite of ${saySpan(terms, names)}`;
    case "remark":
      return `${possessive(terms.by)} remark ${atSpan(terms, names)}`;
  }
}

/** "at the end of bar 107", or "before bar 106 beat 3" inside a bar. */
export function atBreath({ at }: BreathTerms, names: PlaceNames): string {
  return at.offset === "0" ? `at ${breathPlace(at, names)}` : breathPlace(at, names);
}

/** At a bar line the comma stands at the end of the bar before. */
function breathPlace(at: PositionTerms, names: PlaceNames): string {
  if (at.offset !== "0") return `before ${place(at, names)}`;
  if (at.barIndex === 0) return `the beginning of ${place(at, names)}`;
  return `the end of ${place({ barIndex: at.barIndex - 1, offset: "0" }, names)}`;
}

function sayBreath({ before, after }: MarkPair<BreathTerms>, names: PlaceNames): string {
  if (before && after)
    return `Breath moved from ${breathPlace(before.at, names)} to ${breathPlace(after.at, names)}.`;
  if (after) return `Breath added ${atBreath(after, names)}.`;
  if (before) return `Breath taken off ${atBreath(before, names)}.`;
  throw nothing("breath");
}

function sayCue({ before, after }: MarkPair<CueTerms>, names: PlaceNames): string {
  if (before && after) {
    const [from, to] = [place(before.at, names), place(after.at, names)];
    return from === to
      ? `${after.text} instead of ${before.text} over ${to}.`
      : `${after.text} moved from ${from} to ${to}.`;
  }
  if (after) return `${after.text} written over ${place(after.at, names)}.`;
  if (before) return `${before.text} taken off ${place(before.at, names)}.`;
  throw nothing("cue");
}

function sayRewrite({ before, after }: MarkPair<RewriteTerms>, names: PlaceNames): string {
  if (before && after) return sayRewritten(before, after, names);
  if (after) return `${titleOf(after)} in ${saySpan(after, names)}${withWords(after)}.`;
  if (before)
    return `${titleOf(before)} in ${saySpan(before, names)} gone: played as printed again${was(before)}.`;
  throw nothing("rewrite");
}

function sayRewritten(before: RewriteTerms, after: RewriteTerms, names: PlaceNames): string {
  const [from, to] = [saySpan(before, names), saySpan(after, names)];
  const move = from === to ? `in ${to} changed` : `changed from ${from} to ${to}`;
  return `${titleOf(after)} ${move}${withWords(after)}${before.words === after.words ? "" : was(before)}.`;
}

function titleOf({ shown }: RewriteTerms): string {
  return shown === "ossia" ? "Ossia" : "Rewrite in place of the print";
}

function withWords({ words }: RewriteTerms): string {
  return words === "" ? "" : `: ${words}`;
}

function was({ words }: RewriteTerms): string {
  return words === "" ? "" : ` (was: ${words})`;
}

function sayRemark({ before, after }: MarkPair<RemarkTerms>, names: PlaceNames): string {
  if (before && after) {
    if (isSame(before.text, after.text))
      return `The remark ${atSpan(after, names)} is signed ${after.by} instead of ${before.by}: “${after.text}”`;
    return `${possessive(after.by)} remark ${atSpan(after, names)} reworded: “${after.text}” instead of “${before.text}”`;
  }
  if (after) return `${possessive(after.by)} remark printed ${atSpan(after, names)}: “${after.text}”`;
  if (before)
    return `${possessive(before.by)} remark ${atSpan(before, names)} is not printed any more: “${before.text}”`;
  throw nothing("remark");
}

/** "Nerys's": by the first name, as players call each other. */
function possessive(by: string): string {
  return `${by.trim().split(/\s+/u)[0] ?? by}'s`;
}

function place(at: PositionTerms, names: PlaceNames): string {
  return names.place(toPosition(at));
}

type Span = Pick<RemarkTerms, "from" | "to">;

function isEmpty({ from, to }: Span): boolean {
  return comparePositions(toPosition(from), toPosition(to)) >= 0;
}

/** "bars 97–99", "bar 97"; of a span of nothing its place. */
export function saySpan(terms: Span, names: PlaceNames): string {
  return isEmpty(terms) ? place(terms.from, names) : names.cut(toCutSpan(terms));
}

/** "at bar 97", "in bars 97–99". */
function atSpan(terms: Span, names: PlaceNames): string {
  const where = saySpan(terms, names);
  return `${where.startsWith("bars ") ? "in" : "at"} ${where}`;
}

function nothing(kind: string): RangeError {
  return new RangeError(`A change of a ${kind} without one`);
}
