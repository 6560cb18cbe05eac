import type { DifferenceRow, EditionsView, Said } from "@/app/_data/editions/editions-view";
import { Icon } from "@/app/_ui/icon";
import { inkOf } from "@/app/_ui/party";
import { SayNote } from "@/app/_ui/say";
import { sayShortDay } from "@/app/_ui/say-short-day";
import { Sheet } from "@/app/_ui/sheet";
import { Spoken } from "@/app/_ui/spoken";
import { WhoMark } from "@/app/_ui/who-mark";
import { listSides, saySide } from "@/lib/edition/choose-sides";
import { sayLonger } from "@/lib/edition/compare-editions";
import { firstName, personOf } from "../../_components/person";
import { ChooseEditions } from "./choose-editions";
import { LookOnScore } from "./chosen-change";
import styles from "./comparison.module.css";
import { PlaceFinder } from "./place-finder";
import { sayChanges } from "./say-edition";
import { TwinStrips } from "./twin-strips";

/** Two versions side by side: how they lie in time, and every change with who asked and agreed. */
export function ComparisonSheet({ view }: { view: EditionsView }) {
  const { comparison, chosen, editions } = view;
  const rows = comparison?.rows ?? [];
  const longer = comparison ? comparison.later.seconds - comparison.earlier.seconds : 0;
  return (
    <Sheet className={styles.sheet} aria-label="What changed">
      <header className={styles.head}>
        <ChooseEditions sides={listSides({ editionCount: editions.length })} {...chosen} />
        {comparison && <p className={styles.sum}>{sayChanges(rows.length, longer)}</p>}
      </header>
      {comparison ? (
        <div className={styles.body}>
          <TwinStrips comparison={comparison} />
          {rows.length > 0 && <Rows view={view} rows={rows} />}
          <PlaceFinder place={view.place} compared={[chosen.earlier, chosen.later]} />
          {comparison.declined.length > 0 && <Declined view={view} declined={comparison.declined} />}
        </div>
      ) : (
        <div className={styles.body}>
          <SayNote>
            One of the two was made from another file. Its bars are not these, so they cannot be laid side by
            side.
          </SayNote>
        </div>
      )}
    </Sheet>
  );
}

function Rows({ view, rows }: { view: EditionsView; rows: readonly DifferenceRow[] }) {
  const { earlier, later } = view.chosen;
  return (
    <table className={styles.rows}>
      <thead>
        <tr>
          <th className={styles.number}>
            <Spoken>Number</Spoken>
          </th>
          <th>Where</th>
          <th>{saySide(earlier)}</th>
          <th>{saySide(later)}</th>
          <th>Proposed</th>
          <th>Agreed</th>
          <th>
            <Spoken>On the score</Spoken>
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row, index) => (
          <tr key={`${row.kind} ${row.sentence}`}>
            <td className={styles.number}>{index + 1}</td>
            {row.before === null && row.after === null ? (
              <Settled row={row} />
            ) : (
              <Cut view={view} row={row} />
            )}
            <td className={styles.look}>{row.bars && <LookOnScore row={index} name={row.sentence} />}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Cut({ view, row }: { view: EditionsView; row: DifferenceRow }) {
  return (
    <>
      <td data-label="Where">
        <b>{row.cutNumber === null ? "Cut" : `Cut ${row.cutNumber}`}</b>
      </td>
      <td data-label={saySide(view.chosen.earlier)} className={styles.before}>
        {row.before ?? "played"}
      </td>
      <td data-label={saySide(view.chosen.later)}>
        <b>{row.after ?? "played again"}</b>, {sayLonger(row.secondsLonger)}
      </td>
      <td data-label="Proposed">
        <By view={view} said={row.proposed} />
      </td>
      <td data-label={row.after === null ? "Reopened" : "Agreed"}>
        <By view={view} said={row.answered} verb={row.after === null ? "reopened" : null} />
      </td>
    </>
  );
}

const settledWords: Readonly<Record<DifferenceRow["kind"], string>> = {
  "source-changed": "Music",
  "cut-added": "Cut",
  "cut-removed": "Cut",
  "cut-moved": "Cut",
  "breath-changed": "Breath",
  "cue-changed": "Cue",
  "rewrite-changed": "Rewrite",
  "remark-changed": "Comment",
  "tempo-changed": "Time",
  "part-changed": "Parts",
};

/** Whose mark it is needs no answer either: both agree to it by freezing. */
const ofAuthors: ReadonlySet<DifferenceRow["kind"]> = new Set([
  "breath-changed",
  "cue-changed",
  "remark-changed",
]);

/** What is set under Settings needs no answer of its own: both agree to it by freezing. */
function Settled({ row }: { row: DifferenceRow }) {
  return (
    <>
      <td data-label="Where">
        <b>{settledWords[row.kind]}</b>
      </td>
      <td colSpan={2}>
        {row.sentence} {row.kind === "tempo-changed" && `That is ${sayLonger(row.secondsLonger)}.`}
      </td>
      <td colSpan={2} className={styles.before}>
        {ofAuthors.has(row.kind) ? "its author’s own" : "set by a player"}, agreed by freezing
      </td>
    </>
  );
}

function By({ view, said, verb = null }: { view: EditionsView; said: Said | null; verb?: string | null }) {
  if (!said) return <span className={styles.before}>–</span>;
  const person = personOf(view, said.userId);
  return (
    <span className={styles.by}>
      <WhoMark ink={inkOf(person.role)} initial={person.initial} />
      <span>
        {firstName(person)}
        <small>
          {verb && `${verb} `}
          {sayShortDay(said.at)}
        </small>
      </span>
    </span>
  );
}

function Declined({
  view,
  declined,
}: {
  view: EditionsView;
  declined: NonNullable<EditionsView["comparison"]>["declined"];
}) {
  return (
    <>
      <h3 className={styles.aside}>Proposed and not agreed</h3>
      <ul className={styles.declined}>
        {declined.map((cut) => {
          const no = cut.answers.findLast(({ answer }) => answer === "decline") ?? null;
          return (
            <li key={cut.id}>
              <Icon name="cross" />
              <b>
                Cut {cut.number}, {cut.name}
              </b>
              <By view={view} said={{ userId: cut.proposedBy, at: cut.createdAt }} />
              <span>declined by</span>
              <By view={view} said={no} />
              {no?.reason && <q>{no.reason}</q>}
            </li>
          );
        })}
      </ul>
    </>
  );
}
