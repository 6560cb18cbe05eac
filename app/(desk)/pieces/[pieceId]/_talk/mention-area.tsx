"use client";

import { type ComponentProps, type KeyboardEvent, useId, useMemo, useRef, useState } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { useAnnounce } from "@/app/_ui/announcer";
import { TextArea } from "@/app/_ui/field";
import { inkOf } from "@/app/_ui/party";
import { WhoTag } from "@/app/_ui/who-mark";
import { findMentionBegun, listNameable, matchNames, type Nameable, putName } from "./mention";
import styles from "./mention-area.module.css";

/** A field for words in which "@" offers the names of the piece's people, by key and under the finger. */
export function MentionArea({
  desk,
  value,
  onText,
  onKeyDown,
  ...rest
}: {
  desk: Pick<Desk, "people" | "me">;
  value: string;
  onText: (text: string) => void;
} & Omit<ComponentProps<typeof TextArea>, "value" | "onChange">) {
  const names = useNames(desk, value, onText);
  const { offered, chosen, listId } = names;
  const isOpen = offered.length > 0;
  return (
    <div className={styles.around}>
      <TextArea
        {...rest}
        ref={names.area}
        value={value}
        aria-autocomplete="list"
        aria-haspopup="listbox"
        aria-controls={isOpen ? listId : undefined}
        aria-activedescendant={isOpen ? `${listId}-${chosen}` : undefined}
        onChange={(event) => {
          onText(event.target.value);
          names.look(event.target.value, event.target.selectionStart);
        }}
        onSelect={({ currentTarget: area }) => names.look(area.value, area.selectionStart)}
        onBlur={names.close}
        onKeyDown={(event) => {
          if (isOpen && names.onKey(event)) return event.stopPropagation();
          onKeyDown?.(event);
        }}
      />
      {isOpen && (
        <div className={styles.names} id={listId} role="listbox" aria-label="People of this piece">
          {offered.map((one, index) => (
            // biome-ignore lint/a11y/useKeyWithClickEvents: the field has the keys; the list is never focused
            // biome-ignore lint/a11y/useFocusableInteractive: the field keeps the focus
            <div
              key={one.person.userId}
              id={`${listId}-${index}`}
              role="option"
              aria-selected={index === chosen}
              onPointerDown={(event) => event.preventDefault()}
              onClick={() => names.put(one)}
            >
              <WhoTag ink={inkOf(one.person.role)} initial={one.person.initial} name={one.person.name} />
            </div>
          ))}
        </div>
      )}
    </div>
  );
}

function useNames(desk: Pick<Desk, "people" | "me">, text: string, onText: (text: string) => void) {
  const area = useRef<HTMLTextAreaElement>(null);
  const listId = useId();
  const announce = useAnnounce();
  const nameable = useMemo(() => listNameable(desk), [desk]);
  const [caret, setCaret] = useState<number | null>(null);
  const [chosen, setChosen] = useState(0);
  const begun = caret === null ? null : findMentionBegun(text, caret);
  const offered = begun ? matchNames(nameable, begun.query) : [];
  const put = ({ name }: Nameable) => {
    if (!begun) return;
    const named = putName(text, begun, name);
    onText(named.text);
    setCaret(null);
    // After the new text stands in the field.
    requestAnimationFrame(() => area.current?.setSelectionRange(named.caret, named.caret));
  };
  /** @returns whether the key was one of the list's. */
  const onKey = (event: KeyboardEvent): boolean => {
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (step !== undefined) setChosen((chosen + step + offered.length) % offered.length);
    else if ((event.key === "Enter" || event.key === "Tab") && !event.shiftKey && offered[chosen])
      put(offered[chosen]);
    else if (event.key === "Escape") setCaret(null);
    else return false;
    event.preventDefault();
    return true;
  };
  const look = (now: string, at: number) => {
    const next = findMentionBegun(now, at);
    const count = next ? matchNames(nameable, next.query).length : 0;
    if (count > 0 && offered.length !== count)
      announce(count === 1 ? "1 name offered." : `${count} names offered.`);
    setCaret(next ? at : null);
    setChosen((last) => Math.min(last, Math.max(0, count - 1)));
  };
  return { area, listId, offered, chosen, put, onKey, look, close: () => setCaret(null) };
}
