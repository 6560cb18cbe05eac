import { Evidence } from "@/app/_ui/evidence";
import { Icon } from "@/app/_ui/icon";
import type { Fidelity } from "@/lib/rewrites/fidelity";
import { fidelityRows, type HeardChange } from "./fidelity-words";
import styles from "./heard-rows.module.css";

/** For the pianist alone: how a version lies under their hands, before and after. */
export interface LiesRow {
  readonly before: number;
  readonly after: number;
  /** What still strains, in sentences. */
  readonly reasons: readonly string[];
}

const sayDifficulty = (difficulty: number) =>
  difficulty <= 50 ? "easy" : difficulty < 67 ? "awkward" : "not playable";

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
        <Row
          name="Under your hands"
          isKept={lies.after <= 50}
          words={`${sayDifficulty(lies.before)} ${lies.before} → ${sayDifficulty(lies.after)} ${lies.after}`}
        >
          <p>
            Difficulty of the hardest bar at this tempo, each hand on its own staff: 0 is a rest, up to 50 it
            is comfortable, from 67 on it cannot be done.
          </p>
          {lies.reasons.map((reason) => (
            <p key={reason}>{reason}</p>
          ))}
        </Row>
      )}
      {rows.map(({ name, isKept, words, figures }) => (
        <Row key={name} {...{ name, isKept, words }}>
          <p>{figures}</p>
        </Row>
      ))}
      <Row
        name={listener === "you" ? "What you hear" : `What ${listener} hears`}
        isKept={!heard.isChanged}
        words={heard.words}
      >
        <p>{heard.figures}</p>
        {losesGraceNotes && <p>The grace notes of these bars are not kept.</p>}
      </Row>
    </div>
  );
}

function Row({
  name,
  isKept,
  words,
  children,
}: {
  name: string;
  isKept: boolean;
  words: string;
  children: React.ReactNode;
}) {
  return (
    <div className={styles.row}>
      <Evidence
        summary={
          <span className={styles.summary}>
            <Icon name={isKept ? "check" : "warning"} small />
            <b>{name}</b>
            <span>{words}</span>
          </span>
        }
      >
        {children}
      </Evidence>
    </div>
  );
}
