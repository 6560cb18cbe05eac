import { placeCuts } from "./cut-shapes";
import type { Target } from "./find-hits";
import { placeNotes } from "./note-pins";
import type { StripRows } from "./rows";
import type { Scale } from "./scale";
import type { StripPiece } from "./strip-piece";
import { placeLetters } from "./top-labels";

/** What a tap on the strip can mean besides the bar under it. `at` is where the score goes, in seconds. */
export type Meant =
  | { readonly kind: "cut"; readonly key: string; readonly at: number; readonly cutId: string }
  | { readonly kind: "notes"; readonly key: string; readonly at: number; readonly noteIds: readonly string[] }
  | { readonly kind: "letter"; readonly key: string; readonly at: number }
  | {
      readonly kind: "passage";
      readonly key: string;
      readonly at: number;
      readonly firstBar: number;
      readonly lastBar: number;
    };

/** Everything that can be tapped, where it is drawn. */
export function findTargets(
  piece: StripPiece,
  scale: Scale,
  rows: StripRows,
  isAsPlayed: boolean,
): Target<Meant>[] {
  const cuts = placeCuts(piece.cuts, scale, isAsPlayed).map(({ x, end, cut, gapIndex }) => ({
    x,
    end,
    y: rows.solo + 10,
    meant: {
      kind: "cut" as const,
      key: `cut ${cut.id} ${gapIndex}`,
      at: cut.gaps[gapIndex]?.from ?? 0,
      cutId: cut.id,
    },
  }));
  const { notes } = rows;
  const pins = notes === null ? [] : placeNotes(piece.notes, scale);
  const pinTargets = pins.map((pin) => ({
    x: pin.x - 8,
    end: pin.x + 8,
    y: (notes ?? 0) + 11,
    meant: {
      kind: "notes" as const,
      key: `notes ${pin.notes[0]?.id}`,
      at: pin.notes[0]?.at ?? 0,
      noteIds: pin.notes.map((note) => note.id),
    },
  }));
  const letters = placeLetters(piece.letters, scale).map((box) => ({
    x: box.x,
    end: box.x + box.width,
    y: rows.letters + 8,
    meant: { kind: "letter" as const, key: `letter ${box.letter.at}`, at: box.letter.at },
  }));
  const passages = rows.hands === null ? [] : (piece.hands?.passages ?? []);
  const passageTargets = passages.map(({ from, to, firstBar, lastBar }) => ({
    x: scale.x(from),
    end: scale.x(to),
    y: (rows.hands ?? 0) + 16,
    meant: { kind: "passage" as const, key: `passage ${from}`, at: from, firstBar, lastBar },
  }));
  return [...cuts, ...pinTargets, ...letters, ...passageTargets];
}
