"use client";

import type { Desk } from "@/app/_data/desk/desk";
import type { DeskRewrite } from "@/app/_data/desk/hands-desk";
import { useAnswer } from "@/app/_study/use-answer";
import { inkOf } from "@/app/_ui/party";
import { RehearsalBox } from "@/app/_ui/rehearsal-box";
import { SayNote, SayProblem } from "@/app/_ui/say";
import { Sheet } from "@/app/_ui/sheet";
import { WaitTag } from "@/app/_ui/wait-tag";
import { WhoTag } from "@/app/_ui/who-mark";
import { usualHands } from "@/lib/hands/hands-profile";
import { firstName, nameSoloist, personOf } from "../../_components/person";
import { PassageDrawing } from "../_editor/passage-drawing";
import { findHeardChange } from "./fidelity-words";
import { HeardRows } from "./heard-rows";
import { lastLetter } from "./last-letter";
import { ListenHere } from "./listen-here";
import { OssiaFrame } from "./ossia-frame";
import styles from "./passage-panel.module.css";
import { RewriteAnswers } from "./rewrite-answers";
import { RewriteButtons } from "./rewrite-buttons";
import { sayForOthers } from "./say-for-others";
import { useCuesOver } from "./use-cues-over";

/** One rewrite for those who did not write it: the print, what is played instead, what is heard of it, and the answer. */
export function RewritePanel({ desk, rewrite }: { desk: Desk; rewrite: DeskRewrite }) {
  const { number, name, terms, fromBar, toBar, isStale, waitsForMe, stands, authorId } = rewrite;
  const author = personOf(desk, authorId);
  const bars = { fromBar, toBar };
  const cues = useCuesOver(bars);
  const letter = isStale ? null : lastLetter(desk, fromBar);
  // What is heard does not depend on anybody's hands: only that part of the answer is used.
  const { value, problem } = useAnswer(
    isStale ? null : { kind: "assess-rewrite", question: { terms, hands: usualHands, pace: 1 } },
  );
  return (
    <Sheet className={styles.panel} id="passage" tabIndex={-1} aria-label={`Rewrite ${number}: ${name}`}>
      <header className={styles.head}>
        {letter && <RehearsalBox text={letter} />}
        <h2>
          Rewrite {number}: {name}
        </h2>
        <WhoTag ink={inkOf(author.role)} initial={author.initial} name={firstName(author)} />
        {waitsForMe ? <WaitTag /> : <span className={styles.reason}>{sayForOthers(desk, rewrite)}</span>}
      </header>
      {isStale ? (
        <div className={styles.printed}>
          <SayNote>
            It was written for the bars of a file that was replaced, and cannot be drawn here.
          </SayNote>
        </div>
      ) : (
        <>
          <section className={styles.printed} aria-label="As the reduction prints it">
            <div className={styles.title}>
              <h3>As the reduction prints it</h3>
              <p className={styles.reason} />
              <ListenHere desk={desk} bars={bars} rewrite={null} pace={1} what={`${name} as printed`} />
            </div>
            <PassageDrawing
              pieceId={desk.pieceId}
              sourceHash={desk.sourceHash}
              {...bars}
              rewrite={null}
              as="printed"
              label={`${name} as printed`}
            />
          </section>
          <OssiaFrame
            desk={desk}
            title={author.userId === desk.me.userId ? "What you play" : `What ${firstName(author)} plays`}
            words={terms.words}
            terms={terms}
            pace={1}
            isSettled={stands}
          >
            <RewriteAnswers desk={desk} rewrite={rewrite} />
          </OssiaFrame>
          {problem && <SayProblem>{problem}</SayProblem>}
          {value && (
            <div className={styles.heard}>
              <HeardRows
                fidelity={value.fidelity}
                heard={findHeardChange(value.fidelity, cues)}
                listener={nameSoloist(desk)}
                losesGraceNotes={value.losesGraceNotes}
              />
            </div>
          )}
        </>
      )}
      <RewriteButtons desk={desk} rewrite={rewrite} />
    </Sheet>
  );
}
