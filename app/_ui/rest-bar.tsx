import { sayClock } from "@/lib/score/say-clock";
import styles from "./rest-bar.module.css";

/** The soloist's rest before and after a cut, as two many-bar rests on one scale, and how much of it is needed. */
export function RestBar({
  beforeSeconds,
  afterSeconds,
  neededSeconds = null,
}: {
  beforeSeconds: number;
  afterSeconds: number;
  neededSeconds?: number | null;
}) {
  const width = 180;
  const scale = (width - 4) / Math.max(beforeSeconds, afterSeconds, neededSeconds ?? 0, 0.1);
  const [before, after] = [beforeSeconds, afterSeconds].map((seconds) => 2 + seconds * scale);
  return (
    <svg
      className={styles.bar}
      viewBox={`0 0 ${width} 30`}
      role="img"
      aria-label={`Rest ${sayClock(beforeSeconds)} before, ${sayClock(afterSeconds)} after${
        neededSeconds === null ? "" : `, ${sayClock(neededSeconds)} needed`
      }`}
    >
      <g className={styles.before}>
        <path d={`M2 8H${before}`} />
        <path className={styles.end} d={`M2 3v10M${before} 3v10`} />
      </g>
      <path d={`M2 22H${after}`} />
      <path className={styles.end} d={`M2 17v10M${after} 17v10`} />
      {neededSeconds !== null && <path className={styles.needed} d={`M${2 + neededSeconds * scale} 0V30`} />}
    </svg>
  );
}
