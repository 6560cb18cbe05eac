"use client";

import { useCallback, useEffect, useRef, useState } from "react";
import type { KeyMove } from "@/lib/hands/widest-held";

export type MidiState =
  /** Not asked for yet: the browser asks the player when it is pressed. */
  | { readonly kind: "not asked" }
  | { readonly kind: "asking" }
  | { readonly kind: "listening"; readonly names: readonly string[] }
  /** A sentence for the player: no keyboard, refused, or a browser without it. */
  | { readonly kind: "without"; readonly sentence: string };

const noSupport = "This browser does not hear keyboards. Tap the keys below instead.";
const refused =
  "The browser was not allowed to hear the keyboard. Tap the keys below, or allow it and press again.";
const noKeyboard = "No keyboard is connected. Connect one and press again, or tap the keys below.";

/** Note on with velocity 0 is note off. Source: MIDI 1.0. */
function readMove(data: Uint8Array, at: number): KeyMove | null {
  const [status = 0, midi = 0, velocity = 0] = data;
  const kind = status & 0xf0;
  if (kind !== 0x90 && kind !== 0x80) return null;
  return { midi, isDown: kind === 0x90 && velocity > 0, at };
}

/**
 * A keyboard that is connected to the computer.
 *
 * @param onMove told of every key that goes down or comes up, by the clock of `performance.now`.
 */
export function useMidi(onMove: (move: KeyMove) => void): { state: MidiState; ask: () => void } {
  const [state, setState] = useState<MidiState>({ kind: "not asked" });
  const tell = useRef(onMove);
  tell.current = onMove;
  const access = useRef<MIDIAccess | null>(null);
  useEffect(() => () => release(access.current), []);
  const ask = useCallback(() => {
    if (typeof navigator.requestMIDIAccess !== "function") {
      return setState({ kind: "without", sentence: noSupport });
    }
    setState({ kind: "asking" });
    navigator
      .requestMIDIAccess({ sysex: false })
      .then((given) => {
        release(access.current);
        access.current = given;
        const listen = () => {
          const inputs = [...given.inputs.values()];
          for (const input of inputs) {
            input.onmidimessage = ({ data, timeStamp }) => {
              const move = data && readMove(data, timeStamp);
              if (move) tell.current(move);
            };
          }
          const names = inputs.map(({ name }) => name ?? "keyboard");
          setState(
            names.length > 0 ? { kind: "listening", names } : { kind: "without", sentence: noKeyboard },
          );
        };
        given.onstatechange = listen;
        listen();
      })
      .catch(() => setState({ kind: "without", sentence: refused }));
  }, []);
  return { state, ask };
}

function release(access: MIDIAccess | null): void {
  if (!access) return;
  access.onstatechange = null;
  for (const input of access.inputs.values()) input.onmidimessage = null;
}
