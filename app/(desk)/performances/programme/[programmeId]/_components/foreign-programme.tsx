import { OnThisDevice } from "@/app/_offline/on-this-device";
import { buttonClass } from "@/app/_ui/button";
import { Icon } from "@/app/_ui/icon";
import { Sheet } from "@/app/_ui/sheet";
import type { ProgrammeRecord } from "@/lib/store/programmes/programme-record";
import { listEditionsOnIt } from "./editions-on-it";
import { EntryTime, EntryWhat, ReadEntry } from "./entry-row";
import styles from "./programme.module.css";
import { ProgrammeHeading } from "./programme-heading";

/** Somebody else's programme: when and where, and one's own pieces on it. */
export function ForeignProgramme({
  programme,
  userId,
  now,
}: {
  programme: ProgrammeRecord;
  /** Of whoever looks at it. */
  userId: string;
  now: string;
}) {
  return (
    <main className={styles.page} id="main">
      <ProgrammeHeading programme={programme} now={now}>
        <a
          className={buttonClass({ small: true })}
          href={`/api/programmes/${programme.id}/calendar.ics`}
          download
        >
          <Icon name="download" small /> For a calendar
        </a>
      </ProgrammeHeading>
      <OnThisDevice userId={userId} programmeId={programme.id} editions={listEditionsOnIt(programme)} />
      <Sheet className={styles.sheet} aria-labelledby="yours">
        <h2 id="yours">{programme.entries.length === 1 ? "Your piece" : "Your pieces"}</h2>
        <ol className={styles.entries}>
          {programme.entries.map((entry) => (
            <li key={entry.itemId} className={styles.entry}>
              <div className={styles.line}>
                <EntryWhat entry={entry} />
                <EntryTime entry={entry} />
                <ReadEntry entry={entry} programmeId={programme.id} />
              </div>
            </li>
          ))}
        </ol>
        <p className={styles.quiet}>
          The rest of it is seen by {programme.ownerName}, and by those who play in it, each their own.
        </p>
      </Sheet>
    </main>
  );
}
