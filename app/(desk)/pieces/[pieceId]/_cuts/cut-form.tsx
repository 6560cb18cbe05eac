"use client";

import { type FormEvent, useEffect, useId, useRef, useState } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { capital } from "@/app/_ui/capital";
import { TextArea } from "@/app/_ui/field";
import { Icon } from "@/app/_ui/icon";
import { nameSpan } from "@/app/_ui/name-span";
import { inkOf } from "@/app/_ui/party";
import { SayProblem } from "@/app/_ui/say";
import { Card } from "@/app/_ui/sheet";
import { ViDe } from "@/app/_ui/vi-de";
import type { CheckedNeed } from "@/lib/breath/check-rest-needs";
import { toPosition } from "@/lib/edition/position-terms";
import { comparePositions } from "@/lib/score/position";
import { sayClock } from "@/lib/score/say-clock";
import type { Shown } from "../_components/desk-state";
import { firstName, otherPlayer } from "../_components/person";
import { useRoomHere } from "../_components/room-provider";
import { useAction } from "../_components/use-action";
import { JoinListen } from "../_join/join-listen";
import { JoinPanel } from "../_join/join-panel";
import { useJudged } from "../_join/use-judged";
import { useWeighed, type Weighing } from "../_weigh/use-weighed";
import { counterProposeAction } from "../actions/counter-propose";
import { proposeCutAction } from "../actions/propose-cut";
import type { CutDraft } from "./cut-draft";
import { CutEffects } from "./cut-effects";
import styles from "./cut-form.module.css";
import { PlaceField } from "./place-field";

interface FormProps {
  desk: Desk;
  draft: CutDraft;
  /** What is marked on the score because the judgement speaks of it. */
  shown: Shown | null;
  onShow: (shown: Shown | null) => void;
  onChange: (draft: CutDraft) => void;
  /** With the id of the new proposal when there is one. */
  onClose: (proposalId: string | null) => void;
}

/** Choosing a cut: its two ends, why, and meanwhile what it would cost and give. It is put forward or pencilled in. */
export function CutForm(props: FormProps) {
  const { desk, draft, shown, onShow, onChange, onClose } = props;
  const [reason, setReason] = useState("");
  const weighing = useWeighed(desk.pieceId, draft.from, draft.to, draft.replaces?.number ?? null);
  const { propose, isBusy, problem, isNotSent } = usePropose(props, reason, weighing.last?.name ?? null);
  const pencil = usePencil(props, reason);
  const judging = useJudged(desk, draft, draft.replaces?.number ?? null);
  const heading = useRef<HTMLHeadingElement>(null);
  const titleId = useId();
  useEffect(() => heading.current?.focus(), []);
  const other = otherPlayer(desk);
  const ink = inkOf(desk.me.role);
  const isForward = comparePositions(toPosition(draft.from), toPosition(draft.to)) < 0;

  return (
    <Card edge={ink} aria-labelledby={titleId} className={styles.card}>
      <form className={styles.form} onSubmit={propose}>
        <div className={styles.head}>
          <h3 id={titleId} ref={heading} tabIndex={-1}>
            {sayTitle(draft)}
          </h3>
          {weighing.last && (
            <span>
              {weighing.last.weight.barCount} bars · {sayClock(weighing.last.weight.savedSeconds)}
            </span>
          )}
        </div>
        <p className={styles.hint}>
          {isForward && <b>{capital(weighing.last?.name ?? nameSpan(desk.bars, draft.from, draft.to))}. </b>}
          Choose here, or tap the first and the last bar in the score.
        </p>
        <Ends desk={desk} draft={draft} onChange={onChange} />
        <Weighed desk={desk} weighing={weighing} needs={judging.judged?.needs ?? []} />
        {isForward && weighing.status !== "impossible" && (
          <JoinPanel
            desk={desk}
            judging={judging}
            shown={shown}
            onShow={onShow}
            onTake={({ from, to }) => onChange({ ...draft, from, to })}
          >
            <JoinListen desk={desk} ends={draft} number={draft.replaces?.number ?? null} />
          </JoinPanel>
        )}
        <TextArea
          label="Why? (if you like)"
          value={reason}
          maxLength={2000}
          placeholder={other ? `${firstName(other)} reads it with the proposal` : "Read with the proposal"}
          onChange={(event) => setReason(event.target.value)}
        />
        <p className={styles.hint}>
          In pencil, {other ? firstName(other) : "the other player"} sees it and can move it; nothing is
          agreed by it.
        </p>
        <p className={styles.hint}>
          A competition or an examination may require the whole tutti: check its rules first.
        </p>
        <div className={styles.buttons}>
          <div className={styles.problems}>
            {isNotSent ? (
              <SayProblem>
                Not sent: there is no connection. Your bars and words stay here. Pencil it in, and it goes
                when you are back; or propose it again then.
              </SayProblem>
            ) : (
              problem && <SayProblem>{problem}</SayProblem>
            )}
            {pencil.problem && <SayProblem>{pencil.problem}</SayProblem>}
          </div>
          <Button
            type="submit"
            kind="propose"
            ink={ink}
            disabled={isBusy || !isForward || weighing.status === "impossible" || judging.isWorking}
          >
            {other ? `Propose to ${firstName(other)}` : "Propose"}
          </Button>
          <Button disabled={isBusy || !isForward} onClick={pencil.write}>
            <Icon name="pencil" small /> {draft.pencilId ? "Move it in pencil" : "Pencil it in"}
          </Button>
          <Button kind="bare" onClick={() => onClose(null)}>
            Leave it
          </Button>
        </div>
      </form>
    </Card>
  );
}

