import { toCutSpan } from "@/lib/edition/cut-terms";
import type { EditionContent } from "@/lib/edition/edition-content";
import { writeEditionMusicXml } from "@/lib/musicxml/cut/write-edition";

/** An edition as it is played. @throws Error if the source is missing or can no longer be read. */
export function playedMusicXml(
  edition: {
    readonly number: number;
    readonly hash: string;
    /** ISO 8601. */
    readonly frozenAt: string;
    readonly content: EditionContent;
  },
  sources: ReadonlyMap<string, Uint8Array>,
): string {
  const { number, hash, frozenAt, content } = edition;
  const sourceMusicXml = sources.get(content.sourceHash);
  if (!sourceMusicXml) throw new Error(`the source of edition № ${number} is missing`);
  const text = writeEditionMusicXml({
    ...{ sourceMusicXml, cuts: content.cuts.map(toCutSpan), editionNumber: number, hash },
    frozenOn: frozenAt.slice(0, 10),
    ...{ partRoles: content.partRoles, marks: content },
  });
  // As the archive has it: half characters, which a source may hold as references, are no text.
  return new TextDecoder().decode(new TextEncoder().encode(text));
}
