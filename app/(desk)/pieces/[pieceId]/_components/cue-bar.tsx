"use client";

import { type Dispatch, type FormEvent, useState } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button, ButtonLink } from "@/app/_ui/button";
import { SelectField, TextField } from "@/app/_ui/field";
import { IconButton } from "@/app/_ui/icon-button";
import { namePlace } from "@/app/_ui/name-span";
import { inkOf } from "@/app/_ui/party";
import { WhoTag } from "@/app/_ui/who-mark";
import { longestCue } from "@/lib/edition/cue-terms";
import { type PositionTerms, toPosition, toPositionTerms } from "@/lib/edition/position-terms";
import { readCue } from "@/lib/practice/cue-instruments";
import type { Cue } from "@/lib/room/cue";
import { RecordPast } from "../_cuts/record-past";
import { hintAnchor } from "../hands/_practice/hint-anchor";
import styles from "./cue-bar.module.css";
import type { DeskMove, DeskState } from "./desk-state";
import { firstName, personOf } from "./person";
import { useRoomHere } from "./room-provider";

/** What is written most over reductions; anything else is written out. */
const usualCues = ["Fl.", "Ob. solo", "Cor.", "Vc."] as const;

/** At the foot of the score while a cue is in hand: to write one over the marked bar, or to change the one that was touched. */
export function CueBar({ desk, state, move }: { desk: Desk; state: DeskState; move: Dispatch<DeskMove> }) {
  const { cues } = useRoomHere();
  const [taken, setTaken] = useState<Cue | null>(null);
  const { cue: inHand } = state;
  if (inHand === null) return null;
  const close = () => move({ kind: "cue", cue: null });
  const standing = inHand.kind === "open" ? cues.find(({ id }) => id === inHand.id) : undefined;
  if (inHand.kind === "write")
    return <WriteCue key={inHand.bar} desk={desk} bar={inHand.bar} onClose={close} />;
  if (standing)
    return <OpenCue key={standing.id} desk={desk} cue={standing} onTaken={setTaken} onClose={close} />;
  return taken?.id === inHand.id ? <TakenOff desk={desk} cue={taken} onClose={close} /> : null;
}

function WriteCue({ desk, bar, onClose }: { desk: Desk; bar: number; onClose: () => void }) {
  const room = useRoomHere();
  const announce = useAnnounce();
  const [problem, setProblem] = useState<string | null>(null);
  const [offset, setOffset] = useState("0");
  const at: PositionTerms = { barIndex: bar, offset };
  const write = (text: string) => {
    const written = room.addCue(toPosition(at), text);
    if (!written.ok) return setProblem(written.sentence);
    announce(`${text.trim()} written over ${namePlace(desk.bars, at)}.`);
    onClose();
  };
  const beats = desk.bars[bar]?.beats ?? ["0"];
  return (
    <CueForm
      title={`Cue over ${namePlace(desk.bars, { barIndex: bar, offset: "0" })}`}
      button="Write"
      problem={problem}
      onText={write}
      onClose={onClose}
    >
      {beats.length > 1 && (
        <SelectField
          label="Beat"
          isLabelHidden
          value={offset}
          onChange={(event) => setOffset(event.target.value)}
        >
          {beats.map((beat, index) => (
            <option key={beat} value={beat}>
              beat {index + 1}
            </option>
          ))}
        </SelectField>
      )}
    </CueForm>
  );
}

