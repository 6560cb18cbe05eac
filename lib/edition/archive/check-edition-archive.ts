import { canonicalJson, type JsonValue } from "../canonical-json";
import { hashEdition, writeEditionContent } from "../edition-content";
import { contentName, hashBytes, manifestName, recordName, sealOf } from "./archive-entries";
import type { ArchivedEdition } from "./edition-archive";
import type { ReadArchive } from "./read-edition-archive";

/** One thing that was looked at: a sentence that says it holds, or one for each fault. */
export interface ArchiveCheck {
  readonly about: "files" | "seal" | "hashes" | "chain" | "approvals" | "sources" | "cuts";
  readonly holds: boolean;
  readonly sentences: readonly string[];
}

/**
 * Whether an archive is what was exported: every file as it was packed, every hash that of what it names, every
 * edition following the one before, every approval given to exactly this.
 *
 * An archive in which everything was written anew, hashes and all, passes: that is told by comparing its hash, or its
 * seal, with one known from elsewhere.
 */
export function checkEditionArchive(read: ReadArchive): ArchiveCheck[] {
  const { editions } = read.archive;
  const chain =
    editions.length > 1
      ? `The chain is whole: № 1 to № ${editions.length}, each naming the one before it by its hash.`
      : "№ 1 is the first edition.";
  return [
    check(
      "files",
      findFileFaults(read),
      `All ${read.files.size} files are as they were packed, byte for byte.`,
    ),
    check("seal", findSealFaults(read), `The list of files is as it was sealed: ${read.manifest.seal}.`),
    check("hashes", editions.flatMap(findContentFaults), "Each edition is the one that its hash stands for."),
    check("chain", findChainFaults(read), chain),
    check(
      "approvals",
      editions.flatMap(findApprovalFaults),
      "Both players approved each edition, by its hash.",
    ),
    check(
      "sources",
      findSourceFaults(read),
      "The music that each edition was made on is here, as it was uploaded.",
    ),
  ];
}

/** A check of `faults`; `right` is said when there are none. */
export function check(about: ArchiveCheck["about"], faults: readonly string[], right: string): ArchiveCheck {
  return { about, holds: faults.length === 0, sentences: faults.length === 0 ? [right] : faults };
}

function findFileFaults({ manifest, files, archive }: ReadArchive): string[] {
  const listed = new Map(manifest.entries.map((entry) => [entry.name, entry]));
  const faults = [...listed].flatMap(([name, entry]) => {
    const bytes = files.get(name);
    if (!bytes) return [`${name} is missing.`];
    const isSame = bytes.length === entry.byteLength && hashBytes(bytes) === entry.sha256;
    return isSame ? [] : [`${name} was changed after it was packed.`];
  });
  const added = [...files.keys()].filter((name) => name !== manifestName && !listed.has(name));
  return [
    ...faults,
    ...added.map((name) => `${name} was added after the archive was packed.`),
    ...archive.editions.flatMap((edition) => findFormFaults(files, edition)),
  ];
}

/** One edition has one spelling; with another, two programs might read different things in it. */
function findFormFaults(files: ReadArchive["files"], { content, ...record }: ArchivedEdition): string[] {
  const forms = [
    [contentName(record.number), () => writeEditionContent(content)],
    [recordName(record.number), () => canonicalJson({ schema: 1, ...record })],
  ] as const;
  return forms
    .filter(([name, write]) => !isWritten(files.get(name), write))
    .map(([name]) => `${name} is not written in the normal form.`);
}

function findSealFaults({ manifest, files }: ReadArchive): string[] {
  const isAsRead = isWritten(files.get(manifestName), () => canonicalJson(manifest as JsonValue));
  const isSealed = isAsRead && sealOf(manifest) === manifest.seal;
  return isSealed ? [] : [`The list of files (${manifestName}) was changed after it was sealed.`];
}

/** Whether its hash is that of its content. */
export function findContentFaults({ number, hash, content }: ArchivedEdition): string[] {
  const isSame = whole(() => hashEdition(content)) === hash;
  return isSame
    ? []
    : [`№ ${number} is not what was agreed to: its content has another hash than its record.`];
}

/** Whether each follows the one before it, from № 1 on. */
export function findLinkFaults(editions: readonly ArchivedEdition[]): string[] {
  return editions.flatMap(({ number, previousHash }, index) => {
    if (number !== index + 1) return [`Where № ${index + 1} should stand is № ${number}.`];
    const before = editions[index - 1];
    if (previousHash === (before?.hash ?? null)) return [];
    return [
      before
        ? `№ ${number} does not follow № ${before.number}: it names another hash.`
        : "№ 1 names an edition before it.",
    ];
  });
}

function findChainFaults({ archive: { editions }, manifest }: ReadArchive): string[] {
  const last = editions.at(-1);
  const faults = findLinkFaults(editions);
  const isListed = last?.hash === manifest.edition.hash && last.number === manifest.edition.number;
  return isListed
    ? faults
    : [...faults, "The list of files names another edition than the last of the chain."];
}

/** Whether both players approved exactly this. */
export function findApprovalFaults({ number, hash, approvals }: ArchivedEdition): string[] {
  const missing = (["pianist", "soloist"] as const).filter((role) =>
    approvals.every((one) => one.role !== role),
  );
  return [
    ...missing.map((role) => `№ ${number} was approved by no ${role}.`),
    ...approvals
      .filter((approval) => approval.hash !== hash)
      .map(({ name }) => `What ${name} approved is not № ${number}: the approval names another hash.`),
  ];
}

function findSourceFaults({ archive: { editions, sources } }: ReadArchive): string[] {
  const hashes = new Map(sources.map((source) => [source.hash, hashBytes(source.bytes)]));
  return [
    ...[...hashes]
      .filter(([named, found]) => named !== found)
      .map(([named]) => `The source ${named} is another file.`),
    ...editions.flatMap(({ number, content: { sourceHash, cuts } }) => [
      ...(hashes.has(sourceHash) ? [] : [`The music that № ${number} was made on is not here.`]),
      ...(cuts.every((cut) => cut.sourceHash === sourceHash)
        ? []
        : [`№ ${number} has a cut of another source.`]),
    ]),
  ];
}

/** Whether the bytes are exactly this text; false as well for text that has no normal form (half a character). */
export function isWritten(bytes: Uint8Array | undefined, write: () => string): boolean {
  return bytes !== undefined && new TextDecoder().decode(bytes) === whole(write);
}

/** Null for text that has no normal form (half a character). */
function whole(write: () => string): string | null {
  try {
    return write();
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}
