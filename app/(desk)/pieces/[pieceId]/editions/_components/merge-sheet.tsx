"use client";

import type { MergeCandidate, MergeOfferView, MergeStep, MergeView } from "@/app/_data/editions/merge-view";
import { useAnswer } from "@/app/_study/use-answer";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { SelectField } from "@/app/_ui/field";
import { Icon } from "@/app/_ui/icon";
import { SayNote, SayProblem } from "@/app/_ui/say";
import { Sheet } from "@/app/_ui/sheet";
import { toCutSpan } from "@/lib/edition/cut-terms";
import { sayClock } from "@/lib/score/say-clock";
import { useAction } from "../../_components/use-action";
import { JoinSeam } from "../../_join/join-seam";
import { sayGrade } from "../../_join/join-words";
import { counterProposeAction } from "../../actions/counter-propose";
import { keepRewriteAction } from "../../actions/keep-rewrite";
import { proposeCutAction } from "../../actions/propose-cut";
import { reopenProposalAction } from "../../actions/reopen-proposal";
import { setPartRolesAction } from "../../actions/set-part-roles";
import { setTempoSettingsAction } from "../../actions/set-tempo-settings";
import { takeOffRewriteAction } from "../../actions/take-off-rewrite";
import styles from "./merge-sheet.module.css";
import { useAsked } from "./use-asked";

/** What another version of the same music has that this one lacks, each with the way to ask for it here. */
export function MergeSheet({
  pieceId,
  merge,
  mayPropose,
}: {
  pieceId: string;
  merge: MergeView;
  mayPropose: boolean;
}) {
  const { ask } = useAsked();
  const { others, otherId, otherName, otherEdition, offers, problem, start } = merge;
  return (
    <Sheet className={styles.sheet} aria-labelledby="merge-title">
      <header className={styles.head}>
        <h2 id="merge-title">What {otherName} has that this one lacks</h2>
        {others.length > 1 && (
          <SelectField
            label="The other"
            isLabelHidden
            className={styles.choice}
            value={otherId}
            onChange={(event) => ask({ other: event.target.value })}
          >
            {others.map(({ pieceId: id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </SelectField>
        )}
      </header>
      {problem ? (
        <p className={styles.none}>{problem}</p>
      ) : (
        <p className={styles.about}>
          № {otherEdition} of {otherName}, against {start}, which both began with.
          {offers.length === 0 && " It has nothing that this one lacks."}
        </p>
      )}
      {offers.length > 0 && (
        <ul className={styles.offers}>
          {offers.map((offer) => (
            <Offer
              key={offer.sentence}
              pieceId={pieceId}
              merge={merge}
              offer={offer}
              mayPropose={mayPropose}
            />
          ))}
        </ul>
      )}
    </Sheet>
  );
}

function Offer({
  pieceId,
  merge,
  offer,
  mayPropose,
}: {
  pieceId: string;
  merge: MergeView;
  offer: MergeOfferView;
  mayPropose: boolean;
}) {
  const { take, isBusy, problem } = useTake(pieceId, merge);
  const { step } = offer;
  return (
    <li>
      <div className={styles.line}>
        <p>{offer.sentence}</p>
        {step && mayPropose && (
          <Button small disabled={isBusy} onClick={() => take(step)}>
            {wordsOfStep[step.kind]}
          </Button>
        )}
      </div>
      {offer.note && <p className={styles.note}>{offer.note}</p>}
      {offer.conflict && (
        <SayNote>
          <Icon name="warning" small /> {offer.conflict}
        </SayNote>
      )}
      {offer.candidates.length > 0 && (
        <ul className={styles.candidates} aria-label="What could be">
          {offer.candidates.map((candidate) => (
            <Candidate
              key={candidate.name}
              candidate={candidate}
              take={mayPropose ? take : null}
              isBusy={isBusy}
            />
          ))}
        </ul>
      )}
      {problem && <SayProblem>{problem}</SayProblem>}
    </li>
  );
}

function Candidate({
  candidate,
  take,
  isBusy,
}: {
  candidate: MergeCandidate;
  take: ((step: MergeStep) => void) | null;
  isBusy: boolean;
}) {
  const { name, words, seconds, rests, step, note } = candidate;
  return (
    <li>
      <b>{name}</b>
      <span>
        {words}, {sayClock(seconds)}
        <Verdict judged={candidate.judged} />
        {rests.map((rest) => (
          <small key={rest}>{rest}</small>
        ))}
        {note && <small>{note}</small>}
      </span>
      {step && take && (
        <Button small disabled={isBusy} onClick={() => take(step)}>
          {wordsOfStep[step.kind]}
        </Button>
      )}
    </li>
  );
}

/** How the join sounds, as the desk judges it. */
function Verdict({ judged }: Pick<MergeCandidate, "judged">) {
  const question = judged && {
    cut: toCutSpan(judged.cut),
    agreed: judged.agreed.map(toCutSpan),
    needs: [],
  };
  const { value, isWorking } = useAnswer<"judge">(question && { kind: "judge", question });
  if (!judged) return null;
  if (!value) return isWorking ? <small>Reading the bars…</small> : null;
  if (!value.ok) return <small>{value.problem.sentence}</small>;
  const { grade } = value.value.join;
  return (
    <small className={styles.join}>
      <JoinSeam grade={grade} small /> Join {sayGrade(grade)}.
    </small>
  );
}

const wordsOfStep: Readonly<Record<MergeStep["kind"], string>> = {
  propose: "Propose here",
  "counter-propose": "Propose here",
  reopen: "Reopen here",
  "ask about rewrite": "Propose here",
  "take off rewrite": "Take off here",
  "set tempi": "Set here",
  "set parts": "Set here",
};

/** Sends a step through the action that does such a thing on every other screen. */
function useTake(pieceId: string, { sourceHash, otherName, otherEdition }: MergeView) {
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  const reason = `As № ${otherEdition} of ${otherName} has it.`;
  const send = (step: MergeStep) => {
    switch (step.kind) {
      case "propose":
        return run(proposeCutAction, { pieceId, sourceHash, from: step.from, to: step.to, reason });
      case "counter-propose": {
        const { from, to, proposalId } = step;
        const counter = { sourceHash, from, to, reason, proposalId, seenState: "agreed" };
        return run(counterProposeAction, { pieceId, ...counter });
      }
      case "reopen":
        return run(reopenProposalAction, { pieceId, proposalId: step.proposalId, reason });
      case "ask about rewrite": {
        const { terms, replaces } = step;
        return run(keepRewriteAction, { pieceId, terms, replaces, sharing: "asked", reason });
      }
      case "take off rewrite":
        return run(takeOffRewriteAction, { pieceId, rewriteId: step.rewriteId, reason });
      case "set tempi":
        return run(setTempoSettingsAction, { pieceId, settings: step.settings });
      case "set parts":
        return run(setPartRolesAction, { pieceId, partRoles: step.partRoles });
    }
  };
  const take = async (step: MergeStep) => {
    const done = await send(step);
    if (done.ok) announce("Done. The other player is asked where it takes two.");
  };
  return { take, isBusy, problem };
}
