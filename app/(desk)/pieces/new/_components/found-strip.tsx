"use client";

import { useMemo } from "react";
import { stackRows } from "@/app/_ui/strip/rows";
import { makeScale } from "@/app/_ui/strip/scale";
import { StripDrawing, StripMinutes } from "@/app/_ui/strip/strip-drawing";
import type { StripPiece } from "@/app/_ui/strip/strip-piece";
import { useWidth } from "@/app/_ui/strip/use-width";
import styles from "./bring-piece.module.css";

/** The strip of a piece that is only being looked at: nothing on it can be tapped. */
export function FoundStrip({ piece }: { piece: StripPiece }) {
  const [room, measured] = useWidth<HTMLDivElement>();
  const width = Math.max(200, (measured ?? 800) - 2);
  const rows = useMemo(() => stackRows("desk"), []);
  const scale = useMemo(() => makeScale(piece.totalSeconds, width, []), [piece, width]);
  return (
    <div ref={room} className={styles.strip}>
      <svg
        width={width}
        height={rows.height}
        role="img"
        aria-label={`${piece.bars.length} bars, ${piece.tuttis.length} of their stretches tutti`}
      >
        <StripDrawing piece={piece} scale={scale} rows={rows} isAsPlayed={false} openCutId={null} />
        <StripMinutes totalSeconds={piece.totalSeconds} width={width} y={rows.axis} covered={null} />
      </svg>
    </div>
  );
}
