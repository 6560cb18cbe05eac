"use client";

import { type ReactNode, useId } from "react";
import type { Desk, DeskCut } from "@/app/_data/desk/desk";
import { EditionStamp } from "@/app/_ui/edition-stamp";
import { Icon } from "@/app/_ui/icon";
import { inkOf } from "@/app/_ui/party";
import { sayDay } from "@/app/_ui/say-date";
import { Card } from "@/app/_ui/sheet";
import { WaitTag } from "@/app/_ui/wait-tag";
import { WhoMark, WhoTag } from "@/app/_ui/who-mark";
import { sayBarCount } from "@/lib/score/say-bar-count";
import { sayClock } from "@/lib/score/say-clock";
import { firstName, personOf } from "../_components/person";
import styles from "./cut-card.module.css";
import { type CutWords, sayAside, sayCut } from "./say-cut";

/** One cut, as its state has it: whose it is, since when, which bars, what it costs. What can be done stands below. */
export function CutCard({
  desk,
  cut,
  isOpen,
  isReading = false,
  onOpen,
  children,
}: {
  desk: Desk;
  cut: DeskCut;
  isOpen: boolean;
  /** Its join is being judged. */
  isReading?: boolean;
  onOpen: () => void;
  /** Effects, buttons and thread of an open card; buttons of a closed one. */
  children: ReactNode;
}) {
  const now = new Date();
  const words = sayCut(desk, cut, now);
  const titleId = useId();
  return (
    <Card
      edge={words.edge}
      id={`cut-${cut.id}`}
      className={styles.card}
      data-open={isOpen || undefined}
      tabIndex={-1}
      aria-labelledby={titleId}
    >
      <div className={styles.inside}>
        <CardHead desk={desk} cut={cut} words={words} isReading={isReading} now={now} />
        <div className={styles.title}>
          <h3 id={titleId} className={words.isAside ? styles.aside : undefined}>
            {isOpen ? (
              `Cut ${cut.number}: ${cut.name}`
            ) : (
              <button type="button" onClick={onOpen} aria-expanded="false">
                Cut {cut.number}: {cut.name}
              </button>
            )}
          </h3>
          {cut.weight && (
            <span>
              {sayBarCount(cut.weight.barCount)} · {sayClock(cut.weight.savedSeconds)}
            </span>
          )}
        </div>
        <CardWords desk={desk} cut={cut} words={words} now={now} />
        {cut.isStale && !words.isAside && (
          <p className={styles.stale}>
            <Icon name="warning" small /> Proposed for another file of this piece. It cannot be agreed to as
            it stands.
          </p>
        )}
      </div>
      {children}
    </Card>
  );
}

function CardHead({
  desk,
  cut,
  words,
  isReading,
  now,
}: {
  desk: Desk;
  cut: DeskCut;
  words: CutWords;
  isReading: boolean;
  now: Date;
}) {
  const proposer = personOf(desk, cut.proposedBy);
  const isMine = proposer.userId === desk.me.userId;
  const frozen = cut.frozenIn.at(-1);
  return (
    <div className={styles.head}>
      {cut.state === "agreed" ? (
        <>
          <BothMarks desk={desk} cut={cut} />
          <span className={styles.when}>{words.headline}</span>
        </>
      ) : (
        <>
          <WhoTag
            ink={inkOf(proposer.role)}
            initial={proposer.initial}
            name={words.headline}
            note={isMine ? "you" : undefined}
          />
          {words.isWaiting && <span className={styles.when}>{sayDay(cut.createdAt, now)}</span>}
        </>
      )}
      <span className={styles.state}>
        {words.isWaiting ? (
          <WaitTag>{words.state}</WaitTag>
        ) : frozen !== undefined && cut.state === "agreed" ? (
          <EditionStamp number={frozen} />
        ) : (
          <>
            {words.icon && <Icon name={words.icon} />}
            {isReading ? "reading the bars…" : words.state}
          </>
        )}
      </span>
    </div>
  );
}

/** Both players' marks: the one who put it forward and the one who agreed. */
function BothMarks({ desk, cut }: { desk: Desk; cut: DeskCut }) {
  const agreedBy = cut.answers.findLast(({ answer }) => answer === "agree")?.userId;
  const people = [cut.proposedBy, ...(agreedBy ? [agreedBy] : [])].map((id) => personOf(desk, id));
  return (
    <span className={styles.marks} title={people.map(firstName).join(" and ")}>
      {people.map(({ userId, role, initial }) => (
        <WhoMark key={userId} ink={inkOf(role)} initial={initial} />
      ))}
    </span>
  );
}

function CardWords({ desk, cut, words, now }: { desk: Desk; cut: DeskCut; words: CutWords; now: Date }) {
  const replaced = cut.instead && personOf(desk, cut.instead.proposedBy);
  return (
    <>
      {cut.reason !== "" && <p className={styles.reason}>“{cut.reason}”</p>}
      {cut.instead && replaced && !words.isAside && (
        <p className={styles.small}>
          Instead of {replaced.userId === desk.me.userId ? "your" : `${firstName(replaced)}’s`}{" "}
          {cut.instead.name.replace(/^bars? /, "")}, {sayClock(cut.instead.savedSeconds)}.
        </p>
      )}
      {words.isAside && <p className={styles.small}>{sayAside(desk, cut, now)}</p>}
    </>
  );
}
