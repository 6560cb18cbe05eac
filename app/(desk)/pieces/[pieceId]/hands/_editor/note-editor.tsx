"use client";

import { Button } from "@/app/_ui/button";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import type { HandsProfile } from "@/lib/hands/hands-profile";
import { barSpanOf } from "@/lib/rewrites/bars-of-terms";
import { PassageDrawing } from "./passage-drawing";

/**
 * Writes a rewrite note by note, within its bars and nowhere else.
 *
 * @param terms where it begins: an ossia that was suggested, or the print. @param pace share of the tempo that was read.
 */
export function NoteEditor({
  pieceId,
  sourceHash,
  terms,
  onKeep,
  onLeave,
}: {
  pieceId: string;
  sourceHash: string;
  terms: RewriteTerms;
  hands: HandsProfile;
  pace: number;
  onKeep: (terms: RewriteTerms) => void;
  onLeave: () => void;
}) {
  return (
    <section aria-label="Write your own">
      <PassageDrawing
        {...{ pieceId, sourceHash, ...barSpanOf(terms) }}
        rewrite={terms}
        as="instead"
        label="Your own version"
      />
      <Button kind="settle" onClick={() => onKeep(terms)}>
        Keep
      </Button>
      <Button kind="bare" onClick={onLeave}>
        Leave
      </Button>
    </section>
  );
}
