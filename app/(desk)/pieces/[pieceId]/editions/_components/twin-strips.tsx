"use client";

import type { Comparison } from "@/app/_data/editions/editions-view";
import { useWidth } from "@/app/_ui/strip/use-width";
import { saySide } from "@/lib/edition/choose-sides";
import { sayClock } from "@/lib/score/say-clock";
import { layOutTwins, type TwinRow } from "./lay-out-twins";
import styles from "./twin-strips.module.css";

const upper = 38;
const lower = 112;
const height = 136;

/** One version above the other, as played, on one scale of time; numbers lead to the lines of the table. */
export function TwinStrips({ comparison }: { comparison: Comparison }) {
  const [room, measured] = useWidth<HTMLDivElement>();
  const width = measured ?? 640;
  const twins = layOutTwins(comparison, Math.max(120, width - 4));
  const { earlier, later } = comparison;
  return (
    <div className={styles.twins}>
      <p className={styles.earlierName}>{saySide(earlier.name)}</p>
      <p className={styles.laterName}>{saySide(later.name)}</p>
      <div ref={room} className={styles.drawing}>
        <svg
          width={width}
          height={height}
          viewBox={`-2 0 ${width} ${height}`}
          role="img"
          aria-label={`${saySide(earlier.name)}, ${sayClock(earlier.seconds)}, above ${saySide(later.name)}, ${sayClock(later.seconds)}, as played`}
        >
          {twins.letters.map(({ x, text }) => (
            <text key={x} className={styles.letter} x={x} y={13}>
              {text}
            </text>
          ))}
          {twins.wedges.map(({ top, bottom }) => (
            <path
              key={`${top.x} ${bottom.x}`}
              className={styles.wedge}
              d={`M${top.x} ${upper + 10}H${top.end}L${bottom.end} ${lower - 10}H${bottom.x}Z`}
            />
          ))}
          {twins.links.map(({ top, bottom }) => (
            <path
              key={`${top} ${bottom}`}
              className={styles.link}
              d={`M${top} ${upper + 10}L${bottom} ${lower - 10}`}
            />
          ))}
          <Row row={twins.earlier} y={upper} />
          <Row row={twins.later} y={lower} />
          {twins.marks.map(({ number, x }) => (
            <g key={number}>
              <circle className={styles.mark} cx={x} cy={(upper + lower) / 2} r={10} />
              <text className={styles.markText} x={x} y={(upper + lower) / 2 + 4.5}>
                {number}
              </text>
            </g>
          ))}
        </svg>
      </div>
      <p className={styles.earlierTime}>{sayClock(earlier.seconds)}</p>
      <p className={styles.laterTime}>{sayClock(later.seconds)}</p>
    </div>
  );
}

function Row({ row, y }: { row: TwinRow; y: number }) {
  return (
    <>
      {row.solo.map(({ x, end }) => (
        <rect key={x} className={styles.plays} x={x + 0.5} y={y - 6} width={end - x - 1} height={12} />
      ))}
      {row.tuttis.map(({ x, end }) => (
        <g key={x} className={styles.rest}>
          <path d={`M${x + 1} ${y}H${end - 1}`} />
          <path className={styles.restEnd} d={`M${x + 1} ${y - 4}v8M${end - 1} ${y - 4}v8`} />
        </g>
      ))}
      {row.seams.map((x) => (
        <path key={x} className={styles.seam} d={`M${x} ${y - 12}v24`} />
      ))}
    </>
  );
}
