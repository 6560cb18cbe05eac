"use client";

import { useState } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import type { DeskRewrite } from "@/app/_data/desk/hands-desk";
import { useAnswer } from "@/app/_study/use-answer";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { SayProblem } from "@/app/_ui/say";
import { sayShortDay } from "@/app/_ui/say-short-day";
import type { HandsProfile } from "@/lib/hands/hands-profile";
import type { Strain } from "@/lib/hands/strain";
import { useAction } from "../../_components/use-action";
import { shareRewriteAction } from "../../actions/share-rewrite";
import { takeOffRewriteAction } from "../../actions/take-off-rewrite";
import { BesideKeys } from "./beside-keys";
import { findHeardChange } from "./fidelity-words";
import { HeardRows } from "./heard-rows";
import { OssiaFrame } from "./ossia-frame";
import { sayStanding } from "./passage-state";
import { RewriteAnswers } from "./rewrite-answers";
import { ShareForm } from "./share-form";
import styles from "./suggested-ossia.module.css";

/** What the pianist plays here, how it stands with it, and what can be done about it. */
export function StandingRewrite({
  desk,
  hands,
  rewrite,
  others,
  other,
  cues,
  pace,
  settledPace,
  strain,
  onChange,
  onOthers,
  onRewrite,
}: {
  desk: Desk;
  hands: HandsProfile;
  rewrite: DeskRewrite;
  /** What else is written for these bars. */
  others: readonly DeskRewrite[];
  other: string;
  cues: readonly string[];
  pace: number;
  settledPace: number;
  strain: Strain | null;
  onChange: () => void;
  /** To the suggestions. */
  onOthers: () => void;
  onRewrite: (rewriteId: string) => void;
}) {
  const [isSharing, setIsSharing] = useState(false);
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  const assessed = useAnswer({
    kind: "assess-rewrite",
    question: { terms: rewrite.terms, hands, pace: settledPace },
  });
  const { fromBar, toBar } = rewrite;
  const print = useAnswer({
    kind: "rewrite",
    question: { sourceHash: desk.sourceHash, fromBar, toBar, hands, pace: settledPace },
  });
  const about = { pieceId: desk.pieceId, rewriteId: rewrite.id };
  const takeOff = async () => {
    if (!(await run(takeOffRewriteAction, { ...about, reason: "" })).ok) return;
    announce("Taken off. The print is played; it can be brought back.");
  };
  const heard = assessed.value && findHeardChange(assessed.value.fidelity, cues);
  const says = `${sayStanding(rewrite, other)}, ${sayShortDay(rewrite.createdAt)}`;
  return (
    <>
      {rewrite.isAsPrinted ? (
        <p className={styles.none}>You play these bars as printed ({sayShortDay(rewrite.createdAt)}).</p>
      ) : (
        <OssiaFrame
          desk={desk}
          title={`Rewrite ${rewrite.number}`}
          words={[rewrite.terms.words, says].filter(Boolean).join(": ")}
          terms={rewrite.terms}
          pace={pace}
          isSettled={rewrite.stands}
        >
          <RewriteAnswers desk={desk} rewrite={rewrite} />
        </OssiaFrame>
      )}
      {others.length > 0 && (
        <div className={styles.others}>
          <span>Also written for these bars:</span>
          {others.map((one) => (
            <Button key={one.id} small kind="bare" onClick={() => onRewrite(one.id)}>
              Rewrite {one.number}, {sayStanding(one, other)}
            </Button>
          ))}
        </div>
      )}
      {assessed.problem && <SayProblem>{assessed.problem}</SayProblem>}
      {!rewrite.isAsPrinted && assessed.value && heard && (
        <BesideKeys
          desk={desk}
          strain={strain}
          printed={print.value?.printed ?? null}
          written={rewrite.terms}
        >
          <HeardRows
            fidelity={assessed.value.fidelity}
            heard={heard}
            listener={other}
            lies={{
              before: assessed.value.difficultyBefore,
              after: assessed.value.difficultyAfter,
              reasons: assessed.value.reasons,
            }}
            losesGraceNotes={assessed.value.losesGraceNotes}
          />
        </BesideKeys>
      )}
      {isSharing ? (
        <ShareForm
          other={other}
          suggested={heard?.isChanged ? "asked" : "told"}
          why={heard ? `${other} hears: ${heard.words}.` : ""}
          shown={null}
          isBusy={isBusy}
          problem={problem}
          onShare={async ({ sharing, reason }) => {
            if (!(await run(shareRewriteAction, { ...about, sharing, reason })).ok) return;
            setIsSharing(false);
            announce(sharing === "only_me" ? "For you alone again." : `${other} sees it.`);
          }}
          onLeave={() => setIsSharing(false)}
        />
      ) : (
        <>
          {problem && <SayProblem>{problem}</SayProblem>}
          <div className={styles.actions}>
            {!rewrite.isAsPrinted && (
              <>
                <Button kind="propose" ink="pf" disabled={isBusy} onClick={onChange}>
                  Change the notes
                </Button>
                <Button disabled={isBusy} onClick={() => setIsSharing(true)}>
                  {rewrite.sharing === "only_me" ? `Tell or ask ${other}` : "Who is to know"}
                </Button>
              </>
            )}
            <Button onClick={onOthers}>See suggestions</Button>
            <Button disabled={isBusy} onClick={takeOff}>
              {rewrite.isAsPrinted ? "Not as printed after all" : "Take it off"}
            </Button>
          </div>
        </>
      )}
    </>
  );
}
