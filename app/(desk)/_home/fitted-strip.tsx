"use client";

import { MiniStrip } from "@/app/_ui/mini-strip";
import type { StripPiece } from "@/app/_ui/strip/strip-piece";
import { useWidth } from "@/app/_ui/strip/use-width";

/** The strip on one line, drawn for the width of its place, so that its letters and bars keep their size. */
export function FittedStrip({
  piece,
  hasLetters = false,
  expected,
}: {
  piece: StripPiece;
  hasLetters?: boolean;
  /** Width before it is measured. */
  expected: number;
}) {
  const [room, measured] = useWidth<HTMLDivElement>();
  return (
    <div ref={room}>
      <MiniStrip piece={piece} hasLetters={hasLetters} width={Math.max(120, (measured ?? expected) - 4)} />
    </div>
  );
}
