"use client";

import Link from "next/link";
import { useState } from "react";
import { Button } from "@/app/_ui/button";
import { Icon } from "@/app/_ui/icon";
import { sayShortDay } from "@/app/_ui/say-short-day";
import { Sheet } from "@/app/_ui/sheet";
import type { ProgrammeRecord } from "@/lib/store/programmes/programme-record";
import styles from "./all-performances.module.css";
import { DrawUpDialog } from "./draw-up-dialog";

/** What is played together on one occasion: programmes of one's own, and those with a piece of one's own in it. */
export function ProgrammeList({
  programmes,
  today,
}: {
  /** The latest first. */
  programmes: readonly ProgrammeRecord[];
  today: string;
}) {
  const [isOpen, setIsOpen] = useState(false);
  return (
    <section aria-labelledby="programmes">
      <div className={styles.sectionHead}>
        <h2 id="programmes">Programmes</h2>
        <Button small onClick={() => setIsOpen(true)}>
          <Icon name="plus" small /> Draw one up
        </Button>
      </div>
      <Sheet className={styles.sheet}>
        {programmes.length === 0 && (
          <p className={styles.quiet}>
            None yet. A programme puts several pieces and what is between them on one clock.
          </p>
        )}
        <ol className={styles.programmes}>
          {programmes.map(({ id, name, on, place, own, entries, ownerName }) => (
            <li key={id}>
              <time dateTime={on}>
                {sayShortDay(on)}
                <small>{on.slice(0, 4)}</small>
              </time>
              <div>
                <Link href={`/performances/programme/${id}`}>{name}</Link>
                <p>
                  {[place, own === null ? `drawn up by ${ownerName}` : sayEntries(entries.length)]
                    .filter(Boolean)
                    .join(" · ")}
                  {own?.isRemoved && " · taken off"}
                </p>
              </div>
            </li>
          ))}
        </ol>
      </Sheet>
      {isOpen && <DrawUpDialog today={today} onClose={() => setIsOpen(false)} />}
    </section>
  );
}

function sayEntries(count: number): string {
  if (count === 0) return "empty";
  return count === 1 ? "1 entry" : `${count} entries`;
}
