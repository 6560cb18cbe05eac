import { classNames } from "@/app/_ui/class-names";
import type { TempoLadder } from "@/lib/practice/tempo-ladder";
import styles from "./ladder-figure.module.css";

/**
 * The rungs as steps up to tempo: those below the current one are black, the one that is tried is framed, the goal has a
 * line over it.
 *
 * @param tried index of the rung that is looked at.
 */
export function LadderFigure({
  ladder: { rungs, current, isClimbed },
  tried,
  isSmall = false,
}: {
  ladder: TempoLadder;
  tried: number;
  isSmall?: boolean;
}) {
  const first = rungs[0]?.perMinute ?? 0;
  const goal = rungs.at(-1)?.perMinute ?? 0;
  const lowest = 0.3;
  return (
    <span
      className={classNames(styles.ladder, isSmall && styles.small)}
      role="img"
      aria-label={`Ladder from ${first} to ${goal} in ${rungs.length} rungs; ${
        isClimbed ? "climbed" : `now at ${rungs[current]?.perMinute}`
      }`}
    >
      {rungs.map(({ perMinute }, index) => {
        const share = goal > first ? (perMinute - first) / (goal - first) : 1;
        return (
          <span
            key={perMinute}
            className={classNames(
              styles.rung,
              (index < current || isClimbed) && styles.held,
              index === tried && styles.tried,
            )}
            style={{ height: `${100 * (lowest + (1 - lowest) * share)}%` }}
          />
        );
      })}
    </span>
  );
}
