import { shortHash } from "@/lib/edition/short-hash";
import type { InspectedCheck, InspectedPiece } from "./inspect-piece";
import { plainLine } from "./plain-line";
import { sayMoment } from "./say-moment";

/** What a piece that was taken along holds, and whether it is what was packed. Plain data. */
export interface PieceReport {
  readonly kind: "piece";
  readonly title: string;
  readonly movement: string | null;
  readonly composer: string | null;
  /** Stands for the whole piece. */
  readonly hash: string;
  readonly seal: string;
  readonly isWhole: boolean;
  readonly checks: readonly InspectedCheck[];
  readonly people: readonly { readonly key: string; readonly name: string; readonly role: string }[];
  /** How many there are of each kind of thing. */
  readonly holds: Readonly<Record<string, number>>;
  readonly editions: readonly {
    readonly number: number;
    readonly hash: string;
    readonly previousHash: string | null;
    readonly frozenAt: string;
    readonly approvals: readonly { readonly name: string; readonly role: string; readonly at: string }[];
  }[];
}

export function toPieceReport({ read, checks, isWhole }: InspectedPiece): PieceReport {
  const { archive, manifest, piece } = read;
  const { title, movement, composer, hash, people } = piece;
  return {
    ...{ kind: "piece", title, movement, composer, hash, seal: manifest.seal, isWhole, checks },
    people: people.map(({ key, name, role }) => ({ key, name, role })),
    holds: {
      files: read.files.size,
      sources: piece.sources.length,
      proposals: archive.proposals.length + archive.rewriteProposals.length,
      "rest needs": archive.needs.length,
      ...Object.fromEntries(Object.entries(archive.room).map(([map, records]) => [map, records.length])),
      performances: archive.performances.length,
      "entries of the trail": archive.trail.length,
    },
    editions: archive.editions.map(({ number, hash: edition, previousHash, frozenAt, approvals }) => ({
      ...{ number, hash: edition, previousHash, frozenAt },
      approvals: approvals.map(({ name, role, at }) => ({ name, role, at })),
    })),
  };
}

/** The report as lines of plain text for a terminal, control characters in the file's own text removed. */
export function sayPieceReport(report: PieceReport): string {
  const { title, movement, composer, hash, checks, people, holds, editions } = report;
  const names = [title, movement, composer].filter((text) => text);
  return [
    `${names.join(" · ") || "(no title)"}, the whole piece`,
    hash,
    sayVerdict(report),
    ...section(
      "Checked",
      checks.flatMap(({ holds: isSo, sentences }) =>
        sentences.map((one) => `${isSo ? "yes" : "NO "}  ${one}`),
      ),
    ),
    ...section(
      "People",
      people.map(({ key, name, role }) => `${key}  ${name}, ${role}`),
    ),
    ...section(
      "Holds",
      Object.entries(holds).map(([what, count]) => `${count} ${what}`),
    ),
    ...section("Editions", editions.flatMap(sayEdition)),
  ]
    .map((line) => `${/^ */.exec(line)?.[0] ?? ""}${plainLine(line)}`)
    .join("\n");
}

function section(heading: string, lines: readonly string[]): string[] {
  return [`${heading}:`, ...(lines.length > 0 ? lines : ["none"]).map((line) => `  ${line}`)];
}

function sayVerdict({ isWhole, checks }: PieceReport): string {
  if (isWhole)
    return "Everything holds. Compare the hashes of the editions below with your printed copies, which have the same sixteen characters at the foot.";
  const faults = checks.filter(({ holds }) => !holds).flatMap(({ sentences }) => sentences).length;
  return `This is not the piece as it was packed. ${faults === 1 ? "One thing does" : `${faults} things do`} not hold.`;
}

function sayEdition({ number, hash, frozenAt, approvals }: PieceReport["editions"][number]): string[] {
  return [
    `№ ${number}, ${shortHash(hash)}, frozen ${sayMoment(frozenAt)}`,
    ...approvals.map(({ name, role, at }) => `    ${name} (${role}) approved it ${sayMoment(at)}`),
  ];
}
