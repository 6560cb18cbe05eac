"use client";

import { WhoMark } from "@/app/_ui/who-mark";
import styles from "./bring-piece.module.css";

export type PlayedHere = "pianist" | "soloist";

const seats = [
  {
    seat: "pianist",
    ink: "pf",
    name: "The piano",
    words: "You read all staves. Your ink is blue, your mark a square.",
  },
  {
    seat: "soloist",
    ink: "so",
    name: "The solo",
    words: "You read your part over the reduction. Your ink is red, your mark a circle.",
  },
] as const;

/** Which of the two players the person is in this piece. */
export function ChooseSeat({
  seat,
  initial,
  isFixed,
  onChoose,
}: {
  seat: PlayedHere;
  initial: string;
  isFixed: boolean;
  onChoose: (seat: PlayedHere) => void;
}) {
  return (
    <fieldset className={styles.seats} disabled={isFixed}>
      <legend className={styles.spoken}>What do you play here?</legend>
      {seats.map((one) => (
        <label key={one.seat} className={styles.seat}>
          <input
            type="radio"
            name="seat"
            value={one.seat}
            checked={seat === one.seat}
            onChange={() => onChoose(one.seat)}
          />
          <WhoMark ink={one.ink} initial={initial} big />
          <span>
            <b>{one.name}</b>
            <span>{one.words}</span>
          </span>
        </label>
      ))}
    </fieldset>
  );
}
