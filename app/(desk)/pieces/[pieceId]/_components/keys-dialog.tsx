import { Dialog } from "@/app/_ui/dialog";
import styles from "./keys-dialog.module.css";

const keys: readonly (readonly [string, string])[] = [
  ["← →", "bar by bar"],
  ["Shift ← →", "rehearsal letter by letter"],
  ["Alt ← →", "cut by cut"],
  ["Enter", "takes the score there"],
  ["Space", "plays from there, or the marked bars; pauses and goes on"],
  ["M", "marks from here; again: to here"],
  ["C", "proposes a cut of the marked bars"],
  ["N", "writes a comment on the marked bars"],
  ["F", "folds the cuts, or opens them"],
  ["A", "goes to Agree on the open card; Enter agrees"],
  ["D", "goes to Decline on the open card"],
  ["Escape", "lets the marked bars go"],
  ["?", "this list"],
];

/** The keys of the strip and the score. */
export function KeysDialog({ isOpen, onClose }: { isOpen: boolean; onClose: () => void }) {
  return (
    <Dialog title="Keys" isOpen={isOpen} onClose={onClose}>
      <p className={styles.say}>They work while the strip or the score has the focus.</p>
      <dl className={styles.keys}>
        {keys.map(([key, what]) => (
          <div key={key}>
            <dt>
              <kbd>{key}</kbd>
            </dt>
            <dd>{what}</dd>
          </div>
        ))}
      </dl>
    </Dialog>
  );
}
