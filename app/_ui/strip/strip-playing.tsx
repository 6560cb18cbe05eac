import { useSyncExternalStore } from "react";
import { nowhere, type Playing } from "../playing";
import type { StripRows } from "./rows";
import type { Scale } from "./scale";
import styles from "./strip-playing.module.css";

/** Where the music is: an ink line through the rows with a foot. It alone is drawn again while the music goes on. */
export function StripPlaying({ playing, scale, rows }: { playing: Playing; scale: Scale; rows: StripRows }) {
  const at = useSyncExternalStore(playing.subscribe, playing.at, nowhere);
  if (at === null) return null;
  const x = scale.x(at.pieceFrom);
  return (
    <g className={styles.playing} data-playing={at.barIndex} pointerEvents="none">
      <path className={styles.edge} d={`M${x} ${rows.solo - 3}V${rows.axis + 3}`} />
      <path className={styles.line} d={`M${x} ${rows.solo - 3}V${rows.axis}`} />
      <path className={styles.foot} d={`M${x - 5} ${rows.solo - 9}h10l-5 6z`} />
    </g>
  );
}
