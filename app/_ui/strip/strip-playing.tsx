import { useSyncExternalStore } from "react";
import { nowhere, type Playing } from "../playing";
import type { StripRows } from "./rows";
import type { Scale } from "./scale";
import styles from "./strip-playing.module.css";

/**
 * Where the music is: an ink line through the rows with a foot. It alone is drawn again while the music goes on, on a layer
 * of its own over the strip, so that the strip is not painted again.
 */
export function StripPlaying({ playing, scale, rows }: { playing: Playing; scale: Scale; rows: StripRows }) {
  const at = useSyncExternalStore(playing.subscribe, playing.at, nowhere);
  if (at === null) return null;
  const top = rows.solo - footHeight;
  return (
    <div
      className={styles.playing}
      data-playing={at.barIndex}
      aria-hidden="true"
      style={{ top, height: rows.axis - top, transform: `translateX(${scale.x(at.pieceFrom)}px)` }}
    />
  );
}

const footHeight = 9;
