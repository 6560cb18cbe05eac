import { contentName, hashBytes, manifestName, recordName } from "@/lib/edition/archive/archive-entries";
import {
  findApprovalFaults,
  findContentFaults,
  findLinkFaults,
  isWritten,
} from "@/lib/edition/archive/check-edition-archive";
import { canonicalJson, type JsonValue } from "@/lib/edition/canonical-json";
import { writeEditionContent } from "@/lib/edition/edition-content";
import { hashTerms } from "@/lib/edition/hash-terms";
import { keyOf, roomMapNames } from "@/lib/room/room-keys";
import { findKeyFaults } from "./find-key-faults";
import { findRewriteFaults } from "./find-rewrite-faults";
import type { PieceArchive, PieceEdition } from "./piece-archive";
import { hashPiece, listsOf, pieceName } from "./piece-entries";
import { isPages } from "./printed-pages";
import type { ReadPieceArchive } from "./read-piece-archive";
import { sealOf } from "./seal";

/** One thing that was looked at: a sentence that says it holds, or one for each fault. */
export interface PieceCheck {
  readonly about: "files" | "seal" | "piece" | "editions" | "agreement" | "sources" | "room" | "people";
  readonly holds: boolean;
  readonly sentences: readonly string[];
}

/**
 * Whether an archive is what was packed: every file as it was, every hash that of what it names, every edition following
 * the one before, every answer and approval given to exactly the terms that are here, everybody who is named in it.
 *
 * An archive in which everything was written anew, hashes and all, passes: that is told by comparing the hashes of its
 * editions with those known from elsewhere.
 */
export function checkPieceArchive(read: ReadPieceArchive): PieceCheck[] {
  const { archive, manifest, piece } = read;
  const { editions, proposals, rewriteProposals } = archive;
  const chain =
    editions.length === 0
      ? "No edition was frozen yet."
      : `Each of the ${editions.length} editions is the one that its hash stands for, follows the one before it, and was approved by both players.`;
  return [
    check("files", findFileFaults(read), `All ${read.files.size} files are as they were packed.`),
    check("seal", findSealFaults(read), `The list of files is as it was sealed: ${manifest.seal}.`),
    check("piece", findPieceFaults(read), `The piece is the one with the hash ${piece.hash}.`),
    check("editions", findEditionFaults(archive), chain),
    check(
      "agreement",
      [...findAgreementFaults(archive), ...findRewriteFaults(archive), ...findApprovedFaults(archive)],
      `All ${proposals.length + rewriteProposals.length} proposals have the terms that were answered.`,
    ),
    check("sources", findSourceFaults(archive), "The music is here as it was uploaded."),
    check("room", findRoomFaults(archive), "Each record of the room stands under its own key."),
    check("people", findKeyFaults(archive), "Everybody and everything that is spoken of is here."),
  ];
}

function check(about: PieceCheck["about"], faults: readonly string[], right: string): PieceCheck {
  return { about, holds: faults.length === 0, sentences: faults.length === 0 ? [right] : faults };
}

function findFileFaults({ manifest, files, archive, piece }: ReadPieceArchive): string[] {
  const listed = new Map(manifest.entries.map((entry) => [entry.name, entry]));
  const changed = [...listed].flatMap(([name, entry]) => {
    const bytes = files.get(name);
    if (!bytes) return [`${name} is missing.`];
    const isSame = bytes.length === entry.byteLength && hashBytes(bytes) === entry.sha256;
    return isSame ? [] : [`${name} was changed after it was packed.`];
  });
  const added = [...files.keys()].filter((name) => name !== manifestName && !listed.has(name));
  const forms: [string, () => string][] = [
    [pieceName, () => canonicalJson(piece as JsonValue)],
    ...listsOf(archive).map(([name, value]): [string, () => string] => [
      name,
      () => canonicalJson(value as JsonValue),
    ]),
    ...archive.editions.flatMap(formsOf),
  ];
  return [
    ...changed,
    ...added.map((name) => `${name} was added after the archive was packed.`),
    ...forms
      .filter(([name, write]) => !isWritten(files.get(name), write))
      .map(([name]) => `${name} is not written in the normal form.`),
    // Postgres holds any text but this sign.
    ...listsOf(archive)
      .filter(([name, value]) => name !== "room.json" && canonicalHasNul(value))
      .map(([name]) => `${name} holds a sign (U+0000) that no text has.`),
    ...(canonicalHasNul(piece) ? [`${pieceName} holds a sign (U+0000) that no text has.`] : []),
  ];
}

/** A record and the content of an edition have one spelling; with another, two programs might read different things. */
function formsOf({ content, musicXml: _music, ...record }: PieceEdition): [string, () => string][] {
  return [
    [contentName(record.number), () => writeEditionContent(content)],
    [recordName(record.number), () => canonicalJson({ schema: 1, ...record })],
  ];
}

function canonicalHasNul(value: object): boolean {
  return JSON.stringify(value).replaceAll("\\\\", "").includes("\\u0000");
}

