"use client";

import { type Dispatch, useState } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { Button } from "@/app/_ui/button";
import { capital } from "@/app/_ui/capital";
import { Evidence } from "@/app/_ui/evidence";
import { Icon } from "@/app/_ui/icon";
import { inkOf } from "@/app/_ui/party";
import { SayProblem } from "@/app/_ui/say";
import { Sheet } from "@/app/_ui/sheet";
import { WhoMark, WhoTag } from "@/app/_ui/who-mark";
import { isDisputed, type PencilledCut, type PencilledVersion } from "@/lib/room/pencilled-cut";
import { sayBarCount } from "@/lib/score/say-bar-count";
import { sayClock } from "@/lib/score/say-clock";
import type { DeskMove } from "../_components/desk-state";
import { Moment } from "../_components/moment";
import { firstName, personOf } from "../_components/person";
import { useRoomHere } from "../_components/room-provider";
import { useAction } from "../_components/use-action";
import { useWeighed } from "../_weigh/use-weighed";
import { proposeCutAction } from "../actions/propose-cut";
import { nameVersion, sayVersion, termsOfVersion } from "./desk-pencils";
import styles from "./pencil-list.module.css";
import { RecordPast } from "./record-past";

/** Cuts that are only pencilled in: both see them and can move them, nothing is agreed by them. */
export function PencilList({
  desk,
  hiddenId,
  move,
}: {
  desk: Desk;
  /** The one whose bars are being chosen in the form. */
  hiddenId: string | null;
  move: Dispatch<DeskMove>;
}) {
  const { pencilledCuts, rubbedOut } = useRoomHere();
  const shown = pencilledCuts.filter(({ cutId }) => cutId !== hiddenId);
  if (!desk.may.readDiscussion || (shown.length === 0 && rubbedOut.length === 0)) return null;
  return (
    <Sheet className={styles.pencils} aria-labelledby="pencil-heading">
      <h2 id="pencil-heading">
        In pencil <small>{shown.length === 0 ? "nothing now" : "nothing is agreed by it"}</small>
      </h2>
      {shown.map((cut) => (
        <PencilItem key={cut.cutId} desk={desk} cut={cut} move={move} />
      ))}
      {rubbedOut.length > 0 && <RubbedOut desk={desk} cuts={rubbedOut} />}
    </Sheet>
  );
}

function PencilItem({ desk, cut, move }: { desk: Desk; cut: PencilledCut; move: Dispatch<DeskMove> }) {
  const last = cut.versions.at(-1);
  const [problem, setProblem] = useState<string | null>(null);
  if (!last) return null;
  const go = () => {
    const bar = last.from.barIndex;
    const second = desk.strip.bars.find(({ barIndex }) => barIndex === bar)?.from ?? 0;
    move({ kind: "cursor", second, bar });
  };
  return (
    <article
      id={`pencil-${cut.cutId}`}
      // What is not settled is nobody's.
      className={styles[isDisputed(cut) ? "graphite" : inkOf(personOf(desk, last.authorId).role)]}
      tabIndex={-1}
      aria-label={`In pencil: ${nameVersion(desk.bars, last)}`}
    >
      {isDisputed(cut) ? (
        <Dispute desk={desk} cut={cut} onProblem={setProblem} />
      ) : (
        <Standing desk={desk} cut={cut} version={last} onGo={go} />
      )}
      {problem && <SayProblem>{problem}</SayProblem>}
      <div className={styles.buttons}>
        {desk.may.propose && (
          <PencilButtons desk={desk} cut={cut} last={last} move={move} onProblem={setProblem} />
        )}
        <RecordPast desk={desk} of={{ map: "pencilledCuts", key: cut.cutId }} />
      </div>
    </article>
  );
}

/** One version, and everybody sees the same. */
function Standing({
  desk,
  cut,
  version,
  onGo,
}: {
  desk: Desk;
  cut: PencilledCut;
  version: PencilledVersion;
  onGo: () => void;
}) {
  const { unsavedKeys } = useRoomHere();
  const { from, to } = termsOfVersion(version);
  const { last: weighed } = useWeighed(desk.pieceId, from, to, null);
  const writer = personOf(desk, version.authorId);
  const isUnsaved = unsavedKeys.has(`pencilledCuts ${version.id}`);
  return (
    <>
      <p className={styles.by}>
        <WhoTag
          ink={inkOf(writer.role)}
          initial={writer.initial}
          name={firstName(writer)}
          note={writer.userId === desk.me.userId ? "you" : undefined}
        />
        <Moment iso={version.createdAt} />
        {isUnsaved && <strong>not saved yet</strong>}
      </p>
      <div className={styles.title}>
        <h3>
          <button type="button" onClick={onGo} data-pencil={cut.cutId}>
            {capital(nameVersion(desk.bars, version))}
          </button>
        </h3>
        {weighed && (
          <span>
            {sayBarCount(weighed.weight.barCount)} · {sayClock(weighed.weight.savedSeconds)} shorter
          </span>
        )}
      </div>
    </>
  );
}

