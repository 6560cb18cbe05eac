import type { PieceArchive } from "./piece-archive";

/** In plain words: what a piece that was taken along holds, and how it is checked, with or without our program. */
export function pieceReadme({ piece, editions }: PieceArchive): string {
  const title = [piece.composer, piece.title, piece.movement].filter((part) => part).join(", ");
  const text = `${title}
The whole piece, as its players left it. ${sayEditions(editions.length)}

  piece.json                     what it is: title, limit, tempi, who was in it (p1, p2 …), the files it was prepared
                                 from, and the SHA-256 of every other file here
  sources/                       the music as it was uploaded, unchanged (MusicXML); named by its SHA-256
  proposals.json                 every proposal, with every answer to it and the hash of the terms that it was given to
  rewrites.json                  what the pianist plays instead of the print, as it was told or asked, and every answer;
                                 only where there is any
  cue-hints.json                 the duo's own words on how to sound like an instrument; only where there are any
  rest-needs.json                the rests that the soloist needs, and what was done to each
  room.json                      comments, breaths, pencilled cuts and all other marks, each with who and when
  approvals.json                 who wanted to freeze what, also what was taken back
  editions/N/content.json        what edition № N consists of
  editions/N/record.json         its hash, the hash of the edition before it, when it was frozen, who approved it
  editions/N/played.musicxml     the edition as it is played, cuts carried out (MusicXML 4.0)
  performances.json              where each edition was played, and how long it took
  trail.json                     what was done, by whom and when
  pages/                         the newest edition as it prints on A4, for the pianist and the soloist (PDF)
  schemas/                       the JSON Schema of these files
  manifest.json                  every file with its length and its SHA-256, sealed by a SHA-256 of its own

The PDF files are printed from the newest edition whenever a piece is packed. manifest.json lists them like all others, but
the hash of the piece does not stand for them: another version of the program may print the same edition otherwise. They
are left out where it could not be printed, and are not brought back in. Other papers and sizes, and the pages of earlier
editions, are printed by the program.

How to read it
  A place is a bar, counted from 0 in the order of the page, and an offset from its beginning in quarter notes, as an
  exact fraction. A cut means: play up to "from", go on at "to". Parts have the ids they have in the source. People have
  keys of this archive; there are no addresses, no passwords and no ids of accounts in it.

How to check it
  The SHA-256 of editions/N/content.json is the hash of edition № N, which begins with the sixteen characters that are
  printed at the foot of its pages. With the program:
      npm run -s inspect -- THIS-FILE.zip

How to bring it back
  On the first screen of the program, on this server or another: "Bring in a piece that was taken away". Editions keep
  their numbers, their hashes and their approvals. Whoever brings it in says which player they are; nobody else's words
  become those of an account that did not say so itself.

What it cannot show
  Whoever writes every file in here anew, hashes and all, gets an archive that agrees with itself. That an edition is the
  one you agreed to is shown by its hash: compare it with your printed copy, or with the other player's archive.

Many editions are in copyright: copying, altering or sharing this music may need permission.
`; // As all text in the archive, whatever form the title was typed in.
  return text.normalize("NFC");
}

function sayEditions(count: number): string {
  if (count === 0) return "No edition was frozen yet.";
  return count === 1 ? "With edition № 1." : `With editions № 1 to № ${count}.`;
}