function findSealFaults({ manifest, files, piece }: ReadPieceArchive): string[] {
  const isAsRead = isWritten(files.get(manifestName), () => canonicalJson(manifest as JsonValue));
  return [
    ...(isAsRead && sealOf(manifest) === manifest.seal
      ? []
      : [`The list of files (${manifestName}) was changed after it was sealed.`]),
    ...(manifest.hash === piece.hash && manifest.title === piece.title
      ? []
      : [`The list of files (${manifestName}) names another piece than ${pieceName}.`]),
  ];
}

function findPieceFaults({ piece, files }: ReadPieceArchive): string[] {
  const named = new Map(Object.entries(piece.files));
  const others = [...files].filter(([name]) => name !== manifestName && name !== pieceName && !isPages(name));
  return [
    ...(isOwnHash(piece) ? [] : [`${pieceName} is not what was packed: it has another hash than it says.`]),
    ...others.flatMap(([name, bytes]) =>
      named.get(name) === hashBytes(bytes) ? [] : [`${name} is not the file that ${pieceName} names.`],
    ),
    ...[...named.keys()]
      .filter((name) => !files.has(name))
      .map((name) => `${name}, which ${pieceName} names, is missing.`),
  ];
}

function isOwnHash(piece: ReadPieceArchive["piece"]): boolean {
  try {
    return hashPiece(piece) === piece.hash;
  } catch (error) {
    // Text that has no normal form (half a character): we never wrote it.
    if (error instanceof RangeError) return false;
    throw error;
  }
}

function findEditionFaults({ editions }: PieceArchive): string[] {
  return [
    ...editions.flatMap((edition) => [
      ...findContentFaults(edition),
      ...findApprovalFaults(edition),
      ...findDoubleApprovals(edition),
    ]),
    ...findLinkFaults(editions),
  ];
}

function findDoubleApprovals({ number, approvals }: PieceEdition): string[] {
  const people = new Set(approvals.map(({ by }) => by));
  return people.size === approvals.length ? [] : [`№ ${number} was approved twice by the same person.`];
}

function findAgreementFaults({ proposals, rewriteProposals }: PieceArchive): string[] {
  const all = [
    ...proposals.map((proposal) => ["proposals.json", proposal] as const),
    ...rewriteProposals.map((proposal) => ["rewrites.json", proposal] as const),
  ];
  return all.flatMap(([file, { key, terms, termsHash, answers }]) => {
    const isSame = hashTerms(terms) === termsHash;
    const others = answers.filter((answer) => answer.answer === "agree" && answer.termsHash !== termsHash);
    return [
      ...(isSame ? [] : [`${file}: ${key} has other terms than its hash says.`]),
      ...others.map(({ by }) => `${file}: ${by} agreed to other terms than those of ${key}.`),
    ];
  });
}

function findApprovedFaults({ approvals }: PieceArchive): string[] {
  return approvals.flatMap(({ by, content, contentHash, at }) =>
    content === null || hashTerms(content) === contentHash
      ? []
      : [`approvals.json: what ${by} wanted to freeze at ${at} is not what its hash says.`],
  );
}

function findSourceFaults({
  piece,
  bytes,
  editions,
  proposals,
  rewriteProposals,
  rewrites,
  needs,
  performances,
}: PieceArchive): string[] {
  const missing = piece.sources.filter(({ hash }) => !bytes.has(hash));
  const others = [...bytes].filter(([hash, file]) => hashBytes(file) !== hash);
  const wanted = [
    ...editions.map(({ number, content }) => [`№ ${number}`, content.sourceHash] as const),
    ...proposals.map(({ key, terms }) => [key, terms.sourceHash] as const),
    ...rewriteProposals.map(({ key, terms }) => [key, terms.sourceHash] as const),
    ...rewrites.map(({ key, terms }) => [key, terms.sourceHash] as const),
    ...needs.map(({ key, terms }) => [key, terms.sourceHash] as const),
  ];
  return [
    ...missing.map(({ hash, fileName }) => `The source ${fileName} (${hash}) is missing.`),
    ...others.map(([hash]) => `The source ${hash} is another file.`),
    ...wanted
      .filter(([, hash]) => !bytes.has(hash))
      .map(([what]) => `The music that ${what} was made on is not here.`),
    ...(piece.sources.some(({ kind }) => kind === "solo and reduction")
      ? []
      : ["piece.json names no file with the solo and the reduction."]),
    ...performances
      .filter(({ editionNumber }) => editionNumber > editions.length)
      .map(
        ({ key, editionNumber }) =>
          `performances.json: ${key} is of edition № ${editionNumber}, which is not here.`,
      ),
    ...findDoubleSources(piece.sources),
  ];
}

function findDoubleSources(sources: PieceArchive["piece"]["sources"]): string[] {
  const names = new Set(sources.map(({ kind, hash }) => `${kind} ${hash}`));
  return names.size === sources.length ? [] : ["piece.json names one source twice."];
}

function findRoomFaults({ room }: PieceArchive): string[] {
  return roomMapNames.flatMap((map) => {
    const keys = room[map].map(({ record }) => keyOf(map, record));
    const isInOrder = keys.every((key, index) => index === 0 || (keys[index - 1] ?? "") < key);
    return isInOrder
      ? []
      : [`room.json: the records of “${map}” are not in the order of their keys, each once.`];
  });
}
