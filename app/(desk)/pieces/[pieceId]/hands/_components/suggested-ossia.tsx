"use client";

import type { Desk } from "@/app/_data/desk/desk";
import type { Answer } from "@/app/_study/use-answer";
import { useAnswer } from "@/app/_study/use-answer";
import { Button } from "@/app/_ui/button";
import { Icon } from "@/app/_ui/icon";
import { Progress } from "@/app/_ui/progress";
import { SayProblem } from "@/app/_ui/say";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import type { HandsProfile } from "@/lib/hands/hands-profile";
import type { PassageAtPace } from "@/lib/study/hands-at-tempo";
import type { SuggestedRewrites } from "@/lib/study/suggest-rewrites";
import { BesideKeys } from "./beside-keys";
import { findHeardChange } from "./fidelity-words";
import { HeardRows } from "./heard-rows";
import { OssiaFrame } from "./ossia-frame";
import styles from "./suggested-ossia.module.css";

/** What could be played instead: one suggestion at a time, what it does for the hands and what it costs the listener. */
export function SuggestedOssia({
  desk,
  hands,
  other,
  cues,
  pace,
  settledPace,
  passage,
  answer,
  isBusy,
  index,
  onIndex,
  onUse,
  onWrite,
  onPrint,
  onBack,
}: {
  desk: Desk;
  hands: HandsProfile;
  other: string;
  cues: readonly string[];
  pace: number;
  settledPace: number;
  passage: PassageAtPace | null;
  answer: Answer<SuggestedRewrites>;
  isBusy: boolean;
  /** Which of the suggestions is in front. */
  index: number;
  onIndex: (index: number) => void;
  onUse: (terms: RewriteTerms) => void;
  onWrite: (from: RewriteTerms) => void;
  onPrint: (printed: RewriteTerms) => void;
  /** Back to the rewrite that there is; null without one. */
  onBack: (() => void) | null;
}) {
  const { value, isWorking, done, problem } = answer;
  const offers = value?.offers ?? [];
  const offer = offers[index % Math.max(1, offers.length)] ?? null;
  const after = useAnswer(
    offer && { kind: "assess-rewrite", question: { terms: offer.terms, hands, pace: settledPace } },
  );
  const heard = offer && findHeardChange(offer.fidelity, cues);
  return (
    <>
      {problem && <SayProblem>{problem}</SayProblem>}
      {isWorking && (
        <div className={styles.looking}>
          <Progress words="Looking for what lies better" done={done} />
        </div>
      )}
      {value && !isWorking && offer === null && (
        <p className={styles.none}>
          {passage
            ? "Nothing was found that is easier and keeps bass and top line. Write your own, or keep the print."
            : "As printed these bars lie well. You can still write something else."}
        </p>
      )}
      {offer && heard && (
        <>
          <OssiaFrame
            desk={desk}
            title="Ossia for your hands"
            words={offer.terms.words}
            terms={offer.terms}
            pace={pace}
            isSettled={false}
          />
          <BesideKeys
            desk={desk}
            strain={passage?.strain ?? null}
            printed={value?.printed ?? null}
            written={offer.terms}
          >
            <HeardRows
              fidelity={offer.fidelity}
              heard={heard}
              listener={other}
              lies={{
                before: offer.difficultyBefore,
                after: offer.difficultyAfter,
                reasons: after.value?.reasons ?? [],
              }}
              losesGraceNotes={offer.losesGraceNotes}
            />
          </BesideKeys>
        </>
      )}
      <div className={styles.actions}>
        {offer && (
          <Button kind="settle" disabled={isBusy} onClick={() => onUse(offer.terms)}>
            <Icon name="check" /> Use this ossia
          </Button>
        )}
        {value && (
          <Button
            kind="propose"
            ink="pf"
            disabled={isBusy}
            onClick={() => onWrite(offer?.terms ?? value.printed)}
          >
            Write my own
          </Button>
        )}
        {offers.length > 1 && (
          <Button onClick={() => onIndex((index + 1) % offers.length)}>
            Another suggestion{" "}
            <span className={styles.dim}>
              {(index % offers.length) + 1} of {offers.length}
            </span>
          </Button>
        )}
        {value && passage && onBack === null && (
          <Button disabled={isBusy} onClick={() => onPrint(value.printed)}>
            Keep as printed
          </Button>
        )}
        {onBack && <Button onClick={onBack}>Back to my version</Button>}
      </div>
    </>
  );
}
