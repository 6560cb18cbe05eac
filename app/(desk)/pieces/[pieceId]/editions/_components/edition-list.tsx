"use client";

import { useState } from "react";
import type { EditionsView, EditionView } from "@/app/_data/editions/editions-view";
import { Button } from "@/app/_ui/button";
import { EditionStamp } from "@/app/_ui/edition-stamp";
import { Evidence } from "@/app/_ui/evidence";
import { Icon } from "@/app/_ui/icon";
import { inkOf } from "@/app/_ui/party";
import { sayDay } from "@/app/_ui/say-date";
import { Segmented } from "@/app/_ui/segmented";
import { Sheet } from "@/app/_ui/sheet";
import { WhoTag } from "@/app/_ui/who-mark";
import { shortHash } from "@/lib/edition/short-hash";
import { personOf } from "../../_components/person";
import { BranchPiece } from "./branch-piece";
import { Downloads, type Paper } from "./downloads";
import styles from "./edition-list.module.css";
import { RestoreEdition } from "./restore-edition";
import { saySideShort } from "./say-edition";
import { useAsked } from "./use-asked";

/** Every edition: what it is, who agreed to it when, and its files. */
export function EditionList({ view, now }: { view: EditionsView; now: string }) {
  const [paper, setPaper] = useState<Paper>("A4");
  return (
    <Sheet className={styles.sheet} aria-labelledby="editions-title">
      <header className={styles.head}>
        <h2 id="editions-title">Editions</h2>
        {view.editions.length > 0 && (
          <Segmented
            label="Paper of the PDFs"
            value={paper}
            options={[
              { value: "A4", label: "A4" },
              { value: "Letter", label: "Letter" },
            ]}
            onChange={setPaper}
          />
        )}
      </header>
      {view.editions.length === 0 && (
        <p className={styles.none}>
          None yet. When both players agree to what stands, it is frozen as № 1, with files for both stands.
        </p>
      )}
      {view.may.branch && (
        <p className={styles.branch}>
          <BranchPiece
            pieceId={view.pieceId}
            occasion={view.occasion}
            limitSeconds={view.limitSeconds}
            editions={view.editions.filter(({ seconds }) => seconds !== null).map(({ name }) => name)}
            other={view.other}
          />
        </p>
      )}
      <RestoreEdition pieceId={view.pieceId} restoring={view.restoring} other={view.other} />
      <ol>
        {view.editions.map((edition) => (
          <Edition key={edition.name} view={view} edition={edition} paper={paper} now={new Date(now)} />
        ))}
      </ol>
    </Sheet>
  );
}

function Edition({
  view,
  edition,
  paper,
  now,
}: {
  view: EditionsView;
  edition: EditionView;
  paper: Paper;
  now: Date;
}) {
  return (
    <li className={styles.edition} id={`edition-${edition.name}`}>
      <EditionStamp number={edition.name} size="large" />
      <div className={styles.words}>
        <h3>{saySideShort(edition)}</h3>
        <p className={styles.quiet}>
          frozen <time dateTime={edition.frozenAt}>{sayDay(edition.frozenAt, now)}</time>
        </p>
        <ul className={styles.agreed} aria-label="Agreed by">
          {edition.approvals.map(({ userId, name, role, at }) => (
            <li key={userId}>
              <WhoTag
                ink={inkOf(role)}
                initial={personOf(view, userId).initial}
                name={name}
                note={`agreed ${sayDay(at, now)}`}
              />
            </li>
          ))}
        </ul>
        <Evidence
          summary={
            <>
              Fingerprint <code>{shortHash(edition.hash)}</code>
            </>
          }
        >
          <dl className={styles.evidence}>
            <dt>What both agreed to</dt>
            <dd>
              {edition.cuts.length === 0 ? "no cuts" : edition.cuts.join(", ")}
              {edition.ownTempi > 0 && `; ${edition.ownTempi} tempi or timings of your own`}
            </dd>
            <dt>Its fingerprint (SHA-256 of these terms)</dt>
            <dd>
              <code>{edition.hash}</code>
            </dd>
            {edition.previousHash && (
              <>
                <dt>The edition before it</dt>
                <dd>
                  <code>{edition.previousHash}</code>
                </dd>
              </>
            )}
          </dl>
        </Evidence>
      </div>
      <div className={styles.taken}>
        <Downloads pieceId={view.pieceId} number={edition.name} paper={paper} />
        {view.may.propose && <BringBack number={edition.name} />}
      </div>
    </li>
  );
}

/** Shows first what it would do. */
function BringBack({ number }: { number: number }) {
  const { ask, isAsking } = useAsked();
  return (
    <Button
      small
      kind="bare"
      disabled={isAsking}
      aria-label={`Bring № ${number} back as a proposal`}
      onClick={() => ask({ restore: `${number}` })}
    >
      <Icon name="take-back" small /> Bring back as a proposal
    </Button>
  );
}
