"use client";

import { createContext, type ReactNode, useCallback, useContext, useState } from "react";
import { Spoken } from "./spoken";

const Announce = createContext<(words: string) => void>(() => {});

/** Says things to those who hear the page: "Agreed. 8:42 of 9:00." One region for the whole page. */
export function Announcer({ children }: { children: ReactNode }) {
  const [said, setSaid] = useState({ words: "", turn: 0 });
  const announce = useCallback((words: string) => setSaid((last) => ({ words, turn: last.turn + 1 })), []);
  return (
    <Announce.Provider value={announce}>
      {children}
      <Spoken>
        <span role="status">
          {/* A new element each time, so that the same words twice are said twice. */}
          <span key={said.turn}>{said.words}</span>
        </span>
      </Spoken>
    </Announce.Provider>
  );
}

/** @returns a function that says its words once, politely. */
export function useAnnounce(): (words: string) => void {
  return useContext(Announce);
}
