"use client";

import { sayClock } from "@/lib/score/say-clock";
import type { Ink } from "../party";
import { useWidth } from "../strip/use-width";
import { layOutMeter, type MeterBar, type MeterInput } from "./meter-bars";
import styles from "./running-time-meter.module.css";

const barHeight = 18;
const stepHeight = 24;
const top = 18;

/** As written, agreed, and with the open cut, against the limit. */
export function RunningTimeMeter({ openInk = "graphite", ...times }: MeterInput & { openInk?: Ink }) {
  const [room, measured] = useWidth<HTMLDivElement>();
  const width = measured ?? 220;
  const { bars, limitX, from } = layOutMeter(times, width);
  const height = top + bars.length * stepHeight;
  return (
    <div ref={room} className={styles.meter}>
      <svg width={width} height={height} role="img" aria-label={sayMeter(times)}>
        {bars.map((bar, index) => (
          <Bar key={bar.kind} bar={bar} y={top + index * stepHeight} ink={openInk} isBroken={from > 0} />
        ))}
        {limitX !== null && times.limit !== null && (
          <>
            <path className={styles.limitRoom} d={`M${limitX} ${top - 4}V${height - 2}`} />
            <path className={styles.limit} d={`M${limitX} ${top - 4}V${height - 2}`} />
            <text className={styles.limitText} x={Math.min(limitX, width - 36)} y={11}>
              limit {sayClock(times.limit)}
            </text>
          </>
        )}
        {bars.map((bar, index) => (
          <BarWords key={bar.kind} bar={bar} y={top + index * stepHeight} ink={openInk} />
        ))}
      </svg>
    </div>
  );
}

function sayMeter({ asWritten, agreed, withOpen, limit }: MeterInput): string {
  const open = withOpen ? `, ${withOpen.label} ${sayClock(withOpen.seconds)}` : "";
  const against = limit === null ? "no limit" : `limit ${sayClock(limit)}`;
  return `As written ${sayClock(asWritten)}, agreed ${sayClock(agreed)}${open}, ${against}`;
}

function Bar({ bar, y, ink, isBroken }: { bar: MeterBar; y: number; ink: Ink; isBroken: boolean }) {
  const name = bar.kind === "open" ? styles[ink] : styles[bar.kind];
  return (
    <>
      <rect className={name} x={0.7} y={y} width={Math.max(2, bar.width - 1.4)} height={barHeight} />
      {isBroken && (
        <path
          className={styles.break}
          d={`M0 ${y - 2}l3 ${barHeight / 3}l-5 ${barHeight / 3}l3 ${barHeight / 2}`}
        />
      )}
    </>
  );
}

function BarWords({ bar, y, ink }: { bar: MeterBar; y: number; ink: Ink }) {
  const baseline = y + barHeight / 2 + 4;
  const name = bar.kind === "open" ? styles[`${ink}Words`] : styles[`${bar.kind}Words`];
  if (!bar.isInside) {
    return (
      <text className={bar.kind === "agreed" ? styles.writtenWords : name} x={bar.besideX} y={baseline}>
        {bar.label} <tspan className={styles.time}>{bar.time}</tspan>
      </text>
    );
  }
  return (
    <>
      <text className={name} x={8} y={baseline}>
        {bar.label}
      </text>
      <text className={`${name} ${styles.time}`} x={bar.timeX} y={baseline} textAnchor="end">
        {bar.time}
      </text>
    </>
  );
}
