import { EditionStamp } from "@/app/_ui/edition-stamp";
import { Icon } from "@/app/_ui/icon";
import { WithFlats } from "@/app/_ui/music-sign";
import { sayDay } from "@/app/_ui/say-date";
import { shortHash } from "@/lib/edition/short-hash";
import styles from "./bring-in.module.css";
import type { PieceFile } from "./looked-into";

/** What a file holds that was checked and is whole. */
export function WhatIsIn({ piece }: { piece: PieceFile }) {
  const { title, movement, composer, counts, editions } = piece;
  const about = [composer, movement].filter(Boolean).join(" · ");
  return (
    <div className={styles.found}>
      <p className={styles.title}>
        <b>
          <WithFlats text={title} />
        </b>
        {about && (
          <span>
            <WithFlats text={about} />
          </span>
        )}
      </p>
      <p className={styles.whole}>
        <Icon name="check" />
        <span>
          Every file is as it was packed, every hash is that of what it names, and every edition follows the
          one before.
        </span>
      </p>
      <p className={styles.quiet}>{sayCounts(counts)}</p>
      {editions.length > 0 && (
        <ul className={styles.editions}>
          {editions.map(({ number, hash, frozenAt, approvedBy }) => (
            <li key={number}>
              <EditionStamp number={number} />
              <span>
                <code>{shortHash(hash)}</code>, frozen {sayDay(frozenAt, new Date())} by{" "}
                {approvedBy.join(" and ")}
              </span>
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}

function sayCounts({ sources, proposals, comments, performances }: PieceFile["counts"]): string {
  const count = (number: number, word: string) => `${number} ${word}${number === 1 ? "" : "s"}`;
  return [
    count(sources, "source"),
    count(proposals, "proposal"),
    count(comments, "comment"),
    count(performances, "performance"),
  ].join(", ");
}