/** A cue that stands: its writer changes it or takes it off. */
function OpenCue({
  desk,
  cue,
  onTaken,
  onClose,
}: {
  desk: Desk;
  cue: Cue;
  onTaken: (cue: Cue) => void;
  onClose: () => void;
}) {
  const room = useRoomHere();
  const announce = useAnnounce();
  const [isChanging, setIsChanging] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  const writer = personOf(desk, cue.authorId);
  const isMine = writer.userId === desk.me.userId;
  const place = namePlace(desk.bars, toPositionTerms(cue.at));
  const [instrument] = readCue(cue.text) ?? [];
  const reword = (text: string) => {
    const written = room.rewordCue(cue.id, text);
    setProblem(written.ok ? null : written.sentence);
    if (written.ok) setIsChanging(false);
  };
  const takeOff = () => {
    const written = room.removeCue(cue.id);
    if (!written.ok) return setProblem(written.sentence);
    onTaken(cue);
    announce(`${cue.text} taken off ${place}.`);
  };
  if (isChanging)
    return (
      <CueForm
        title={`Cue over ${place}`}
        button="Change"
        text={cue.text}
        problem={problem}
        onText={reword}
        onClose={() => setIsChanging(false)}
      />
    );
  return (
    <section className={styles.bar} aria-label={`Cue over ${place}`}>
      <p>
        <b className={styles.word}>{cue.text}</b>
        <span className={styles.quiet}>
          {" "}
          · {place}
          {room.unsavedKeys.has(`cues ${cue.id}`) && " · not saved yet"}
        </span>
      </p>
      <WhoTag
        ink={inkOf(writer.role)}
        initial={writer.initial}
        name={firstName(writer)}
        note={isMine ? "you" : undefined}
      />
      {problem && <p className={styles.problem}>{problem}</p>}
      {isMine ? (
        <>
          <Button small onClick={() => setIsChanging(true)}>
            Change
          </Button>
          <Button small onClick={takeOff}>
            Take off
          </Button>
        </>
      ) : (
        <span className={styles.quiet}>only {firstName(writer)} changes it</span>
      )}
      {desk.may.readDiscussion && instrument && (
        <ButtonLink kind="bare" small href={`/pieces/${desk.pieceId}/hands#${hintAnchor(instrument)}`}>
          How to sound like it
        </ButtonLink>
      )}
      {desk.may.readDiscussion && <RecordPast desk={desk} of={{ map: "cues", key: cue.id }} />}
      <IconButton icon="cross" label="Close" onClick={onClose} />
    </section>
  );
}

function TakenOff({ desk, cue, onClose }: { desk: Desk; cue: Cue; onClose: () => void }) {
  const room = useRoomHere();
  return (
    <section className={styles.bar} aria-label="Taken off">
      <p>
        <b className={styles.word}>{cue.text}</b>
        <span className={styles.quiet}> · taken off {namePlace(desk.bars, toPositionTerms(cue.at))}</span>
      </p>
      <Button small onClick={() => room.restoreCue(cue.id)}>
        Put it back
      </Button>
      <IconButton icon="cross" label="Close" onClick={onClose} />
    </section>
  );
}

/** Quick picks and words of one's own. */
function CueForm({
  title,
  button,
  text = "",
  problem,
  children,
  onText,
  onClose,
}: {
  title: string;
  button: string;
  text?: string;
  problem: string | null;
  children?: React.ReactNode;
  onText: (text: string) => void;
  onClose: () => void;
}) {
  const [own, setOwn] = useState(text);
  const send = (event: FormEvent) => {
    event.preventDefault();
    if (own.trim() !== "") onText(own);
  };
  return (
    <form className={styles.bar} aria-label={title} onSubmit={send}>
      <p>
        <b>{title}</b>
      </p>
      {children}
      <div className={styles.picks}>
        {usualCues.map((usual) => (
          <Button key={usual} small onClick={() => onText(usual)}>
            <span className={styles.word}>{usual}</span>
          </Button>
        ))}
      </div>
      <div className={styles.own}>
        <TextField
          label="Other words"
          isLabelHidden
          placeholder="Other words"
          value={own}
          maxLength={longestCue}
          problem={problem}
          autoFocus
          onChange={(event) => setOwn(event.target.value)}
          onKeyDown={(event) => {
            event.stopPropagation();
            if (event.key === "Escape") onClose();
          }}
        />
        <Button small type="submit" disabled={own.trim() === "" || own.trim() === text}>
          {button}
        </Button>
      </div>
      <IconButton icon="cross" label="Leave it" onClick={onClose} />
    </form>
  );
}
