"use client";

import type { EditionsView } from "@/app/_data/editions/editions-view";
import { sayShortDay } from "@/app/_ui/say-short-day";
import { useWidth } from "@/app/_ui/strip/use-width";
import { sayClock } from "@/lib/score/say-clock";
import { layOutTimeline, type PlacedItem, type TimelineItem } from "./lay-out-timeline";
import { saySideShort } from "./say-edition";
import styles from "./timeline.module.css";

const axis = 76;
const height = 146;

interface Stamp extends TimelineItem {
  readonly text: string;
  readonly first: string;
  readonly second: string;
  readonly look: "plain" | "compared" | "working";
}

interface Occasion extends TimelineItem {
  readonly first: string;
  readonly second: string;
  readonly isPlayed: boolean;
}

/** Editions above a line of ticks, performances below it; what is still to come is dashed. */
export function Timeline({ view, now }: { view: EditionsView; now: string }) {
  const [room, measured] = useWidth<HTMLDivElement>();
  const { width, nowX, ticks, above, below } = layOutTimeline(
    listStamps(view, now),
    view.performances.map((performance) => toOccasion(performance, now)),
    now,
    measured ?? 1100,
  );
  return (
    <section
      className={styles.timeline}
      aria-label="Editions and performances in time"
      // It scrolls where it has no room, also for those who have no mouse.
      tabIndex={measured !== null && width > measured ? 0 : undefined}
    >
      <div ref={room} />
      <svg width={width} height={height} role="img" aria-label={sayTimeline(view)}>
        <path className={styles.past} d={`M0 ${axis}H${nowX}`} />
        <path className={styles.future} d={`M${nowX} ${axis}H${width}`} />
        {ticks.map(({ x, text }) => (
          <g key={text}>
            <path className={styles.tick} d={`M${x} ${axis - 5}v10`} />
            <text className={styles.month} x={x + 4} y={axis + 16}>
              {text}
            </text>
          </g>
        ))}
        {above.map((placed) => (
          <StampMark key={placed.item.id} placed={placed} />
        ))}
        {below.map((placed) => (
          <OccasionMark key={placed.item.id} placed={placed} />
        ))}
      </svg>
    </section>
  );
}

function StampMark({ placed: { item, x, signX } }: { placed: PlacedItem<Stamp> }) {
  const half = item.sign / 2;
  return (
    <g className={styles[item.look]}>
      <path className={styles.stem} d={`M${signX} 46V54L${x} 66V${axis}`} />
      <rect className={styles.frame} x={signX - half} y={4} width={item.sign} height={42} />
      {item.look !== "working" && (
        <rect className={styles.inner} x={signX - half + 3} y={7} width={item.sign - 6} height={36} />
      )}
      <text className={styles.number} x={signX} y={33}>
        {item.text}
      </text>
      <text className={styles.first} x={signX + half + 8} y={22}>
        {item.first}
      </text>
      <text x={signX + half + 8} y={38}>
        {item.second}
      </text>
    </g>
  );
}

function OccasionMark({ placed: { item, x, signX } }: { placed: PlacedItem<Occasion> }) {
  return (
    <g>
      <path className={styles.stem} d={`M${x} ${axis}V${axis + 8}L${signX} ${axis + 22}v4`} />
      <path
        className={item.isPlayed ? styles.played : styles.planned}
        d={`M${signX} ${axis + 26}l8 9-8 9-8-9z`}
      />
      <text className={styles.first} x={signX + 15} y={axis + 38}>
        {item.first}
      </text>
      <text x={signX + 15} y={axis + 55}>
        {item.second}
      </text>
    </g>
  );
}

/** The first of two lines is set in the wider weight. */
function longest(first: string, second: string): string {
  return first.length * 1.05 >= second.length ? first : second;
}

function listStamps({ editions, working, chosen }: EditionsView, now: string): Stamp[] {
  const isCompared = (name: Stamp["text"] | number) => name === chosen.earlier || name === chosen.later;
  const frozen = editions.map((edition): Stamp => {
    const [first, second] = [saySideShort(edition), `frozen ${sayShortDay(edition.frozenAt)}`];
    return {
      ...{ id: `edition-${edition.name}`, at: edition.frozenAt, first, second },
      words: longest(first, second),
      sign: 42 + `${edition.name}`.length * 20,
      text: `№ ${edition.name}`,
      look: isCompared(edition.name) ? "compared" : "plain",
    };
  });
  if (editions.length > 0 && working.changes.length === 0 && working.openCount === 0) return frozen;
  const [first, second] = sayWorking(working);
  return [
    ...frozen,
    {
      ...{ id: "working", at: now, first, second, words: longest(first, second) },
      sign: 42 + `${working.number}`.length * 20,
      text: `№ ${working.number}`,
      look: "working",
    },
  ];
}

function sayWorking(working: EditionsView["working"]): [string, string] {
  const { open, openCount } = working;
  const [only] = open;
  const first =
    openCount === 0 ? "working" : `working, ${openCount} ${openCount === 1 ? "answer" : "answers"} open`;
  if (openCount === 1 && only?.weight)
    return [first, `${sayClock(only.weight.runningAfter)} if cut ${only.number} is agreed`];
  return [first, saySideShort(working)];
}

function toOccasion(performance: EditionsView["performances"][number], now: string): Occasion {
  const { id, on, name, editionNumber, realSeconds, plannedSeconds } = performance;
  const isPlayed = realSeconds !== null || on < now.slice(0, 10);
  const time =
    realSeconds === null ? `planned in ${sayClock(plannedSeconds)}` : `played in ${sayClock(realSeconds)}`;
  const second = `№ ${editionNumber}, ${time}`;
  const first = name.length > 40 ? `${name.slice(0, 39)}…` : name;
  return { ...{ id, at: on, first, second, isPlayed }, words: longest(first, second), sign: 14 };
}

function sayTimeline({ editions, performances }: EditionsView): string {
  const frozen = editions.map(({ name, frozenAt }) => `№ ${name} frozen ${sayShortDay(frozenAt)}`);
  const played = performances.map(({ name, on, editionNumber }) => {
    return `${name} on ${sayShortDay(on)} with № ${editionNumber}`;
  });
  return (
    [...frozen.reverse(), ...played.reverse()].join("; ") || "Nothing is frozen and nothing was played yet"
  );
}
