"use client";

import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { Icon } from "@/app/_ui/icon";
import { WithFlats } from "@/app/_ui/music-sign";
import { SayProblem } from "@/app/_ui/say";
import { Sheet } from "@/app/_ui/sheet";
import type { DeletedPiece } from "@/lib/store/deletion/list-deleted-pieces";
import { useAction } from "../pieces/[pieceId]/_components/use-action";
import { restorePieceAction } from "../pieces/[pieceId]/actions/restore-piece";
import styles from "./deleted-pieces.module.css";

/** Pieces that were deleted and can still be brought back; nothing when there are none. */
export function DeletedPieces({ pieces }: { pieces: readonly DeletedPiece[] }) {
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  if (pieces.length === 0) return null;
  return (
    <section className={styles.deleted} aria-labelledby="deleted-pieces">
      <h2 id="deleted-pieces">Deleted pieces</h2>
      {problem && <SayProblem>{problem}</SayProblem>}
      <Sheet>
        <ul className={styles.list}>
          {pieces.map(({ id, title, composer, deletedBy, daysLeft }) => (
            <li key={id}>
              <p>
                <b>
                  <WithFlats text={title} />
                </b>
                <span>
                  {[composer, deletedBy && `deleted by ${deletedBy}`, sayDays(daysLeft)]
                    .filter(Boolean)
                    .join(" · ")}
                </span>
              </p>
              <Button
                small
                disabled={isBusy}
                aria-label={`Bring back ${title}`}
                onClick={async () => {
                  const restored = await run(restorePieceAction, { pieceId: id });
                  if (restored.ok) announce(`${title} is back.`);
                }}
              >
                <Icon name="take-back" small /> Bring back
              </Button>
            </li>
          ))}
        </ul>
      </Sheet>
    </section>
  );
}

const sayDays = (days: number) =>
  days === 1 ? "gone for good in a day" : `${days} days left to bring it back`;
