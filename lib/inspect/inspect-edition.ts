import { nameCut } from "@/lib/cuts/name-cut";
import type { ArchiveProblem } from "@/lib/edition/archive/archive-problem";
import { check, checkEditionArchive } from "@/lib/edition/archive/check-edition-archive";
import type { ArchivedEdition } from "@/lib/edition/archive/edition-archive";
import { readEditionArchive } from "@/lib/edition/archive/read-edition-archive";
import { isPackedByUs } from "@/lib/edition/archive/write-edition-archive";
import { readBarMap } from "@/lib/edition/bar-maps";
import { compareBars } from "@/lib/edition/compare-bars";
import { compareEditions } from "@/lib/edition/compare-editions";
import { toCutSpan } from "@/lib/edition/cut-terms";
import { type EditionContent, noMarks } from "@/lib/edition/edition-content";
import { toPosition } from "@/lib/edition/position-terms";
import { atBreath, sayMarkChange, saySpan } from "@/lib/edition/say-mark-change";
import { printedTempo, toTempoSettings } from "@/lib/edition/tempo-terms";
import { timeEdition } from "@/lib/edition/time-edition";
import { assignRoles } from "@/lib/score/assign-roles";
import { findPerformedOrder } from "@/lib/score/performed-order";
import { type Result, success } from "@/lib/score/result";
import type { Score } from "@/lib/score/score";
import { readTempoMap } from "@/lib/score/tempo-map";
import { type FittedEdition, fitEditions, namesIn } from "./edition-music";
import type { EditionMusic, EditionReport, InspectedEdition } from "./edition-report";

/**
 * Reads an exported edition and checks all that can be checked without the server it came from: files, hashes, chain,
 * approvals, sources, and whether every cut can be made in the music.
 */
export function inspectEdition(bytes: Uint8Array): Result<EditionReport, ArchiveProblem> {
  const read = readEditionArchive(bytes);
  if (!read.ok) return read;
  const { archive, manifest } = read.value;
  const fitted = fitEditions(archive.editions, archive.sources);
  const checks = [
    ...checkEditionArchive(read.value),
    check(
      "cuts",
      fitted.flatMap(({ faults }) => faults),
      "Every cut and every tempo can be played in its music, and every mark stands in it.",
    ),
  ];
  const last = fitted.at(-1);
  return success({
    ...{ kind: "edition", piece: archive.piece, ...manifest.edition, seal: manifest.seal },
    rendererVersion: archive.rendererVersion,
    isWhole: checks.every(({ holds }) => holds),
    isAsPacked: isPackedByUs(bytes, read.value),
    checks,
    music: last?.score
      ? { ...tellMusic(last.score, last.edition), ...tellMarks(last.score, last.edition) }
      : null,
    editions: fitted.map((edition, index) => tellEdition(edition, fitted[index - 1] ?? null)),
  });
}

/** To the millisecond: more digits would be noise. */
const roundSeconds = (time: number) => Math.round(time * 1000) / 1000;

type MarkLines = Pick<EditionMusic, "breaths" | "cues" | "rewrites" | "remarks">;

function tellMusic(score: Score, { content }: ArchivedEdition): Omit<EditionMusic, keyof MarkLines> {
  const cuts = content.cuts.map(toCutSpan);
  const order = findPerformedOrder(score);
  const running = timeEdition(score, content);
  const whole = timeEdition(score, { ...content, cuts: [] }).seconds;
  const stretches = compareBars(score, readBarMap(score, order, []), readBarMap(score, order, cuts));
  return {
    runsSeconds: roundSeconds(running.seconds),
    sentence: running.sentence,
    cuts: content.cuts.map((cut) => ({
      name: nameCut(score, toCutSpan(cut)),
      savedSeconds: roundSeconds(whole - timeEdition(score, { ...content, cuts: [cut] }).seconds),
    })),
    bars: stretches.map(({ firstLabel, lastLabel, inB }) => ({
      first: firstLabel,
      last: lastLabel,
      plays: inB,
    })),
  };
}

function tellMarks(score: Score, { number, content }: ArchivedEdition): MarkLines {
  const names = namesIn(score, number, []);
  return {
    breaths: content.breaths.map((terms) => atBreath(terms, names)),
    cues: content.cues.map(({ at, text }) => `${names.place(toPosition(at))}: ${text}`),
    rewrites: content.rewrites.map((after) =>
      sayMarkChange({ kind: "rewrite", before: null, after }, names).replace(/\.$/, ""),
    ),
    remarks: content.remarks.map(
      ({ from, to, text, by }) => `${saySpan({ from, to }, names)}, ${by}: “${text}”`,
    ),
  };
}

function tellEdition(fitted: FittedEdition, before: FittedEdition | null): InspectedEdition {
  const { content, ...record } = fitted.edition;
  const { score } = fitted;
  return {
    ...record,
    cutCount: content.cuts.length,
    runsSeconds: score && roundSeconds(timeEdition(score, content).seconds),
    changes: score && (before === null || before.score) ? tellChanges(score, content, before) : null,
  };
}

function tellChanges(score: Score, content: EditionContent, before: FittedEdition | null): string[] {
  const earlier = before?.edition.content ?? { ...content, ...noMarks, cuts: [], tempo: printedTempo };
  const map = readTempoMap(assignRoles(score, content.partRoles), toTempoSettings(content.tempo));
  const names = namesIn(score, before?.edition.number ?? 0, before ? earlier.cuts : []);
  return compareEditions(score, map, earlier, content, names).map(({ sentence }) => sentence);
}
