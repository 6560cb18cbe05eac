"use client";

import Link from "next/link";
import { type Dispatch, useEffect, useState } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { Button } from "@/app/_ui/button";
import { classNames } from "@/app/_ui/class-names";
import { Evidence } from "@/app/_ui/evidence";
import { inkOf } from "@/app/_ui/party";
import { Sheet } from "@/app/_ui/sheet";
import type { SinceLastVisit } from "@/lib/store/room/read-since-last-visit";
import { spanOfComment } from "../_talk/span-of-comment";
import type { DeskMove } from "./desk-state";
import { Moment } from "./moment";
import { firstName, personOf } from "./person";
import { useRoomHere } from "./room-provider";
import { listSince, type SinceItem, type SinceOfPerson, type SincePlace } from "./say-since";
import styles from "./since-panel.module.css";

interface SinceProps {
  desk: Desk;
  since: SinceLastVisit | null;
  move: Dispatch<DeskMove>;
}

/**
 * What the others did since this person last had the piece open. It stands at the top until it is put away.
 *
 * @param isFolded one line that opens: where the score needs the room.
 */
export function SincePanel({ isFolded = false, ...props }: SinceProps & { isFolded?: boolean }) {
  const { desk, since } = props;
  // What comes in during the visit is seen as it comes: the panel keeps what it opened with.
  const [opened] = useState(since);
  const [isAway, putAway] = usePutAway(desk.pieceId, opened?.lastVisit ?? null);
  const people = opened ? listSince(opened, desk) : [];
  if (opened === null || people.length === 0 || isAway) return null;
  const title = (
    <>
      Since you were last here{" "}
      <small>
        <Moment iso={opened.lastVisit} />
      </small>
    </>
  );
  const away = (
    <Button kind="bare" small onClick={putAway}>
      Put away
    </Button>
  );
  if (isFolded)
    return (
      <section className={styles.line} aria-label="Since you were last here">
        <Evidence summary={title}>
          <People {...props} people={people} />
        </Evidence>
        {away}
      </section>
    );
  return (
    <Sheet className={styles.since} aria-labelledby="since-heading">
      <header>
        <h2 id="since-heading">{title}</h2>
        {away}
      </header>
      <People {...props} people={people} />
    </Sheet>
  );
}

function People({ desk, people, move }: SinceProps & { people: readonly SinceOfPerson[] }) {
  return people.map(({ userId, items }) => {
    const person = userId === null ? null : personOf(desk, userId);
    return (
      <div key={userId} className={styles.person}>
        {person && (
          <span className={classNames(styles.who, styles[inkOf(person.role)])}>{firstName(person)}</span>
        )}
        <ul>
          {items.map((item) => (
            <li key={item.key}>
              <Item desk={desk} item={item} move={move} />
            </li>
          ))}
        </ul>
      </div>
    );
  });
}

function Item({ desk, item, move }: { desk: Desk; item: SinceItem; move: Dispatch<DeskMove> }) {
  const { comments } = useRoomHere();
  const { place, text } = item;
  if (place === null) return text;
  if (place.kind === "rewrite")
    return <Link href={`/pieces/${desk.pieceId}/hands?rewrite=${place.rewriteId}`}>{text}</Link>;
  if (place.kind === "screen") return <Link href={`/pieces/${desk.pieceId}/${place.path}`}>{text}</Link>;
  const goTo = (bar: number) => {
    const second = desk.strip.bars.find(({ barIndex }) => barIndex === bar)?.from ?? 0;
    move({ kind: "cursor", second, bar });
  };
  const go = (to: Exclude<SincePlace, { kind: "screen" | "rewrite" }>) => {
    if (to.kind === "bar") {
      move({ kind: "pane", pane: "cuts" });
      goTo(to.bar);
    }
    if (to.kind === "cut") move({ kind: "open-cut", cutId: to.cutId, bar: barOfCut(desk, to.cutId) });
    if (to.kind === "comments") {
      const bar = to.bar >= 0 ? to.bar : firstBarOf(comments, to.ids);
      if (bar !== null) goTo(bar);
      move({ kind: "show-comments", ids: to.ids });
    }
  };
  return (
    <button type="button" onClick={() => go(place)}>
      {text}
    </button>
  );
}

function barOfCut({ cuts }: Pick<Desk, "cuts">, cutId: string): number | null {
  return cuts.find(({ id }) => id === cutId)?.firstBar ?? null;
}

function firstBarOf(
  comments: ReturnType<typeof useRoomHere>["comments"],
  ids: readonly string[],
): number | null {
  const spans = comments.filter(({ id }) => ids.includes(id)).map(spanOfComment);
  const bars = spans.flatMap((span) => (span ? [span.firstBar] : []));
  return bars.length === 0 ? null : Math.min(...bars);
}

/** Put away for this visit's news; the next ones are shown again. */
function usePutAway(pieceId: string, lastVisit: string | null): [boolean, () => void] {
  const key = `colla-since-${pieceId}`;
  // Until the browser's note is read nothing is shown: better late than there and gone.
  const [isAway, setIsAway] = useState(true);
  useEffect(() => setIsAway(lastVisit === null || readNote(key) === lastVisit), [key, lastVisit]);
  const putAway = () => {
    setIsAway(true);
    try {
      window.sessionStorage.setItem(key, lastVisit ?? "");
    } catch {
      // Where nothing is kept it is shown again.
    }
  };
  return [isAway, putAway];
}

function readNote(key: string): string | null {
  try {
    return window.sessionStorage.getItem(key);
  } catch {
    return null;
  }
}
