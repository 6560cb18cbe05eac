import Link from "next/link";
import type { ReactNode } from "react";
import { sayDay } from "@/app/_ui/say-date";
import { sayDaysUntil } from "@/app/(desk)/_performances/say-performance";
import type { ProgrammeHead } from "@/lib/store/programmes/programme-record";
import styles from "./programme.module.css";

/** What the occasion is, when and where. */
export function ProgrammeHeading({
  programme: { name, on, startsAt, place, isMine, ownerName },
  now,
  children,
}: {
  programme: ProgrammeHead;
  now: string;
  children?: ReactNode;
}) {
  const today = now.slice(0, 10);
  return (
    <header className={styles.head}>
      <div>
        <p className={styles.back}>
          <Link href="/performances">Performances</Link>
        </p>
        <h1>{name}</h1>
        <p className={styles.where}>
          {[
            sayDay(on, new Date(now)) + (startsAt ? `, ${startsAt}` : ""),
            place,
            on >= today ? sayDaysUntil(on, today) : "",
            isMine ? "" : `drawn up by ${ownerName}`,
          ]
            .filter(Boolean)
            .join(" · ")}
        </p>
      </div>
      <p className={styles.deeds}>{children}</p>
    </header>
  );
}
