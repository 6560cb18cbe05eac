"use client";

import { useCallback, useEffect, useMemo, useRef, useState } from "react";
import { Button } from "@/app/_ui/button";
import { TextField } from "@/app/_ui/field";
import { Icon } from "@/app/_ui/icon";
import { IconButton } from "@/app/_ui/icon-button";
import { SayNote, SayProblem } from "@/app/_ui/say";
import { layoutFor } from "@/app/_ui/score/engraving";
import { useWidth } from "@/app/_ui/strip/use-width";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import type { HandsProfile } from "@/lib/hands/hands-profile";
import { barSpanOf } from "@/lib/rewrites/bars-of-terms";
import { isSamePlace, placeOf } from "@/lib/rewrites/editing/event-place";
import { sayPitch } from "@/lib/rewrites/editing/say-pitch";
import { AddByName } from "./add-by-name";
import { EditBar } from "./edit-bar";
import { EditorDrawing } from "./editor-drawing";
import { EditorVerdict } from "./editor-verdict";
import { LeaveDialog } from "./leave-dialog";
import { ListenToDraft, useListenToDraft } from "./listen-to-draft";
import { nearKey } from "./near-key";
import styles from "./note-editor.module.css";
import { readNoteName } from "./note-name";
import { sayEvent } from "./say-event";
import { fifthsAt } from "./staff-height";
import { type Editing, useEditing } from "./use-editing";
import { useEditorKeys } from "./use-editor-keys";
import { type PassageHere, usePassage } from "./use-passage";

/**
 * Writes a rewrite note by note, within its bars and nowhere else.
 *
 * @param terms where it begins: an ossia that was suggested, or the print. @param pace share of the tempo that was read.
 */
export function NoteEditor({
  pieceId,
  sourceHash,
  terms,
  hands,
  pace,
  onKeep,
  onLeave,
}: {
  pieceId: string;
  sourceHash: string;
  terms: RewriteTerms;
  hands: HandsProfile;
  pace: number;
  onKeep: (terms: RewriteTerms) => void;
  onLeave: () => void;
}) {
  const [element, width] = useWidth<HTMLDivElement>();
  const layout = width ? layoutFor(width) : null;
  const span = useMemo(() => barSpanOf(terms), [terms]);
  const place = useMemo(() => ({ pieceId, sourceHash, ...span }), [pieceId, sourceHash, span]);
  const drawn = useRef<PassageHere["passage"]>(null);
  const editing = useEditing(terms, place, drawn);
  const here = usePassage(layout && { ...place, rewrite: editing.terms, as: "instead", layout });
  drawn.current = here.passage;
  const listening = useListenToDraft(editing.terms, pace);
  const [isAdding, setAdding] = useState(false);
  const [isLeaving, setLeaving] = useState(false);
  const read = useCallback(
    (text: string) => {
      const { choice, terms: standing } = editing;
      if (!choice || !here.passage) return null;
      return readNoteName(text, fifthsAt(here.passage, choice.place), nearKey(standing, choice));
    },
    [editing, here.passage],
  );
  const addByLetter = useCallback(
    (letter: string) => {
      const pitch = read(letter);
      if (pitch) editing.add(pitch);
    },
    [read, editing],
  );
  const toggleAdding = useCallback(() => setAdding((last) => !last), []);
  const onKeyDown = useEditorKeys(editing, {
    addByLetter,
    listen: listening.press,
    onAdding: toggleAdding,
  });
  const section = useRef<HTMLElement>(null);
  // The button that opened it is gone: keys go on here.
  useEffect(() => section.current?.focus({ preventScroll: true }), []);
  const leave = () => (editing.isChanged ? setLeaving(true) : onLeave());
  return (
    <>
      <section
        ref={section}
        tabIndex={-1}
        className={styles.editor}
        aria-label="Write your own"
        onKeyDown={onKeyDown}
      >
        <header className={styles.head}>
          <h3>Write your own</h3>
          <IconButton icon="take-back" label="Undo" disabled={!editing.canUndo} onClick={editing.undo} />
          <IconButton
            icon="take-back"
            label="Do again"
            className={styles.again}
            disabled={!editing.canRedo}
            onClick={editing.redo}
          />
          <ListenToDraft {...listening} />
        </header>
        {editing.isFound && (
          <SayNote>
            What you wrote here before is still there.{" "}
            <button type="button" className={styles.link} onClick={editing.beginAnew}>
              Begin anew
            </button>
          </SayNote>
        )}
        <div ref={element} className={styles.music} aria-busy={here.isWorking}>
          {here.passage && here.drawn?.rewrite ? (
            <EditorDrawing passage={here.passage} drawn={here.drawn.rewrite} {...{ editing, isAdding }} />
          ) : (
            here.problem === null && <p className={styles.coming}>The bars are being drawn.</p>
          )}
        </div>
        {here.problem && (
          <SayProblem>
            {here.problem}{" "}
            <button type="button" className={styles.link} onClick={here.retry}>
              Try again
            </button>
          </SayProblem>
        )}
        <ChosenLine editing={editing} passage={here.passage} />
        <EditBar editing={editing} isAdding={isAdding} onAdding={setAdding} />
        <div className={styles.below}>
          <div className={styles.fields}>
            <AddByName read={read} onAdd={editing.add} isDisabled={editing.choice === null} />
            <TextField
              label="What you did, in a few words"
              value={editing.words}
              maxLength={200}
              onChange={(event) => editing.setWords(event.target.value)}
            />
          </div>
          <EditorVerdict terms={editing.terms} hands={hands} pace={pace} />
        </div>
        <footer className={styles.foot}>
          <Button kind="settle" onClick={() => onKeep({ ...editing.terms, words: editing.words.trim() })}>
            <Icon name="check" small /> Keep
          </Button>
          <Button kind="bare" onClick={leave}>
            Leave
          </Button>
          <span className={styles.kept}>A draft stays in this tab until you keep it or leave.</span>
        </footer>
      </section>
      <LeaveDialog
        isOpen={isLeaving}
        onStay={() => setLeaving(false)}
        onLeave={() => {
          editing.forget();
          onLeave();
        }}
      />
    </>
  );
}

/** What is chosen, or what could not be done with it. */
function ChosenLine({ editing, passage }: { editing: Editing; passage: PassageHere["passage"] }) {
  const { choice, terms, problem } = editing;
  const event = choice && terms.events.find((each) => isSamePlace(placeOf(each), choice.place));
  if (problem) return <SayProblem>{problem}</SayProblem>;
  if (!event || !passage)
    return (
      <p className={styles.chosen}>
        Press a note, or go to it with the arrow keys. A second press takes one note of a chord.
      </p>
    );
  return (
    <p className={styles.chosen}>
      {choice?.pitch && <b>{sayPitch(choice.pitch)} of </b>}
      {sayEvent(event, passage.bars)}
    </p>
  );
}
