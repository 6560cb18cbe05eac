"use client";

import { type Dispatch, type ReactNode, useEffect, useRef } from "react";
import type { Desk, DeskCut } from "@/app/_data/desk/desk";
import { Button } from "@/app/_ui/button";
import { IconButton } from "@/app/_ui/icon-button";
import { WithFlats } from "@/app/_ui/music-sign";
import { inkOf } from "@/app/_ui/party";
import { SayNote } from "@/app/_ui/say";
import { Sheet } from "@/app/_ui/sheet";
import { Spoken } from "@/app/_ui/spoken";
import { WhoTag } from "@/app/_ui/who-mark";
import { findOverlap } from "@/lib/cuts/overlapping-cuts";
import type { JudgedCut } from "@/lib/study/judge-cut";
import type { DeskMove } from "../_components/desk-state";
import { firstName, personOf } from "../_components/person";
import { agreedCuts } from "../_cuts/cut-questions";
import { CutThread } from "../_cuts/cut-thread";
import { CutWhy } from "../_cuts/cut-why";
import { sayNeedUnder, tellingNeed } from "../_cuts/say-need";
import { JoinFigure } from "../_join/join-figure";
import { JoinListen } from "../_join/join-listen";
import { JoinSeam } from "../_join/join-seam";
import { nameRow, sayGrade } from "../_join/join-words";
import { useJudged } from "../_join/use-judged";
import { WeighListen } from "./weigh-listen";
import styles from "./weigh-panel.module.css";
import { findPicked, type PickedCut, type WeighPick } from "./weigh-picks";
import { sayBetterJoin, type WeighedJoinRow, type WeighedRow, weighJoins, weighTimes } from "./weigh-rows";

interface Side {
  readonly pick: WeighPick;
  readonly picked: PickedCut | null;
  /** The proposal, when it is one. */
  readonly cut: DeskCut | null;
  readonly judged: JudgedCut | null;
  readonly problem: string | null;
}

function useSide(desk: Desk, pick: WeighPick): Side {
  const picked = findPicked(desk, pick);
  const { judged, problem } = useJudged(desk, picked, picked?.number ?? null, "gives way");
  const cut = pick.kind === "proposal" ? (desk.cuts.find(({ id }) => id === pick.id) ?? null) : null;
  return { pick, picked, cut, judged, problem };
}

/** Two cuts side by side, line by line; on a phone one over the other in each line. */
export function WeighPanel({
  desk,
  picks: [first, second],
  move,
}: {
  desk: Desk;
  picks: readonly [WeighPick, WeighPick];
  move: Dispatch<DeskMove>;
}) {
  const sides = [useSide(desk, first), useSide(desk, second)] as const;
  const [a, b] = sides;
  const both = a.judged && b.judged ? ([a.judged, b.judged] as const) : null;
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
  const close = () => move({ kind: "weigh", picks: [] });
  return (
    <Sheet className={styles.panel} aria-labelledby="weigh-heading">
      <header>
        <h2 id="weigh-heading" ref={heading} tabIndex={-1}>
          Weigh together
        </h2>
        {both && <p>{sayBetterJoin(both)}</p>}
        {both && <WeighListen joins={[hearable(desk, both[0]), hearable(desk, both[1])]} />}
        <IconButton icon="cross" label="Close Weigh together" onClick={close} />
      </header>
      <table className={styles.table}>
        <thead>
          <tr>
            <td />
            {sides.map((side, index) => (
              <th key={index === 0 ? "first" : "second"} scope="col">
                <SideHead desk={desk} side={side} />
              </th>
            ))}
          </tr>
        </thead>
        {both ? <Lines desk={desk} both={both} /> : <Unjudged sides={sides} />}
        <tbody>
          <Line what="You can">
            {sides.map((side, index) => (
              <SideButtons key={index === 0 ? "first" : "second"} desk={desk} side={side} move={move} />
            ))}
          </Line>
          {desk.may.readDiscussion && (
            <Line what="What was said">
              {sides.map((side, index) => (
                <Said key={index === 0 ? "first" : "second"} desk={desk} side={side} />
              ))}
            </Line>
          )}
        </tbody>
      </table>
    </Sheet>
  );
}

/** A join among the agreed cuts that lie apart from it. */
function hearable(desk: Desk, { cut }: JudgedCut) {
  return { cut, cuts: agreedCuts(desk, null).filter((other) => findOverlap([other], cut) === null) };
}

/** One line of the comparison. */
function Line({ what, children }: { what: string; children: readonly ReactNode[] }) {
  return (
    <tr>
      <th scope="row">{what}</th>
      {children.map((cell, index) => (
        <td key={index === 0 ? "first" : "second"}>
          <span className={styles.side} aria-hidden="true">
            {index + 1}
          </span>
          <div>{cell}</div>
        </td>
      ))}
    </tr>
  );
}

