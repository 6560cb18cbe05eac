import { verdictOf } from "@/lib/hands/at-tempo";
import type { Fidelity } from "@/lib/rewrites/fidelity";
import { difficultyScale } from "./difficulty-scale";
import { fidelityRows, type HeardChange } from "./fidelity-words";
import { HeardRow } from "./heard-row";
import styles from "./heard-rows.module.css";

/** For the pianist alone: how a version lies under their hands, before and after. */
export interface LiesRow {
  readonly before: number;
  readonly after: number;
  /** What still strains, in sentences. */
  readonly reasons: readonly string[];
}

/** What of the print is still heard, row by row; each opens to what it was counted from. */
export function HeardRows({
  fidelity,
  heard,
  listener,
  lies = null,
  losesGraceNotes,
}: {
  fidelity: Fidelity;
  heard: HeardChange;
  /** "Matthis", "you". */
  listener: string;
  lies?: LiesRow | null;
  losesGraceNotes: boolean;
}) {
  const rows = fidelityRows(fidelity);
  return (
    <div className={styles.rows}>
      {lies && (
        <HeardRow
          name="Under your hands"
          isKept={verdictOf(lies.after) === "easy"}
          words={`${verdictOf(lies.before)} ${lies.before} → ${verdictOf(lies.after)} ${lies.after}`}
        >
          <p>{difficultyScale}</p>
          {lies.reasons.map((reason) => (
            <p key={reason}>{reason}</p>
          ))}
        </HeardRow>
      )}
      {rows.map(({ name, isKept, words, figures }) => (
        <HeardRow key={name} {...{ name, isKept, words }}>
          <p>{figures}</p>
        </HeardRow>
      ))}
      <HeardRow
        name={listener === "you" ? "What you hear" : `What ${listener} hears`}
        isKept={!heard.isChanged}
        words={heard.words}
      >
        <p>{heard.figures}</p>
        {losesGraceNotes && <p>The grace notes of these bars are not kept.</p>}
      </HeardRow>
    </div>
  );
}
