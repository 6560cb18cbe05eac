"use client";

import { useClick } from "@/app/_sound/metronome-context";
import { classNames } from "@/app/_ui/class-names";
import type { ClickPattern } from "@/lib/practice/metronome";
import { writeQuarters } from "@/lib/score/quarters";
import styles from "./beat-row.module.css";

/** The clicks of a bar as marks on a line; the one that is heard is filled. */
export function BeatRow({ pattern: { clicks }, isOn }: { pattern: ClickPattern; isOn: boolean }) {
  return (
    <span className={styles.row} aria-hidden="true">
      {isOn ? <Running clicks={clicks} /> : <Marks clicks={clicks} now={null} />}
    </span>
  );
}

function Running({ clicks }: Pick<ClickPattern, "clicks">) {
  const click = useClick();
  return <Marks clicks={clicks} now={click?.inBar ?? null} />;
}

function Marks({ clicks, now }: Pick<ClickPattern, "clicks"> & { now: number | null }) {
  return clicks.map(({ offset, stress }, index) => (
    <span
      key={writeQuarters(offset)}
      className={classNames(styles.mark, stress !== "beat" && styles.strong, index === now && styles.now)}
      data-beat={index === now ? index + 1 : undefined}
    />
  ));
}
