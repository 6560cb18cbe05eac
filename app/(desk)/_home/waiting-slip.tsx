import type { Desk, DeskCut } from "@/app/_data/desk/desk";
import { ButtonLink } from "@/app/_ui/button";
import { EditionStamp } from "@/app/_ui/edition-stamp";
import { WithFlats } from "@/app/_ui/music-sign";
import { nameBars } from "@/app/_ui/name-span";
import { inkOf } from "@/app/_ui/party";
import { sayDay } from "@/app/_ui/say-date";
import { Card } from "@/app/_ui/sheet";
import { WhoTag } from "@/app/_ui/who-mark";
import { sayBarCount } from "@/lib/score/say-bar-count";
import { sayClock } from "@/lib/score/say-clock";
import { initialOf } from "@/lib/store/pieces/piece-record";
import type { Waiting } from "@/lib/store/proposals/list-waiting";
import { FittedStrip } from "./fitted-strip";
import { firstName } from "./say-waiting";
import styles from "./waiting-slip.module.css";

/** One thing that waits for an answer, with what it costs. */
export function WaitingSlip({ waiting, desk, now }: { waiting: Waiting; desk: Desk | null; now: Date }) {
  const asker = desk?.people.find(({ name }) => name === waiting.from);
  const ink = inkOf(asker?.role ?? "");
  const who = firstName(waiting.from);
  return (
    <Card edge={ink} className={styles.slip}>
      <div>
        <p className={styles.who}>
          <WhoTag ink={ink} initial={initialOf(waiting.from)} name={`${who} ${asks[waiting.kind]}`} />
          <time dateTime={waiting.since.toISOString()}>{sayDay(waiting.since.toISOString(), now)}</time>
        </p>
        <WaitingWords waiting={waiting} desk={desk} />
      </div>
      <div className={styles.figure}>
        {desk && <FittedStrip piece={desk.strip} hasLetters expected={300} />}
        {desk && waiting.kind === "proposal" && (
          <Costs desk={desk} cut={desk.cuts.find(({ id }) => id === waiting.proposal.id)} who={who} />
        )}
      </div>
      <ButtonLink kind="settle" href={`/pieces/${waiting.pieceId}${placeOf(waiting)}`}>
        Look and answer
      </ButtonLink>
    </Card>
  );
}

const asks: Readonly<Record<Waiting["kind"], string>> = {
  proposal: "proposes a cut",
  rewrite: "proposes a rewrite",
  edition: "is ready to freeze",
};

/** Where it is answered, within its piece. */
function placeOf(waiting: Waiting): string {
  switch (waiting.kind) {
    case "proposal":
      return `?cut=${waiting.proposal.id}`;
    case "rewrite":
      return `/hands?rewrite=${waiting.rewriteId}`;
    case "edition":
      return "/editions";
  }
}

function WaitingWords({ waiting, desk }: { waiting: Waiting; desk: Desk | null }) {
  switch (waiting.kind) {
    case "proposal":
      return (
        <ProposalWords waiting={waiting} cut={desk?.cuts.find(({ id }) => id === waiting.proposal.id)} />
      );
    case "rewrite":
      return <RewriteWords waiting={waiting} desk={desk} />;
    case "edition":
      return (
        <>
          <h2>
            Edition <EditionStamp number={waiting.editionNumber} />
          </h2>
          <p className={styles.piece}>
            <WithFlats text={waiting.pieceTitle} />
          </p>
        </>
      );
  }
}

function RewriteWords({
  waiting: { proposal, pieceTitle },
  desk,
}: {
  waiting: Extract<Waiting, { kind: "rewrite" }>;
  desk: Desk | null;
}) {
  const { terms, reason, number } = proposal;
  return (
    <>
      <h2>
        Rewrite {number}
        {desk && `: ${nameBars(desk.bars, { firstBar: terms.from.barIndex, lastBar: terms.to.barIndex })}`}
      </h2>
      <p className={styles.piece}>
        <WithFlats text={pieceTitle} />
        {terms.words && ` · ${terms.words}`}
      </p>
      {reason && <p className={styles.reason}>“{reason}”</p>}
    </>
  );
}

function ProposalWords({
  waiting,
  cut,
}: {
  waiting: Extract<Waiting, { kind: "proposal" }>;
  cut: DeskCut | undefined;
}) {
  const { proposal, pieceTitle } = waiting;
  return (
    <>
      <h2>
        Cut {proposal.number}
        {cut && `: ${cut.name}`}
      </h2>
      <p className={styles.piece}>
        <WithFlats text={pieceTitle} />
        {cut?.weight && ` · ${sayBarCount(cut.weight.barCount)}`}
      </p>
      {proposal.reason && <p className={styles.reason}>“{proposal.reason}”</p>}
    </>
  );
}

/** Time saved and the soloist's rest, always together. */
function Costs({ desk, cut, who }: { desk: Desk; cut: DeskCut | undefined; who: string }) {
  const weight = cut?.weight;
  if (!weight) return null;
  const soloist = desk.people.find(({ role, hasLeft }) => role === "soloist" && !hasLeft);
  const whose = soloist?.userId === desk.me.userId ? "Your" : `${firstName(soloist?.name ?? who)}’s`;
  return (
    <p className={styles.costs}>
      <b>{sayClock(weight.savedSeconds)} shorter.</b>{" "}
      {weight.rest
        ? `${whose} rest before ${weight.rest.nextEntry.text}: ${sayClock(weight.rest.beforeSeconds)} → ${sayClock(weight.rest.afterSeconds)}.`
        : "It takes no rest."}
    </p>
  );
}
