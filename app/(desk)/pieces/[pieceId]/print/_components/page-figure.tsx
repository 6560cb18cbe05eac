"use client";

import { Button } from "@/app/_ui/button";
import { Evidence } from "@/app/_ui/evidence";
import { Icon } from "@/app/_ui/icon";
import type { PagesPlan, PlannedPage } from "@/lib/engrave/pages/pages-plan";
import type { PrintOptions } from "@/lib/engrave/pdf/print-options";
import type { Pinning } from "./print-pages";
import styles from "./print-pages.module.css";
import { gradeWords, sayBars, sayHands, sayTurn } from "./say-turns";

/** One page as it will be printed, the turn after it, and whether its first bar is pinned. */
export function PageFigure({
  plan,
  page,
  sides,
  picture,
  pinning,
}: {
  plan: PagesPlan;
  page: PlannedPage;
  sides: PrintOptions["sides"];
  picture: string;
  /** Null for who may not. */
  pinning: Pinning | null;
}) {
  return (
    <li className={styles.page}>
      <figure>
        <a href={picture} target="_blank" rel="noreferrer" className={styles.picture}>
          {/* biome-ignore lint/performance/noImgElement: it is made for this person, and an SVG */}
          <img
            src={picture}
            alt={`Page ${page.number} as it will be printed, ${sayBars(page)}`}
            width={plan.width}
            height={plan.height}
            loading="lazy"
          />
        </a>
        <figcaption>
          <strong>Page {page.number}</strong>
          {sayHand(page.number, sides)}, {sayBars(page)}
        </figcaption>
      </figure>
      <Turn page={page} isLast={page.number === plan.pages.length} />
      <Pin plan={plan} page={page} pinning={pinning} />
    </li>
  );
}

/** On which side of an open book a page lies. */
function sayHand(number: number, sides: PrintOptions["sides"]): string {
  if (sides === "single") return "";
  return (number % 2 === 1) === (sides === "facing-right") ? ", right" : ", left";
}

function Turn({ page: { turn }, isLast }: { page: PlannedPage; isLast: boolean }) {
  if (!turn) return isLast ? null : <p className={styles.quiet}>Lies beside the next: nothing to turn.</p>;
  return (
    <div className={styles.turn} data-grade={turn.grade}>
      <p>
        {turn.grade !== "easy" && <Icon name="warning" small />}
        <strong>{gradeWords[turn.grade]}.</strong> {sayTurn(turn)}
      </p>
      {turn.moments.length > 0 && (
        <Evidence summary="What was computed">
          <ul>
            {sayHands(turn).map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </Evidence>
      )}
    </div>
  );
}

function Pin({
  plan,
  page: { number, systems },
  pinning,
}: {
  plan: PagesPlan;
  page: PlannedPage;
  pinning: Pinning | null;
}) {
  const [first] = systems;
  if (!first || number === 1) return null;
  const { sourceIndex, label } = first.firstBar;
  const pin = plan.pins.find(({ barIndex }) => barIndex === sourceIndex);
  return (
    <div className={styles.pinned}>
      {pin && (
        <p>
          Pinned at bar {label} by {pin.pinnedBy}.
        </p>
      )}
      {pinning &&
        (pin ? (
          <Button small disabled={pinning.isBusy} onClick={() => pinning.unpin(sourceIndex)}>
            Take the pin off bar {label}
          </Button>
        ) : (
          <Button kind="bare" small disabled={pinning.isBusy} onClick={() => pinning.pin(sourceIndex)}>
            Pin the break at bar {label}
          </Button>
        ))}
    </div>
  );
}
