"use client";

import { useState } from "react";
import type { AgreeingView, SaidChange, SeenSince } from "@/app/_data/editions/agreeing-view";
import type { EditionsView } from "@/app/_data/editions/editions-view";
import { Evidence } from "@/app/_ui/evidence";
import { Moment } from "../../_components/moment";
import { firstName, personOf } from "../../_components/person";
import styles from "./agreeing.module.css";
import { Freeze } from "./freeze";
import { sayChanges } from "./say-edition";

/**
 * All that freezing would settle and this player has not agreed to yet, and the yes to exactly that: nobody agrees to what
 * they have not seen.
 */
export function Agreeing({ view, other }: { view: EditionsView; other: string | null }) {
  const { working, may } = view;
  const { agreeing } = working;
  /** The list as the player has had it before them; what was not in it is new. */
  const [looked, setLooked] = useState(agreeing);
  // Of the same content the list may begin elsewhere: after a yes it tells what changed since that.
  if (looked !== agreeing && looked.hash === agreeing.hash) setLooked(agreeing);
  const isRenewed = looked.hash !== agreeing.hash;
  const before = new Set(looked.unseen.map(({ sentence }) => sentence));
  const isNew = (sentence: string) => isRenewed && !before.has(sentence);
  return (
    <>
      <div className={styles.changes}>
        <h3 id="unseen">
          <Since {...agreeing} />
        </h3>
        <List changes={agreeing.unseen} isNew={isNew} />
        {isRenewed && isSameStart(looked.since, agreeing.since) && (
          <Gone before={looked.unseen} now={agreeing.unseen} />
        )}
        {agreeing.since.kind === "my yes" && <Whole view={view} />}
      </div>
      <Overtaken view={view} />
      {may.approve && (
        <Freeze
          pieceId={view.pieceId}
          working={working}
          myId={view.me.userId}
          other={other}
          isRenewed={isRenewed}
          onLooked={() => setLooked(agreeing)}
        />
      )}
    </>
  );
}

function isSameStart(a: SeenSince, b: SeenSince): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}

/** "Since your yes of 14:02: 2 changes, 0:08 shorter". */
function Since({ since, unseen, secondsLonger }: AgreeingView) {
  const count = sayChanges(unseen.length, secondsLonger);
  switch (since.kind) {
    case "my yes":
      return (
        <>
          Since your yes of <Moment iso={since.at} />
          {since.isTakenBack && ", taken back"}: {count}
        </>
      );
    case "edition":
      return unseen.length === 0
        ? `Nothing new is agreed since № ${since.number}.`
        : `Since № ${since.number}: ${count}`;
    case "print":
      return unseen.length === 0
        ? "As printed: no cuts, tempi or marks of your own."
        : `Against the print: ${count}`;
  }
}

function List({ changes, isNew }: { changes: readonly SaidChange[]; isNew: (sentence: string) => boolean }) {
  if (changes.length === 0) return null;
  return (
    <ul aria-labelledby="unseen">
      {changes.map(({ sentence }) => (
        <li key={sentence} data-new={isNew(sentence) || undefined}>
          {isNew(sentence) && <strong>New: </strong>}
          {sentence}
        </li>
      ))}
    </ul>
  );
}

/** What stood in the list a moment ago and no longer does. */
function Gone({ before, now }: { before: readonly SaidChange[]; now: readonly SaidChange[] }) {
  const standing = new Set(now.map(({ sentence }) => sentence));
  const gone = before.filter(({ sentence }) => !standing.has(sentence));
  if (gone.length === 0) return null;
  return (
    <ul aria-label="No longer so">
      {gone.map(({ sentence }) => (
        <li key={sentence} data-new>
          <strong>No longer: </strong>
          <s>{sentence}</s>
        </li>
      ))}
    </ul>
  );
}

/** Everything since the last edition, for whoever has agreed to a part of it before. */
function Whole({ view: { working, editions } }: { view: EditionsView }) {
  const since = editions[0] ? `since № ${editions[0].name}` : "against the print";
  return (
    <Evidence summary={`All of it ${since}, ${working.changes.length}`}>
      <ul>
        {working.changes.map(({ sentence }) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
    </Evidence>
  );
}

/** "Matthis agreed to an earlier state of it, at 14:02; since then: …" */
function Overtaken({ view }: { view: EditionsView }) {
  return view.working.agreeing.overtaken.map(({ userId, at, changes }) => (
    <div key={userId} className={styles.overtaken}>
      <p>
        {firstName(personOf(view, userId))} agreed to an earlier state of it, <Moment iso={at} />
        {changes === null ? ". It is asked again." : "; since then:"}
      </p>
      {changes !== null && (
        <ul>
          {changes.map(({ sentence }) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      )}
    </div>
  ));
}
