"use client";

import Link from "next/link";
import type { FormerRoom, HistoryDesk } from "@/app/_data/desk/read-history";
import { inkOf } from "@/app/_ui/party";
import { Sheet } from "@/app/_ui/sheet";
import { WhoMark } from "@/app/_ui/who-mark";
import { Moment } from "../../_components/moment";
import { firstName, personOf } from "../../_components/person";
import { RecordPast } from "../../_cuts/record-past";
import { CommentWords } from "../../_talk/comment-words";
import { BringBack } from "./bring-back";
import styles from "./former-room.module.css";
import { type FormerItem, listFormer } from "./list-former";

/** The comments, breaths, cues and pencilled cuts as they stood at one moment; they can be brought back. */
export function FormerRoomSheet({ desk, former }: { desk: HistoryDesk; former: FormerRoom }) {
  const { comments, breaths, cues, pencilled } = listFormer(former.records, desk);
  return (
    <Sheet className={styles.sheet} aria-labelledby="former-heading">
      <header>
        <h2 id="former-heading">
          As it stood <Moment iso={former.at} />
        </h2>
        <Link href={`/pieces/${desk.pieceId}/history`} scroll={false}>
          Close
        </Link>
      </header>
      <p className={styles.after}>After this: {former.sentence}</p>
      <BringBack desk={desk} records={former.records} />
      <Part desk={desk} name="Comments" items={comments} />
      <Part desk={desk} name="In pencil" items={pencilled} />
      <Part desk={desk} name="Breaths" items={breaths} />
      <Part desk={desk} name="Cues" items={cues} />
    </Sheet>
  );
}

function Part({ desk, name, items }: { desk: HistoryDesk; name: string; items: readonly FormerItem[] }) {
  return (
    <section className={styles.part} aria-label={name}>
      <h3>
        {name} <small>{items.length === 0 ? "none" : items.length}</small>
      </h3>
      <ul>
        {items.map((item) => {
          const person = personOf(desk, item.userId);
          return (
            <li key={item.of.key} data-reply={item.isReply || undefined}>
              <WhoMark ink={inkOf(person.role)} initial={person.initial} />
              <div>
                <b>{item.place}</b>
                <small>
                  {" "}
                  {firstName(person)} {item.at !== null && <Moment iso={item.at} />}
                  {item.remark && ` · ${item.remark}`}
                </small>
                {item.text !== null && (
                  <p>
                    <CommentWords text={item.text} people={desk.people} />
                  </p>
                )}
                <RecordPast desk={desk} of={item.of} />
              </div>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
