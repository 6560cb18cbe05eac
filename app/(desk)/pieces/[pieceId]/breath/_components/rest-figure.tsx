import { sayClock } from "@/lib/score/say-clock";
import styles from "./rest-figure.module.css";

const width = 134;

/** A rest as written, as it is now and as an open proposal would leave it, and the least that is wished: on the scale of the list. */
export function RestFigure({
  written,
  now,
  open,
  wished,
  longest,
}: {
  written: number;
  now: number;
  open: number | null;
  wished: number | null;
  /** Of the list, in seconds: what fills the width. */
  longest: number;
}) {
  const x = (seconds: number) => Math.round((2 + (seconds / Math.max(1, longest)) * (width - 6)) * 10) / 10;
  const lines = [
    ...(Math.abs(written - now) >= 0.5 ? [{ seconds: written, look: styles.was }] : []),
    { seconds: now, look: styles.now },
    ...(open !== null ? [{ seconds: open, look: styles.open }] : []),
  ];
  const height = 14 * lines.length + 4;
  const words = [
    `as written ${sayClock(written)}`,
    `now ${sayClock(now)}`,
    open !== null && `with the open proposal ${sayClock(open)}`,
    wished !== null && `${sayClock(wished)} wanted`,
  ].filter(Boolean);
  return (
    <svg
      className={styles.figure}
      viewBox={`0 0 ${width} ${height}`}
      style={{ height }}
      role="img"
      aria-label={`Rest: ${words.join(", ")}`}
    >
      {lines.map(({ seconds, look }, index) => {
        const y = 9 + 14 * index;
        const end = Math.max(3, x(seconds));
        return (
          <g key={look} className={look}>
            <path d={`M2 ${y}H${end}`} />
            <path className={styles.end} d={`M2 ${y - 5}v10M${end} ${y - 5}v10`} />
          </g>
        );
      })}
      {wished !== null && (
        <path className={styles.wished} d={`M${Math.min(x(wished), width - 1)} 0V${height}`} />
      )}
    </svg>
  );
}
