import type { Desk, DeskWeight } from "@/app/_data/desk/desk";
import { sayAgainstLimit } from "@/app/_ui/clock";
import { Evidence } from "@/app/_ui/evidence";
import { Icon } from "@/app/_ui/icon";
import { RehearsalBox } from "@/app/_ui/rehearsal-box";
import { RestBar } from "@/app/_ui/rest-bar";
import type { CheckedNeed } from "@/lib/breath/check-rest-needs";
import { sayClock } from "@/lib/score/say-clock";
import { firstName, otherPlayer, soloistOf, whose } from "../_components/person";
import styles from "./cut-effects.module.css";
import { robbed, sayNeedUnder, tellingNeed } from "./say-need";

/** What a cut costs and gives: the running time and the soloist's rest, never the one without the other. */
export function CutEffects({
  desk,
  weight,
  needs = [],
}: {
  desk: Desk;
  weight: DeskWeight;
  /** The needed rests that it changes, as far as they are known. */
  needs?: readonly CheckedNeed[];
}) {
  const { rest } = weight;
  const need = tellingNeed(needs);
  const soloist = soloistOf(desk);
  const againstLimit =
    desk.limitSeconds === null ? null : sayAgainstLimit(weight.runningAfter, desk.limitSeconds);
  return (
    <div className={styles.effects}>
      <div className={styles.pair}>
        <div>
          <p className={styles.what}>Running time</p>
          <FromTo before={weight.runningBefore} after={weight.runningAfter} />
          <p className={styles.say}>
            <b>{againstLimit ?? `${sayClock(weight.savedSeconds)} shorter`}</b>
            {desk.limitSeconds !== null && ` of ${sayClock(desk.limitSeconds)}`}
          </p>
        </div>
        {rest && (
          <div>
            <p className={styles.what}>
              {whose(soloist, desk.me, "The soloist’s")} rest before{" "}
              {rest.nextEntry.isLetter ? (
                <RehearsalBox small text={rest.nextEntry.text} />
              ) : (
                rest.nextEntry.text
              )}
            </p>
            <FromTo before={rest.beforeSeconds} after={rest.afterSeconds} />
            {need && <NeedLine desk={desk} need={need} />}
            <RestBar
              beforeSeconds={rest.beforeSeconds}
              afterSeconds={rest.afterSeconds}
              neededSeconds={need?.seconds.needed ?? null}
            />
          </div>
        )}
      </div>
      {weight.soloNotesLost > 0 && (
        <p className={styles.loss}>
          <Icon name="warning" small />
          Takes {weight.soloNotesLost} {weight.soloNotesLost === 1 ? "note" : "notes"} of the solo away.
        </p>
      )}
      {robbed(needs).map((one) => (
        <p key={one.need.id} className={styles.loss}>
          <Icon name="warning" small />
          <span>
            Takes a needed rest. {one.sentence} {sayWhoDecides(desk)}
          </span>
        </p>
      ))}
      <Evidence summary="What this is computed from">
        <ul>
          <li>
            <b>{weight.barCount} bars</b> fall out. By the tempi of the piece they last{" "}
            <b>{sayClock(weight.savedSeconds)}</b>, repeats counted.
          </li>
          <li>
            Running time without this cut {sayClock(weight.runningBefore)}, with it{" "}
            {sayClock(weight.runningAfter)}; the other agreed cuts are made in both.
          </li>
          <li>
            {rest
              ? "The rest runs from the end of the last solo note to the next solo note, by the same tempi."
              : "The soloist plays on both sides of this cut, so no rest changes."}
          </li>
          {needs.map(({ need: { id }, sentence }) => (
            <li key={id}>{sentence}</li>
          ))}
          <li>By the numbers alone: on stage it takes longer. See the running time.</li>
        </ul>
      </Evidence>
    </div>
  );
}

function NeedLine({ desk, need }: { desk: Desk; need: CheckedNeed }) {
  const { point, rest } = sayNeedUnder(desk, need);
  return (
    <p className={styles.say}>
      <b>{point}</b> {rest}
    </p>
  );
}

/** A cut that robs a rest can still be put forward. */
function sayWhoDecides({ people, me, may }: Desk): string {
  if (!may.propose) return "";
  if (me.role === "soloist") return "It is your rest: you decide.";
  const other = otherPlayer({ people, me });
  return `You can propose it all the same; ${other ? firstName(other) : "the soloist"} decides.`;
}

function FromTo({ before, after }: { before: number; after: number }) {
  return (
    <p className={styles.figures}>
      <span>{sayClock(before)}</span> <Icon name="forward" small /> {sayClock(after)}
    </p>
  );
}
