"use client";

import { useAnswer } from "@/app/_study/use-answer";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { verdictOf } from "@/lib/hands/at-tempo";
import type { HandsProfile } from "@/lib/hands/hands-profile";
import type { AssessedRewrite } from "@/lib/study/assess-rewrite";
import { difficultyScale } from "../_components/difficulty-scale";
import { fidelityRows } from "../_components/fidelity-words";
import { HeardRow } from "../_components/heard-row";
import styles from "./editor-verdict.module.css";

/** How what is written lies under these hands and what of the print is still heard, while it is written. */
export function EditorVerdict({
  terms,
  hands,
  pace,
}: {
  terms: RewriteTerms;
  hands: HandsProfile;
  pace: number;
}) {
  const { value, isWorking, problem } = useAnswer<"assess-rewrite">({
    kind: "assess-rewrite",
    question: { terms, hands, pace },
  });
  if (problem) return <p className={styles.coming}>{problem}</p>;
  if (!value) return <p className={styles.coming}>It is being judged.</p>;
  return (
    <div className={styles.verdict} aria-busy={isWorking} aria-live="polite">
      <UnderHands assessed={value} />
      {value.reasons.length > 0 && (
        <ul className={styles.reasons} aria-label="What still strains">
          {value.reasons.slice(0, mostReasons).map((reason) => (
            <li key={reason}>{reason}</li>
          ))}
        </ul>
      )}
      {fidelityRows(value.fidelity).map(({ name, isKept, words, figures }) => (
        <HeardRow key={name} {...{ name, isKept, words }}>
          <p>{figures}</p>
        </HeardRow>
      ))}
      {value.losesGraceNotes && <p className={styles.note}>The grace notes of these bars are not kept.</p>}
    </div>
  );
}

/** The heaviest; more would only be read past. */
const mostReasons = 3;

function UnderHands({ assessed }: { assessed: AssessedRewrite }) {
  const { difficultyBefore: before, difficultyAfter: after, isWithinReach } = assessed;
  return (
    <HeardRow
      name="Under your hands"
      isKept={verdictOf(after) === "easy" && isWithinReach}
      words={`printed ${before}, ${verdictOf(before)} → ${after}, ${verdictOf(after)}${isWithinReach ? "" : "; beyond your reach"}`}
    >
      <p>{difficultyScale}</p>
    </HeardRow>
  );
}