/** Two wrote at the same time: both versions stand until somebody chooses. */
function Dispute({
  desk,
  cut,
  onProblem,
}: {
  desk: Desk;
  cut: PencilledCut;
  onProblem: (sentence: string | null) => void;
}) {
  const room = useRoomHere();
  const keep = (versionId: string) => {
    const written = room.settlePencilledCut(cut.cutId, versionId);
    onProblem(written.ok ? null : written.sentence);
  };
  return (
    <>
      <p className={styles.by}>
        <strong>Written at the same time, and differently.</strong> Both stand until one of you chooses.
      </p>
      <ul className={styles.versions}>
        {cut.versions.map((version) => {
          const writer = personOf(desk, version.authorId);
          const ink = inkOf(writer.role);
          const words = sayVersion(desk, version);
          return (
            <li key={version.id}>
              <WhoMark ink={ink} initial={writer.initial} />
              <span className={styles[`${ink}Text`]}>{words}</span>
              {desk.may.propose && (
                <Button small aria-label={`Keep this one. ${words}`} onClick={() => keep(version.id)}>
                  Keep this one
                </Button>
              )}
            </li>
          );
        })}
      </ul>
    </>
  );
}

function PencilButtons({
  desk,
  cut,
  last,
  move,
  onProblem,
}: {
  desk: Desk;
  cut: PencilledCut;
  last: PencilledVersion;
  move: Dispatch<DeskMove>;
  onProblem: (sentence: string | null) => void;
}) {
  const room = useRoomHere();
  const { run, isBusy } = useAction();
  const { from, to } = termsOfVersion(last);
  const propose = async () => {
    const terms = { pieceId: desk.pieceId, sourceHash: desk.sourceHash, from, to, reason: "" };
    const sent = await run(proposeCutAction, terms);
    if (!sent.ok) {
      const stays = sent.kind === "not-sent" ? "Not sent: there is no connection." : sent.sentence;
      return onProblem(`${stays} It stays in pencil.`);
    }
    const rubbed = room.rubOutPencilledCut(cut.cutId);
    onProblem(rubbed.ok ? null : rubbed.sentence);
    move({ kind: "open-cut", cutId: sent.value.id, bar: null });
  };
  const rubOut = () => {
    const rubbed = room.rubOutPencilledCut(cut.cutId);
    onProblem(rubbed.ok ? null : rubbed.sentence);
  };
  return (
    <>
      <Button
        small
        disabled={isBusy}
        onClick={() => move({ kind: "draft", draft: { from, to, replaces: null, pencilId: cut.cutId } })}
      >
        <Icon name="pencil" small /> Move
      </Button>
      {!isDisputed(cut) && (
        <>
          <Button small disabled={isBusy} onClick={rubOut}>
            Rub out
          </Button>
          <Button small kind="propose" ink={inkOf(desk.me.role)} disabled={isBusy} onClick={propose}>
            Propose
          </Button>
        </>
      )}
    </>
  );
}

function RubbedOut({ desk, cuts }: { desk: Desk; cuts: readonly PencilledCut[] }) {
  const room = useRoomHere();
  const [problem, setProblem] = useState<string | null>(null);
  const bringBack = (cutId: string) => {
    const written = room.bringBackPencilledCut(cutId);
    setProblem(written.ok ? null : written.sentence);
  };
  return (
    <Evidence summary={`Rubbed out, ${cuts.length}`}>
      <ul className={styles.versions}>
        {cuts.map(({ cutId, versions }) => {
          const last = versions.at(-1);
          if (!last) return null;
          const writer = personOf(desk, last.authorId);
          return (
            <li key={cutId}>
              <WhoMark ink={inkOf(writer.role)} initial={writer.initial} />
              <span>
                {capital(nameVersion(desk.bars, last))}, <Moment iso={last.createdAt} />
              </span>
              {desk.may.propose && (
                <Button small onClick={() => bringBack(cutId)}>
                  Bring it back
                </Button>
              )}
            </li>
          );
        })}
      </ul>
      {problem && <SayProblem>{problem}</SayProblem>}
    </Evidence>
  );
}
