"use client";

import { type ReactNode, useEffect, useId, useRef } from "react";
import styles from "./dialog.module.css";
import { IconButton } from "./icon-button";

/**
 * A dialog over the page, on the platform's own element: it holds the focus, closes on Escape and gives the focus back.
 * It is in the page only while `isOpen`, so its fields start fresh each time.
 */
export function Dialog({
  title,
  isOpen,
  onClose,
  children,
}: {
  title: string;
  isOpen: boolean;
  onClose: () => void;
  children: ReactNode;
}) {
  return isOpen ? <OpenDialog title={title} onClose={onClose} content={children} /> : null;
}

function OpenDialog({ title, onClose, content }: { title: string; onClose: () => void; content: ReactNode }) {
  const element = useRef<HTMLDialogElement>(null);
  const titleId = useId();
  useEffect(() => {
    const dialog = element.current;
    const before = document.activeElement;
    dialog?.showModal();
    return () => {
      dialog?.close();
      if (before instanceof HTMLElement) before.focus();
    };
  }, []);
  return (
    <dialog
      ref={element}
      className={styles.dialog}
      aria-labelledby={titleId}
      onCancel={(event) => {
        event.preventDefault();
        onClose();
      }}
    >
      <header className={styles.head}>
        <h2 id={titleId}>{title}</h2>
        <IconButton icon="cross" label="Close" onClick={onClose} />
      </header>
      {content}
    </dialog>
  );
}
