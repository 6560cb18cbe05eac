import type { ReactNode } from "react";
import { classNames } from "./class-names";
import type { Ink } from "./party";
import styles from "./who-mark.module.css";

/** A player's mark: the pianist's is square like a key, the soloist's round like a bell. The name stands beside it. */
export function WhoMark({ ink, initial, big = false }: { ink: Ink; initial: string; big?: boolean }) {
  return (
    <span className={classNames(styles.mark, styles[ink], big && styles.big)} aria-hidden="true">
      {initial}
    </span>
  );
}

/** A mark with its name in the same ink, and perhaps a second word ("you", "trombone", "here now"). */
export function WhoTag({
  ink,
  initial,
  name,
  note,
  isHere,
}: {
  ink: Ink;
  initial: string;
  name: ReactNode;
  note?: ReactNode;
  /** Whether they have the piece open now; undefined where presence is not shown. */
  isHere?: boolean;
}) {
  return (
    <span className={classNames(styles.tag, styles[`${ink}Text`])}>
      <span className={styles.seat} data-here={isHere}>
        <WhoMark ink={ink} initial={initial} />
      </span>
      <span className={styles.name}>
        {name}
        {note && <em> {note}</em>}
      </span>
    </span>
  );
}
