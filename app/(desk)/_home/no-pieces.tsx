import { ButtonLink } from "@/app/_ui/button";
import { Icon } from "@/app/_ui/icon";
import { Sheet } from "@/app/_ui/sheet";
import type { DeletedPiece } from "@/lib/store/deletion/list-deleted-pieces";
import { DeletedPieces } from "./deleted-pieces";
import styles from "./no-pieces.module.css";
import { OpenInvitation } from "./open-invitation";

/** The first screen before there is any piece. */
export function NoPieces({ deleted }: { deleted: readonly DeletedPiece[] }) {
  return (
    <main className={styles.blank} id="main">
      <h1>Nothing waits for you</h1>
      <p className={styles.below}>Bring a piece, or open the link of a colleague who has brought one.</p>
      <svg className={styles.staff} viewBox="0 0 916 120" aria-hidden="true">
        {[40, 50, 60, 70, 80].map((y) => (
          <path key={y} d={`M0 ${y}H916`} />
        ))}
        <path d="M0 40v40M905 40v40" />
        <path className={styles.end} d="M912 40v40" />
        <path className={styles.rest} d="M240 60H676" />
        <path className={styles.restEnd} d="M240 46v28M676 46v28" />
        <text x="458" y="30">
          your piece
        </text>
      </svg>
      <div className={styles.two}>
        <Sheet className={styles.card}>
          <h2>Bring a piece</h2>
          <p>
            The solo part with the reduction, as MusicXML. You get the tuttis, their lengths and the running
            time, and check them.
          </p>
          <ButtonLink kind="settle" href="/pieces/new">
            <Icon name="plus" /> Bring a piece
          </ButtonLink>
        </Sheet>
        <Sheet className={styles.card}>
          <h2>Answer an invitation</h2>
          <p>Open the link that your colleague sent you, or put it here. It leads straight to the piece.</p>
          <OpenInvitation />
        </Sheet>
      </div>
      <p className={styles.bringIn}>
        <ButtonLink kind="bare" href="/pieces/bring-in">
          <Icon name="upload" /> Bring in a piece that was taken away
        </ButtonLink>
      </p>
      <DeletedPieces pieces={deleted} />
    </main>
  );
}
