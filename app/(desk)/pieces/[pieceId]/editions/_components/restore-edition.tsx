"use client";

import type { RestorationView } from "@/app/_data/editions/editions-view";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { Dialog } from "@/app/_ui/dialog";
import { Evidence } from "@/app/_ui/evidence";
import { SayNote, SayProblem } from "@/app/_ui/say";
import { sayClock } from "@/lib/score/say-clock";
import { useAction } from "../../_components/use-action";
import { restoreEditionAction } from "../../actions/restore-edition";
import styles from "./edition-dialog.module.css";
import { useAsked } from "./use-asked";

/** Shows what bringing an old edition back would do, and asks. */
export function RestoreEdition({
  pieceId,
  restoring,
  other,
}: {
  pieceId: string;
  /** Null while none is asked for. */
  restoring: RestorationView | null;
  /** First name of the other player. */
  other: string;
}) {
  const { ask } = useAsked();
  const close = () => ask({ restore: null });
  return (
    <Dialog
      title={restoring ? `Bring № ${restoring.number} back as a proposal` : ""}
      isOpen={restoring !== null}
      onClose={close}
    >
      {restoring && (
        <Restoring
          // What was asked about one state is no question about the next.
          key={restoring.workingHash}
          pieceId={pieceId}
          restoring={restoring}
          other={other}
          onDone={close}
        />
      )}
    </Dialog>
  );
}

function Restoring({
  pieceId,
  restoring,
  other,
  onDone,
}: {
  pieceId: string;
  restoring: RestorationView;
  other: string;
  onDone: () => void;
}) {
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  const { number, steps, left, workingHash, secondsNow, secondsThen } = restoring;
  const restore = async () => {
    const done = await run(restoreEditionAction, { pieceId, editionNumber: number, workingHash });
    if (!done.ok) return;
    onDone();
    announce(`№ ${number} is brought back as a proposal. ${other} is asked.`);
  };
  return (
    <div className={styles.body}>
      {restoring.problem ? (
        <SayNote>{restoring.problem}</SayNote>
      ) : (
        <>
          <p>
            № {number} itself stays as it is, and so does every edition since. This is what would be done now:
          </p>
          <ul className={styles.steps} aria-label="What would be done">
            {steps.map((step) => (
              <li key={step}>{step}</li>
            ))}
          </ul>
          <p className={styles.quiet}>
            Now it runs {sayClock(secondsNow)}; once all is agreed, {sayClock(secondsThen)}. You agree for
            nobody: {other} answers everything that takes two.
          </p>
        </>
      )}
      {left.length > 0 && (
        <>
          <h3>Not brought back here</h3>
          <Evidence
            summary={
              left.length === 1 ? "One mark differs" : `${left.length} marks differ: breaths, cues, comments`
            }
          >
            <ul className={styles.steps}>
              {left.map((one) => (
                <li key={one}>{one}</li>
              ))}
            </ul>
          </Evidence>
          <p className={styles.quiet}>
            Breaths, cues and comments are their authors’ own. They bring them back in the{" "}
            <a href={`/pieces/${pieceId}/history`}>history</a>. What is played instead of the print is the
            pianist’s to bring back.
          </p>
        </>
      )}
      {problem && <SayProblem>{problem}</SayProblem>}
      <div className={styles.buttons}>
        <Button onClick={onDone}>Leave it</Button>
        {restoring.problem === null && (
          <Button kind="settle" disabled={isBusy} onClick={restore}>
            Bring № {number} back
          </Button>
        )}
      </div>
    </div>
  );
}
