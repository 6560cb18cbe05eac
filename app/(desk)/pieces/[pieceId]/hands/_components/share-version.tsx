"use client";

import type { Desk } from "@/app/_data/desk/desk";
import { useAnswer } from "@/app/_study/use-answer";
import { SayProblem } from "@/app/_ui/say";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import type { HandsProfile } from "@/lib/hands/hands-profile";
import { findHeardChange, type HeardChange } from "./fidelity-words";
import { HeardRows } from "./heard-rows";
import { OssiaFrame } from "./ossia-frame";
import { type Shared, ShareForm } from "./share-form";
import styles from "./share-version.module.css";

/** What the pianist is about to play, what is heard of it, and who is to know. */
export function ShareVersion({
  desk,
  hands,
  terms,
  other,
  cues,
  pace,
  settledPace,
  isBusy,
  problem,
  onShare,
  onLeave,
}: {
  desk: Desk;
  hands: HandsProfile;
  terms: RewriteTerms;
  other: string;
  cues: readonly string[];
  pace: number;
  settledPace: number;
  isBusy: boolean;
  problem: string | null;
  onShare: (shared: Shared) => void;
  onLeave: () => void;
}) {
  const { value, problem: notJudged } = useAnswer({
    kind: "assess-rewrite",
    question: { terms, hands, pace: settledPace },
  });
  const heard = value && findHeardChange(value.fidelity, cues);
  return (
    <>
      <OssiaFrame
        desk={desk}
        title="What you will play"
        words={terms.words}
        terms={terms}
        pace={pace}
        isSettled={false}
      />
      {value && heard && (
        <div className={styles.rows}>
          <HeardRows
            fidelity={value.fidelity}
            heard={heard}
            listener={other}
            lies={{
              before: value.difficultyBefore,
              after: value.difficultyAfter,
              reasons: value.reasons,
            }}
            losesGraceNotes={value.losesGraceNotes}
          />
        </div>
      )}
      {notJudged && <SayProblem>{notJudged}</SayProblem>}
      <ShareForm
        // What is suggested follows from what is heard.
        key={heard === null ? "unknown" : "known"}
        other={other}
        suggested={heard && !heard.isChanged ? "told" : "asked"}
        why={heard ? sayWhy(heard, other) : ""}
        shown={terms.shown}
        isBusy={isBusy}
        problem={problem}
        onShare={onShare}
        onLeave={onLeave}
      />
    </>
  );
}

/** Why telling is enough, or asking better. */
function sayWhy({ isChanged, words }: HeardChange, other: string): string {
  return isChanged
    ? `${other} would hear it: ${words}.`
    : `${other} hears ${words.replace(/: no answer needed$/, "")}; telling is enough.`;
}
