"use client";

import { sayClock } from "@/lib/score/say-clock";
import type { Ink } from "../party";
import { useWidth } from "../strip/use-width";
import styles from "./large-meter.module.css";
import { type LargeMeterRow, layOutLargeMeter, type MeterKind, type MeterTime } from "./large-meter-rows";

const rowHeight = 46;
const labelHeight = 17;
const barHeight = 22;
const top = 20;

/** A time that the meter shows, and what it is called. */
export interface LargeMeterTime {
  readonly kind: MeterKind;
  readonly label: string;
  readonly time: MeterTime;
}

/** Running times under each other with their ranges on stage, against the limit. */
export function LargeMeter({
  times,
  limit,
  ink,
}: {
  times: readonly LargeMeterTime[];
  limit: number | null;
  /** Whose plan it is. */
  ink: Ink;
}) {
  const [room, measured] = useWidth<HTMLDivElement>();
  const width = measured ?? 640;
  const layout = layOutLargeMeter(times, limit, width);
  const foot = top + times.length * rowHeight;
  const { limitX } = layout;
  return (
    <div ref={room} className={styles.meter}>
      <svg width={width} height={foot + 20} role="img" aria-label={sayLargeMeter(times, limit)}>
        {layout.ticks.map(({ x, seconds }) => (
          <g key={seconds} className={styles.tick}>
            <path d={`M${x} ${foot - 2}v5`} />
            <text x={x} y={foot + 15} textAnchor={x < 14 ? "start" : x > width - 18 ? "end" : "middle"}>
              {sayClock(seconds)}
            </text>
          </g>
        ))}
        {layout.rows.map((row, index) => (
          <Row
            key={row.kind}
            row={row}
            time={times[index] as LargeMeterTime}
            y={top + index * rowHeight}
            ink={ink}
            isBroken={layout.from > 0}
          />
        ))}
        {limitX !== null && limit !== null && (
          <g className={styles.limit}>
            <path className={styles.limitRoom} d={`M${limitX} ${top - 4}V${foot}`} />
            <path d={`M${limitX} ${top - 4}V${foot}`} />
            <text x={layout.limitWordsX} y={12} textAnchor="middle">
              limit {sayClock(limit)}
            </text>
          </g>
        )}
        {layout.rows.map((row, index) => (
          <RowWords
            key={row.kind}
            row={row}
            time={times[index] as LargeMeterTime}
            y={top + index * rowHeight}
            ink={ink}
          />
        ))}
      </svg>
    </div>
  );
}

/** The meter in words. */
export function sayLargeMeter(times: readonly LargeMeterTime[], limit: number | null): string {
  const said = times.map(
    ({ label, time }) =>
      `${label} ${sayClock(time.seconds)}, on stage ${sayClock(time.low)} to ${sayClock(time.high)}`,
  );
  return [...said, limit === null ? "no limit" : `limit ${sayClock(limit)}`].join("; ");
}

interface RowProps {
  row: LargeMeterRow;
  time: LargeMeterTime;
  y: number;
  ink: Ink;
}

function Row({ row, y, ink, isBroken }: RowProps & { isBroken: boolean }) {
  const bar = y + labelHeight;
  const middle = bar + barHeight / 2;
  return (
    <g>
      <path className={styles.reach} d={`M${row.end} ${middle}H${row.low}`} />
      <rect
        className={styles.range}
        x={row.low}
        y={bar + 4}
        width={Math.max(0, row.high - row.low)}
        height={barHeight - 8}
      />
      <rect
        className={styles[row.kind === "open" ? ink : row.kind]}
        x={1}
        y={bar}
        width={Math.max(2, row.end - 2)}
        height={barHeight}
      />
      {isBroken && <path className={styles.break} d={`M1 ${bar - 3}l4 9-6 8 4 11`} />}
    </g>
  );
}

function RowWords({ row, time, y, ink }: RowProps) {
  const base = y + labelHeight + barHeight / 2 + 5;
  const { low, high, seconds } = time.time;
  return (
    <g className={styles[row.kind === "open" ? `${ink}Words` : `${row.kind}Words`]}>
      <text className={styles.label} x={0} y={y + 12}>
        {time.label}
      </text>
      <text className={styles.time} x={row.timeX} y={base} textAnchor="end">
        {sayClock(seconds)}
      </text>
      {row.hasRangeWords && (
        <text className={styles.rangeWords} x={(row.low + row.high) / 2} y={base - 1} textAnchor="middle">
          {sayClock(low)}–{sayClock(high)}
        </text>
      )}
    </g>
  );
}
