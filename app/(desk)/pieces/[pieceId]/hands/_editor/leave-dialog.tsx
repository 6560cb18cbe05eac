"use client";

import { Button } from "@/app/_ui/button";
import { Dialog } from "@/app/_ui/dialog";
import styles from "./leave-dialog.module.css";

/** Asks before something that was written is left behind. */
export function LeaveDialog({
  isOpen,
  onStay,
  onLeave,
}: {
  isOpen: boolean;
  onStay: () => void;
  onLeave: () => void;
}) {
  return (
    <Dialog title="Leave without keeping it?" isOpen={isOpen} onClose={onStay}>
      <p className={styles.words}>What you wrote in these bars is not kept yet, and leaving forgets it.</p>
      <div className={styles.buttons}>
        <Button kind="settle" onClick={onStay}>
          Go on writing
        </Button>
        <Button onClick={onLeave}>Leave and forget it</Button>
      </div>
    </Dialog>
  );
}