function SideHead({ desk, side: { picked, cut } }: { desk: Desk; side: Side }) {
  const proposer = cut && personOf(desk, cut.proposedBy);
  return (
    <>
      <span className={styles.name}>{picked?.name ?? "A cut that is not there"}</span>
      {proposer ? (
        <WhoTag
          ink={inkOf(proposer.role)}
          initial={proposer.initial}
          name={`${firstName(proposer)} ${cut.state === "open" ? "proposes" : "proposed"}`}
          note={cut.state === "open" ? undefined : cut.state === "superseded" ? "replaced" : cut.state}
        />
      ) : (
        <small>not proposed yet</small>
      )}
    </>
  );
}

function Unjudged({ sides }: { sides: readonly Side[] }) {
  return (
    <tbody>
      <Line what="Join">
        {sides.map(({ judged, problem, picked }, index) => {
          const key = index === 0 ? "first" : "second";
          if (judged) return <p key={key}>Judged.</p>;
          if (!picked) return <SayNote key={key}>It was for another file of this piece.</SayNote>;
          return problem ? <SayNote key={key}>{problem}</SayNote> : <p key={key}>Reading the bars…</p>;
        })}
      </Line>
    </tbody>
  );
}

function Lines({ desk, both }: { desk: Desk; both: readonly [JudgedCut, JudgedCut] }) {
  return (
    <>
      <tbody>
        {weighTimes(both, desk.limitSeconds).map((row) => (
          <TimeLine key={row.what} row={row} />
        ))}
        {both.some(({ needs }) => needs.length > 0) && (
          <Line what="Needed rest">
            {both.map(({ needs }, index) => {
              const need = tellingNeed(needs);
              const said = need && sayNeedUnder(desk, need);
              return (
                <p key={index === 0 ? "first" : "second"}>
                  {said ? (
                    <>
                      <b>{said.point}</b> {said.rest}
                    </>
                  ) : (
                    "no needed rest changes"
                  )}
                </p>
              );
            })}
          </Line>
        )}
      </tbody>
      <tbody>
        <Line what="Join">
          {both.map(({ join }, index) => (
            <p key={index === 0 ? "first" : "second"} className={styles.verdict}>
              <JoinSeam grade={join.grade} /> {sayGrade(join.grade)}
            </p>
          ))}
        </Line>
        {weighJoins(both).map((row) => (
          <JoinLine key={row.kind} row={row} both={both} />
        ))}
      </tbody>
    </>
  );
}

function TimeLine({ row: { what, cells } }: { row: WeighedRow }) {
  return (
    <Line what={what}>
      {cells.map(({ figure, over, small }, index) => (
        <p key={index === 0 ? "first" : "second"}>
          <span className={styles.figure}>{figure}</span>
          {small && <span className={styles.small}> {small}</span>}
          {over && <b className={styles.over}> {over}</b>}
        </p>
      ))}
    </Line>
  );
}

function JoinLine({
  row: { kind, rows, better },
  both,
}: {
  row: WeighedJoinRow;
  both: readonly JudgedCut[];
}) {
  return (
    <Line what={nameRow(kind)}>
      {rows.map((row, index) => {
        const key = index === 0 ? "first" : "second";
        if (!row) return <p key={key}>nothing to compare</p>;
        const keyRow = both[index]?.join.rows.find((other) => other.kind === "key");
        return (
          <div key={key} className={styles.judged}>
            <JoinSeam grade={row.grade} small />
            <Spoken>{`${sayGrade(row.grade)}. `}</Spoken>
            <JoinFigure row={row} keyRow={keyRow} />
            <p>
              {better === index && <b className={styles.over}>Better. </b>}
              <WithFlats text={row.sentence} />
            </p>
          </div>
        );
      })}
    </Line>
  );
}

function SideButtons({
  desk,
  side: { pick, picked, cut },
  move,
}: {
  desk: Desk;
  side: Side;
  move: Dispatch<DeskMove>;
}) {
  if (!picked) return null;
  const { from, to, name, number } = picked;
  return (
    <div className={styles.buttons}>
      <JoinListen desk={desk} ends={picked} number={number} />
      <Button
        small
        aria-label={`Look at ${name}`}
        onClick={() =>
          cut
            ? move({ kind: "open-cut", cutId: cut.id, bar: cut.firstBar })
            : move({ kind: "look", looked: { from, to, name: name.replace(/^B/, "b") } })
        }
      >
        {cut ? "Open its card" : "Look"}
      </Button>
      {!cut && desk.may.propose && (
        <Button
          small
          kind="propose"
          ink={inkOf(desk.me.role)}
          aria-label={`Propose ${name}`}
          onClick={() => move({ kind: "draft", draft: { from, to, replaces: null } })}
        >
          Propose…
        </Button>
      )}
      <Button
        small
        kind="bare"
        aria-label={`Choose another instead of ${name}`}
        onClick={() => move({ kind: "drop-pick", pick })}
      >
        Another instead
      </Button>
    </div>
  );
}

function Said({ desk, side: { cut, judged } }: { desk: Desk; side: Side }) {
  if (!cut) return <p className={styles.small}>Comments belong to cuts that are proposed.</p>;
  return (
    <div className={styles.said}>
      {cut.reason !== "" && <p className={styles.reason}>“{cut.reason}”</p>}
      <CutWhy why={cut.why} judged={judged} />
      <CutThread desk={desk} cut={cut} />
    </div>
  );
}