function sayTitle({ replaces, pencilId }: CutDraft): string {
  if (replaces) return `Other bars for cut ${replaces.number}`;
  return pencilId ? "Move the pencilled cut" : "Propose a cut";
}

/** Puts the draft forward. A pencilled cut that was put forward is rubbed out: the proposal stands in its place. */
function usePropose({ desk, draft, onClose }: FormProps, reason: string, name: string | null) {
  const { run, isBusy, problem, isNotSent } = useAction();
  const room = useRoomHere();
  const announce = useAnnounce();
  const propose = async (event: FormEvent) => {
    event.preventDefault();
    const { from, to, replaces, pencilId } = draft;
    const terms = { pieceId: desk.pieceId, sourceHash: desk.sourceHash, from, to, reason };
    const sent = await (replaces
      ? run(counterProposeAction, { ...terms, proposalId: replaces.id, seenState: replaces.state })
      : run(proposeCutAction, terms));
    if (!sent.ok) return;
    if (pencilId) room.rubOutPencilledCut(pencilId);
    announce(`Proposed: cut ${sent.value.number}${name ? `, ${name}` : ""}.`);
    onClose(sent.value.id);
  };
  return { propose, isBusy, problem, isNotSent };
}

/** Writes the draft in pencil; a reason goes along as a comment on its bars. */
function usePencil({ desk, draft, onClose }: FormProps, reason: string) {
  const room = useRoomHere();
  const announce = useAnnounce();
  const [problem, setProblem] = useState<string | null>(null);
  const write = () => {
    const [from, to] = [toPosition(draft.from), toPosition(draft.to)];
    const written = draft.pencilId
      ? room.movePencilledCut(draft.pencilId, from, to)
      : room.pencilCut(from, to);
    if (!written.ok) return setProblem(written.sentence);
    const said =
      reason.trim() === "" ? written : room.addComment({ text: reason, about: { kind: "span", from, to } });
    if (!said.ok) return setProblem(said.sentence);
    announce(`In pencil: ${nameSpan(desk.bars, draft.from, draft.to)}.`);
    onClose(null);
    const cutId = written.id;
    requestAnimationFrame(() => document.getElementById(`pencil-${cutId}`)?.focus());
  };
  return { write, problem };
}

function Ends({ desk, draft, onChange }: Pick<FormProps, "desk" | "draft" | "onChange">) {
  const ink = inkOf(desk.me.role);
  return (
    <div className={styles.ends}>
      <PlaceField
        label={
          <>
            <ViDe ink={ink} text="Vi–" /> stop before
          </>
        }
        bars={desk.bars}
        place={draft.from}
        onChange={(from) => onChange({ ...draft, from })}
      />
      <PlaceField
        label={
          <>
            <ViDe ink={ink} text="–de" /> go on at
          </>
        }
        bars={desk.bars}
        place={draft.to}
        hasEnd
        onChange={(to) => onChange({ ...draft, to })}
      />
    </div>
  );
}

function Weighed({
  desk,
  weighing,
  needs,
}: {
  desk: Desk;
  weighing: Weighing;
  needs: readonly CheckedNeed[];
}) {
  return (
    <div
      aria-live="polite"
      className={styles.weighed}
      data-waiting={weighing.status === "weighing" || undefined}
    >
      {weighing.status === "impossible" && <SayProblem>{weighing.sentence}</SayProblem>}
      {weighing.status === "unknown" && <p className={styles.hint}>{weighing.sentence}</p>}
      {weighing.last && <CutEffects desk={desk} weight={weighing.last.weight} needs={needs} />}
      {weighing.status === "weighing" && !weighing.last && <p className={styles.hint}>Reading the bars…</p>}
    </div>
  );
}
