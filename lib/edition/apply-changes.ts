import { failure, type Result, success } from "@/lib/score/result";
import { applyMark, hasMarks } from "./apply-mark";
import type { ChangeProblem } from "./change-problem";
import type { CutTerms } from "./cut-terms";
import type { EditionChange } from "./edition-change";
import { type EditionContent, hashEdition, sortCuts } from "./edition-content";
import { hashTerms } from "./hash-terms";
import type { MarkChange, MarkKind } from "./mark-change";
import { isSameCut, sharesMusic } from "./pair-cuts";
import type { PositionTerms } from "./position-terms";
import { sortTempoTerms, type TempoTerms } from "./tempo-terms";

/**
 * An edition after changes that were found between two others, or between it and another. Made with the changes from
 * `a` to `b`, `a` becomes `b` to the letter of its hash; made with those from a common ancestor of `a` and `c` to `c`,
 * it becomes what both decided.
 *
 * @returns a problem for the first change that does not fit: what it would change is not there, or cuts would overlap.
 */
export function applyChanges(
  edition: EditionContent,
  changes: readonly EditionChange[],
): Result<EditionContent, ChangeProblem> {
  let content = edition;
  // What is gone makes room for what comes, whatever the order of the list; what the whole is frozen as is said last.
  const steps = [
    ...changes.flatMap(whatGoes),
    ...changes.filter(({ kind }) => kind !== "schema").flatMap(whatComes),
    ...changes.filter(({ kind }) => kind === "schema"),
  ];
  for (const step of steps) {
    const applied = applyChange(content, step);
    if (!applied.ok) return applied;
    content = applied.value;
  }
  return success(content.schema === 1 && hasMarks(content) ? { ...content, schema: 2 } : content);
}

/** The first half of a change of something that stands at bars: it is taken away. */
function whatGoes(change: EditionChange): EditionChange[] {
  return standsAtBars(change) && change.before ? [{ ...change, after: null } as EditionChange] : [];
}

/** Its second half, and every other change whole. */
function whatComes(change: EditionChange): EditionChange[] {
  if (!standsAtBars(change)) return [change];
  return change.after ? [{ ...change, before: null } as EditionChange] : [];
}

type ChangeAtBars = Extract<EditionChange, { kind: "cut" | MarkKind }>;

function standsAtBars(change: EditionChange): change is ChangeAtBars {
  return change.kind === "cut" || isMarkChange(change);
}

function isMarkChange(change: EditionChange): change is MarkChange {
  const { kind } = change;
  return kind === "breath" || kind === "cue" || kind === "rewrite" || kind === "remark";
}

type Applied = Result<EditionContent, ChangeProblem>;

function applyChange(content: EditionContent, change: EditionChange): Applied {
  if (isMarkChange(change)) return applyMark(content, change);
  switch (change.kind) {
    case "cut":
      return applyCut(content, change.before, change.after);
    case "part":
      return applyRole(content, change);
    case "schema":
      if (change.after === 1 && hasMarks(content)) return failure({ kind: "marks-in-the-way" });
      return success({ ...content, schema: change.after });
    case "source":
      return hashEdition(content) === hashEdition(change.before)
        ? success(change.after)
        : failure({ kind: "other-edition" });
    default: {
      const tempo = applyTempo(content.tempo, change);
      return tempo.ok ? success({ ...content, tempo: tempo.value }) : tempo;
    }
  }
}

function applyCut(content: EditionContent, before: CutTerms | null, after: CutTerms | null): Applied {
  const { cuts, sourceHash } = content;
  if (before) {
    const kept = cuts.filter((cut) => !isSameCut(cut, before));
    if (kept.length === cuts.length) return failure({ kind: "cut-missing", cut: before });
    return success({ ...content, cuts: kept });
  }
  if (!after) return success(content);
  if (after.sourceHash !== sourceHash) return failure({ kind: "cut-of-another-source", cut: after });
  const other = cuts.find((cut) => sharesMusic(cut, after));
  if (other) return failure({ kind: "cuts-overlap", cut: after, other });
  return success({ ...content, cuts: sortCuts([...cuts, after]) });
}

function applyRole(content: EditionContent, change: Extract<EditionChange, { kind: "part" }>): Applied {
  const roles = new Map(Object.entries(content.partRoles));
  const found = roles.get(change.partId) ?? null;
  if (found !== change.before) return failure({ kind: "part-differs", partId: change.partId, found });
  if (change.after === null) roles.delete(change.partId);
  else roles.set(change.partId, change.after);
  return success({ ...content, partRoles: Object.fromEntries(roles) });
}

type TempoChange = Exclude<EditionChange, { kind: "cut" | "part" | "source" | "schema" | MarkKind }>;

function applyTempo(tempo: TempoTerms, change: TempoChange): Result<TempoTerms, ChangeProblem> {
  switch (change.kind) {
    case "allowance": {
      const { field, before, after } = change;
      if (tempo[field] !== before) return failure({ kind: "allowance-differs", field, found: tempo[field] });
      return success({ ...tempo, [field]: after });
    }
    case "tempo":
      return applyTempoMark(tempo, change);
    case "timing":
      return applyTiming(tempo, change);
    case "tempi":
      return hashTerms(tempo.tempi) === hashTerms(change.before)
        ? success({ ...tempo, tempi: change.after })
        : failure({ kind: "tempi-differ" });
    case "timings":
      return hashTerms(tempo.timings) === hashTerms(change.before)
        ? success({ ...tempo, timings: change.after })
        : failure({ kind: "timings-differ" });
  }
}

function applyTempoMark(
  tempo: TempoTerms,
  { at, before, after }: Extract<EditionChange, { kind: "tempo" }>,
): Result<TempoTerms, ChangeProblem> {
  const [here, rest] = split(tempo.tempi, (mark) => isSamePlace(mark.at, at));
  const found = here.at(-1)?.quartersPerMinute ?? null;
  if (here.length > 1 || found !== before) return failure({ kind: "tempo-differs", at, found });
  const tempi = after === null ? rest : [...rest, { at, quartersPerMinute: after }];
  return success({ ...tempo, tempi: sortTempoTerms({ ...tempo, tempi }).tempi });
}

function applyTiming(
  tempo: TempoTerms,
  { from, to, before, after }: Extract<EditionChange, { kind: "timing" }>,
): Result<TempoTerms, ChangeProblem> {
  const [here, rest] = split(
    tempo.timings,
    (timing) => isSamePlace(timing.from, from) && isSamePlace(timing.to, to),
  );
  const found = here.at(-1)?.seconds ?? null;
  if (here.length > 1 || found !== before) return failure({ kind: "timing-differs", from, to, found });
  const timings = after === null ? rest : [...rest, { from, to, seconds: after }];
  return success({ ...tempo, timings: sortTempoTerms({ ...tempo, timings }).timings });
}

function split<Item>(list: readonly Item[], isHere: (item: Item) => boolean): [here: Item[], rest: Item[]] {
  return [list.filter(isHere), list.filter((item) => !isHere(item))];
}

function isSamePlace(a: PositionTerms, b: PositionTerms): boolean {
  return a.barIndex === b.barIndex && a.offset === b.offset;
}
