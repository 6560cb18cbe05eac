import type { EditionsView } from "@/app/_data/editions/editions-view";
import { ButtonLink } from "@/app/_ui/button";
import { Icon } from "@/app/_ui/icon";
import { Fermata } from "@/app/_ui/music-sign";
import { inkOf } from "@/app/_ui/party";
import { sayDay } from "@/app/_ui/say-date";
import { Sheet } from "@/app/_ui/sheet";
import { WhoTag } from "@/app/_ui/who-mark";
import { firstName, personOf } from "../../_components/person";
import { Agreeing } from "./agreeing";
import { sayOpen } from "./say-edition";
import styles from "./working-card.module.css";

/** The edition being made: what is open, what it changes, who is ready. */
export function WorkingCard({ view, now }: { view: EditionsView; now: string }) {
  const { working, editions } = view;
  const isNew = editions.length === 0 || working.changes.length > 0 || working.openCount > 0;
  return (
    <Sheet className={styles.card} aria-labelledby="working-title" id="freeze">
      <h2 id="working-title">
        {isNew ? `№ ${working.number} is not frozen yet` : `№ ${working.number - 1} is what stands`}
      </h2>
      {working.openCount > 0 && <Open view={view} now={now} />}
      {isNew && <Readiness view={view} now={now} />}
      {!isNew && (
        <p className={styles.quiet}>Nothing has changed since. A new cut begins № {working.number}.</p>
      )}
      {isNew && <Agreeing view={view} other={nameOther(view)} />}
      {isNew && working.whyNot && working.openCount === 0 && (
        <p className={styles.quiet}>
          {working.whyNot}{" "}
          {view.may.approve && view.people.filter(isPlayer).length < 2 && (
            <a href={`/pieces/${view.pieceId}/settings#people`}>Invite them</a>
          )}
        </p>
      )}
    </Sheet>
  );
}

function isPlayer({ role, hasLeft }: EditionsView["people"][number]): boolean {
  return !hasLeft && (role === "pianist" || role === "soloist");
}

function nameOther({ people, me }: EditionsView): string | null {
  const other = people.find((person) => isPlayer(person) && person.userId !== me.userId);
  return other ? firstName(other) : null;
}

function Open({ view, now }: { view: EditionsView; now: string }) {
  const { pieceId, working } = view;
  const asked = [
    ...working.open.map((cut) => ({ ...cut, kind: "Cut", href: `/pieces/${pieceId}?cut=${cut.id}` })),
    ...working.openRewrites.map((rewrite) => ({
      ...{ ...rewrite, kind: "Rewrite", href: `/pieces/${pieceId}/hands?rewrite=${rewrite.id}` },
    })),
  ];
  return (
    <ul className={styles.open}>
      {asked.map(({ id, kind, number, name, waitsForMe, proposedBy, createdAt, href }) => (
        <li key={id}>
          {waitsForMe ? <Fermata /> : <Icon name="clock" />}
          <span>
            <b>
              {kind} {number}, {name}
            </b>
            <small>
              {waitsForMe
                ? "waits for you"
                : `${firstName(personOf(view, proposedBy))} asks since ${sayDay(createdAt, new Date(now))}`}
            </small>
          </span>
          <ButtonLink small href={href}>
            {waitsForMe ? "Answer" : "Look"}
          </ButtonLink>
        </li>
      ))}
    </ul>
  );
}

function Readiness({ view, now }: { view: EditionsView; now: string }) {
  const { working, people, me } = view;
  return (
    <ul className={styles.players} aria-label="Who is ready">
      {(["pianist", "soloist"] as const).map((role) => {
        const player = people.find((person) => isPlayer(person) && person.role === role);
        const yes = player && working.approvals.find(({ userId }) => userId === player.userId);
        return (
          <li key={role} data-ready={yes ? true : undefined}>
            {player ? (
              <WhoTag
                ink={inkOf(role)}
                initial={player.initial}
                name={firstName(player)}
                note={player.userId === me.userId ? "you" : undefined}
              />
            ) : (
              <b>no {role} yet</b>
            )}
            <span className={styles.quiet}>
              {yes ? (
                <>
                  <Icon name="check" small /> ready since {sayDay(yes.at, new Date(now))}
                </>
              ) : working.openCount > 0 ? (
                `not ready: ${sayOpen(working.openCount)}`
              ) : (
                "has not said yet"
              )}
            </span>
          </li>
        );
      })}
    </ul>
  );
}
