import type { EditionArchive } from "./edition-archive";

/** In plain words: what an exported edition holds and how it is checked, with or without our program. */
export function archiveReadme({ piece, editions }: EditionArchive): string {
  const last = editions.at(-1);
  if (!last) throw new RangeError("An archive of no edition");
  const title = [piece.composer, piece.title, piece.movement].filter((part) => part).join(", ");
  const chain = sayChain(last.number - 1);
  const text = `${title}
Performing edition № ${last.number}
${last.hash}

This archive holds a performing edition as two players agreed to it. ${chain}

  sources/                  the music as it was uploaded, unchanged (MusicXML); named by its SHA-256
  editions/N/content.json   what edition № N consists of: its source, its cuts, its tempi, what each part is for
  editions/N/record.json    its hash, the hash of the edition before it, when it was frozen, who approved it and when
  schemas/                  the JSON Schema of these files
  manifest.json             every other file with its length and its SHA-256, sealed by a SHA-256 of its own

How to read it
  A place is a bar, counted from 0 in the order of the page, and an offset from its beginning in quarter notes, as an
  exact fraction. A cut means: play up to "from", go on at "to". Parts have the ids they have in the source.

How to check it
  The SHA-256 of editions/N/content.json is the hash of edition № N, which begins with the sixteen characters that are
  printed at the foot of its pages:
      sha256sum editions/${last.number}/content.json
  Each record names the hash of the edition before it, and each approval the hash that was approved. With the program:
      npm run -s inspect -- THIS-FILE.zip

How it is written
  JSON is in the one form of RFC 8785 (keys sorted, numbers as ECMAScript writes them, no white space), in UTF-8, all
  text and all keys in Unicode normal form C. Cuts stand in the order of the page. So the same edition has the same
  bytes, and the same hash, on every machine.

What it cannot show
  Whoever writes every file in here anew, hashes and all, gets an archive that agrees with itself. That it is the
  edition you agreed to is shown by its hash: compare it with your printed copy, or with the other player's archive.

Many editions are in copyright: copying, altering or sharing this music may need permission.
`; // As all text in the archive, whatever form the title was typed in.
  return text.normalize("NFC");
}

/** @param before how many editions there were before. */
function sayChain(before: number): string {
  if (before === 0) return "It is the first edition.";
  if (before === 1) return "With it comes № 1, the edition before it.";
  return `With it come № 1 to № ${before}, the editions before it.`;
}
